#include "cli/student/log_entries.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/noted_entries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <istream>
#include <iterator>
#include <ostream>
#include <sstream>

namespace inkturn {
namespace {

using Cells = std::vector<std::string>;

Cells words_of(const std::string& line) {
    std::istringstream words(line);
    return {std::istream_iterator<std::string>(words), {}};
}

/// A cell that was quoted, as CSV may have it, without its quotes.
std::string without_quotes(const std::string& cell) {
    const bool quoted = cell.size() >= 2 && cell.front() == '"' && cell.back() == '"';
    return quoted ? cell.substr(1, cell.size() - 2) : cell;
}

/// The cells of a row: with tabs between them as a spreadsheet copies them, else with semicolons, commas or
/// blanks.
Cells cells_of(const std::string& line) {
    const std::string separators{"\t;,"};
    const auto found = std::find_if(separators.begin(), separators.end(),
                                    [&](char c) { return line.find(c) != std::string::npos; });
    Cells cells(1);
    if (found == separators.end())
        cells = words_of(line);
    for (std::size_t i = 0; found != separators.end() && i < line.size(); ++i)
        if (line[i] == *found)
            cells.emplace_back();
        else if (line[i] != ' ')
            cells.back() += line[i];
    for (std::string& cell : cells)
        cell = without_quotes(cell);
    return cells;
}

std::vector<std::string> lines_of(std::istream& in) {
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) {
        if (!line.empty() && line.back() == '\r')
            line.pop_back();
        if (!words_of(line).empty())
            lines.push_back(line);
    }
    return lines;
}

/// One of the paper's parts, by the label in a cell.
std::string label_in(const std::string& cell, const Paper& paper) {
    if (!paper.find_part(cell))
        throw Error("'" + cell + "' in the first row is not a part of " + paper.id(), Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    return cell;
}

std::vector<Entry> entries_in_rows(const Cells& labels, const Cells& marks) {
    if (labels.size() != marks.size())
        throw Error("the row has " + count_text(marks.size(), "cell") + " for " +
                    count_text(labels.size(), "part") +
                    ": give one for each part, - where it was not attempted");
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < labels.size(); ++i)
        if (!marks[i].empty())
            entries.push_back({labels[i], marks[i], std::nullopt});
    return entries;
}

/// A word typed, in quotes or not.
struct TypedWord {
    std::string text;
    bool quoted;
};

/// Words with blanks between them; single or double quotes hold some together. Throws Error where a quote
/// stays open.
std::vector<TypedWord> typed_words(const std::string& line) {
    std::vector<TypedWord> words;
    for (std::size_t i = line.find_first_not_of(" \t"); i < line.size();) {
        const char quote = line[i] == '\'' || line[i] == '"' ? line[i] : '\0';
        const std::size_t start = i + (quote ? 1 : 0);
        const std::size_t end = quote ? line.find(quote, start) : line.find_first_of(" \t", start);
        if (quote && end == std::string::npos)
            throw Error(std::string("a note is not closed: end it with ") + quote);
        words.push_back({line.substr(start, end - start), quote != '\0'});
        i = end == std::string::npos ? end : line.find_first_not_of(" \t", end + (quote ? 1 : 0));
    }
    return words;
}

/// Entries such as 2b=1:slip, each with the note after it.
NotedEntries labelled(const std::vector<TypedWord>& words) {
    std::vector<std::string> texts;
    for (const TypedWord& word : words)
        texts.push_back(word.text);
    return parse_noted_entries(texts);
}

/// Marks of the parts in their order, each with the quoted note after it.
NotedEntries in_order(const std::vector<TypedWord>& words, const Paper& paper, const Question& question) {
    NotedEntries typed;
    for (const TypedWord& word : words) {
        if (!word.quoted && typed.entries.size() < question.parts.size())
            typed.entries.push_back(
                {paper.part(question.parts[typed.entries.size()]).label, word.text, std::nullopt});
        else if (word.quoted && !typed.entries.empty())
            add_note(typed.notes, typed.entries.back().part + "=" + word.text);
        else
            throw Error(word.quoted ? "a note stands after the marks of its part"
                                    : "question " + question.label + " has " +
                                          count_text(question.parts.size(), "part") + ": '" + word.text +
                                          "' is one too many; a note stands in quotes");
    }
    if (typed.entries.size() < question.parts.size())
        throw Error("question " + question.label + " has " + count_text(question.parts.size(), "part") +
                    ": type the marks of each, or only those that weren't full, such as " +
                    paper.part(question.parts.back()).label + "=1:slip");
    return typed;
}

/// Marks of a question from one line: Enter means full, `-` none of it attempted; entries, or the marks of
/// its parts in their order. Notes may follow marks.
AskedMarks marks_in_line(const std::string& line, const Paper& paper, const Question& question) {
    const std::vector<TypedWord> words = typed_words(line);
    if (words.empty())
        return {marks_from_entries(paper, question.parts, {}, Rest::full), {}};
    if (words.size() == 1 && words[0].text == "-")
        return {marks_from_entries(paper, question.parts, {}, Rest::none), {}};
    const bool is_labelled = words[0].text.find('=') != std::string::npos;
    const NotedEntries typed = is_labelled ? labelled(words) : in_order(words, paper, question);
    check_fits(paper, question.parts, typed.notes);
    return {marks_from_entries(paper, question.parts, typed.entries,
                               is_labelled ? std::optional(Rest::full) : std::nullopt),
            typed.notes};
}

/// What may be typed, before the first question and at `?`.
void print_how(const Context& context) {
    context.out << "One line per question. Enter: full marks in time.\n"
                   "Else the marks of its parts, such as 3 2+1:slip, or - if it was not attempted;\n"
                   "a note may follow marks in quotes: 3 2+1:slip 'sign of cos'.\n"
                   "< goes back a question, ? shows this again, q leaves without saving.\n\n"
                << std::flush;
}

std::string prompt_of(const Paper& paper, const Question& question) {
    std::string parts;
    for (const std::size_t part : question.parts)
        parts += (parts.empty() ? "" : ", ") + paper.parts()[part].label + " of " +
                 std::to_string(paper.parts()[part].max.count());
    return "Question " + question.label +
           (question.parts.size() > 1 ? " (" + parts + "): "
                                      : " (of " + marks_number(question.marks) + "): ");
}

/// `[so far 4 3:recall] `; empty where nothing was typed yet.
std::string so_far(const std::optional<AskedMarks>& answer) {
    if (!answer)
        return "";
    std::string text = "[so far";
    for (const PartMarks& marks : answer->parts)
        text += " " + to_text(marks);
    return text + "] ";
}

} // namespace

std::vector<Entry> read_pasted_entries(std::istream& in, const Paper* paper) {
    const std::vector<std::string> lines = lines_of(in);
    if (lines.empty())
        throw Error("standard input is empty: paste entries such as 2b=1:slip, or a row of marks");
    const bool are_entries = lines.front().find('=') != std::string::npos;
    if (!are_entries && !paper)
        throw Error("a row of marks needs a paper that is on file: paste entries, each with its /MAX");
    if (are_entries) {
        std::vector<Entry> entries;
        for (const std::string& line : lines)
            for (const std::string& word : words_of(line))
                entries.push_back(parse_entry(word));
        return entries;
    }
    if (lines.size() > 2)
        throw Error("one row of marks is read, or a row of labels and one of marks; these are " +
                    std::to_string(lines.size()) + " rows. A class's file is for 'inkturn class import'");
    Cells labels;
    if (lines.size() == 2)
        for (const std::string& cell : cells_of(lines.front()))
            labels.push_back(label_in(cell, *paper));
    else
        for (const Part& part : paper->parts())
            labels.push_back(part.label);
    return entries_in_rows(labels, cells_of(lines.back()));
}

std::optional<AskedMarks> ask_for_marks(const Context& context, const Paper& paper, Day day) {
    context.out << context.heading(paper.id()) << ", sat on " << day_text(day)
                << (day == context.date_today() ? " (--date D for another day)" : "") << ".\n";
    print_how(context);
    std::vector<std::optional<AskedMarks>> answers(paper.questions().size());
    for (std::size_t at = 0; at < answers.size();) {
        const Question& question = paper.questions()[at];
        context.out << prompt_of(paper, question) << so_far(answers[at]) << std::flush;
        std::string line;
        if (!std::getline(context.in, line) || line == "q")
            return std::nullopt;
        if (line == "<") {
            at -= at > 0 ? 1 : 0;
            continue;
        }
        if (line == "?") {
            print_how(context);
            continue;
        }
        if (line.empty() && answers[at]) { // what was typed before stays
            ++at;
            continue;
        }
        try {
            answers[at] = marks_in_line(line, paper, question);
            ++at;
        } catch (const Error& error) {
            context.out << wrapped(visible(error.what()), text_width(), 2) << '\n';
        }
    }
    AskedMarks all{std::vector<PartMarks>(paper.parts().size()), {}};
    for (std::size_t i = 0; i < answers.size(); ++i) {
        for (std::size_t j = 0; j < answers[i]->parts.size(); ++j)
            all.parts[paper.questions()[i].parts[j]] = answers[i]->parts[j];
        all.notes.insert(answers[i]->notes.begin(), answers[i]->notes.end());
    }
    count_chosen(paper, all.parts);
    context.out << '\n';
    return all;
}

} // namespace inkturn
