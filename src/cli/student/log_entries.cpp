#include "cli/student/log_entries.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/codes.hpp"
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

/// The cells of a row: with tabs between them as a spreadsheet copies them, else with semicolons, commas or
/// blanks.
Cells cells_of(const std::string& line) {
    const std::string separators{"\t;,"};
    const auto found = std::find_if(separators.begin(), separators.end(),
                                    [&](char c) { return line.find(c) != std::string::npos; });
    if (found == separators.end())
        return words_of(line);
    Cells cells(1);
    for (const char c : line)
        if (c == *found)
            cells.emplace_back();
        else if (c != ' ' || *found == ' ')
            cells.back() += c;
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

/// Marks of a question from one line: Enter means full, `-` none of it attempted; entries, or the marks of
/// its parts in their order.
std::vector<PartMarks> marks_in_line(const std::string& line, const Paper& paper, const Question& question) {
    const Cells words = words_of(line);
    if (words.empty())
        return marks_from_entries(paper, question.parts, {}, Rest::full);
    if (words == Cells{"-"})
        return marks_from_entries(paper, question.parts, {}, Rest::none);
    std::vector<Entry> entries;
    if (line.find('=') != std::string::npos) {
        for (const std::string& word : words)
            entries.push_back(parse_entry(word));
        return marks_from_entries(paper, question.parts, entries, Rest::full);
    }
    if (words.size() != question.parts.size())
        throw Error("question " + question.label + " has " + count_text(question.parts.size(), "part") +
                    ": type the marks of each, or such as " + paper.parts()[question.parts.back()].label +
                    "=1:slip for those that weren't full");
    for (std::size_t i = 0; i < words.size(); ++i)
        entries.push_back({paper.parts()[question.parts[i]].label, words[i], std::nullopt});
    return marks_from_entries(paper, question.parts, entries, std::nullopt);
}

std::string prompt_of(const Paper& paper, const Question& question) {
    std::string parts;
    for (const std::size_t part : question.parts)
        parts += (parts.empty() ? "" : ", ") + paper.parts()[part].label + " of " +
                 std::to_string(paper.parts()[part].max.count());
    return "Question " + question.label +
           (question.parts.size() > 1 ? " (" + parts + "): " : " of " + marks_number(question.marks) + ": ");
}

/// `[so far 4 3:recall] `; empty where nothing was typed yet.
std::string so_far(const std::optional<std::vector<PartMarks>>& answer) {
    if (!answer)
        return "";
    std::string text = "[so far";
    for (const PartMarks& marks : *answer)
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

std::optional<std::vector<PartMarks>> ask_for_marks(const Context& context, const Paper& paper) {
    context.out << context.heading(paper.id()) << ": one line per question. Enter: full marks in time.\n"
                << "Else the marks of its parts, such as 3 2+1:slip, or - if it was not attempted;\n"
                << "< goes back a question, q leaves without saving.\n\n"
                << std::flush;
    std::vector<std::optional<std::vector<PartMarks>>> answers(paper.questions().size());
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
    std::vector<PartMarks> parts(paper.parts().size());
    for (std::size_t i = 0; i < answers.size(); ++i)
        for (std::size_t j = 0; j < answers[i]->size(); ++j)
            parts[paper.questions()[i].parts[j]] = (*answers[i])[j];
    count_chosen(paper, parts);
    context.out << '\n';
    return parts;
}

} // namespace inkturn
