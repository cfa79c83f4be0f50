#include "inkturn/printed/paper.hpp"

#include "printed/marks.hpp"
#include "printed/parts.hpp"
#include "printed/strips.hpp"
#include "printed/text_reader.hpp"

#include "inkturn/paper/codes.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace inkturn {
namespace {

using namespace printed;

constexpr double column_from = 0.35; // of the page's width: codes are to the right of the answers
constexpr std::size_t max_code_word_length = 24;
constexpr std::size_t max_letters_before = 3;
constexpr std::size_t max_letters_after = 4;

/// The codes joined in a word, such as M1 and A1 of `M1A1`; none where anything else is in it.
std::vector<std::string> codes_in(const std::string& text) {
    std::vector<std::string> codes;
    for (TextReader reader(text); !reader.at_end();) {
        std::string code(reader.take_while(is_lower));
        const std::string_view capitals = reader.take_while(is_upper);
        const std::string_view digits = reader.take_while(is_digit);
        const bool is_code = !capitals.empty() && capitals.back() != 'Q' && capitals.back() != 'O' &&
                             code.size() + capitals.size() <= max_letters_before && !digits.empty() &&
                             digits.size() <= 2 && digits.front() != '0';
        std::size_t letters_after = 0;
        code.append(capitals).append(digits);
        for (; is_lower(reader.at()) && !(reader.at() == 'd' && (reader.at(1) == 'M' || reader.at(1) == 'A'));
             ++letters_after)
            code += reader.take_while(is_lower, 1);
        if (!is_code || letters_after > max_letters_after)
            return {};
        codes.push_back(std::move(code));
    }
    return codes;
}

/// Codes on one line.
struct LineCodes {
    std::size_t line;               ///< position in Layout::lines
    std::vector<std::string> codes; ///< as codes.hpp reads them, such as `A1ft`
};

/// Codes side by side in a line.
struct Group {
    LineCodes read;
    bool stands_alone; ///< no text right after it, as there is in notes: `M1 for a sketch`
};

std::vector<Group> groups_of(const Line& line, std::size_t at, Points from) {
    std::vector<Group> groups;
    bool is_open = false;
    for (std::size_t i = 0; i < line.words.size(); ++i) {
        const std::string& word = line.words[i]->text;
        const std::string text = word.size() > max_code_word_length ? "" : letters_and_digits(word);
        const bool is_near = i > 0 && gap_before(line, i) < 2 * line.height;
        if (is_open && is_near && is_one_of(text, {"ft", "cao", "cso", "oe", "dep", "isw"})) {
            std::string& code = groups.back().read.codes.back();
            code += is_digit(code.back()) ? text : "";
            continue;
        }
        std::vector<std::string> codes = codes_in(text);
        if (codes.empty() || line.words[i]->box.left < from) {
            if (is_open && gap_before(line, i) < 0.7 * line.height && !text.empty())
                groups.back().stands_alone = false;
            is_open = false;
            continue;
        }
        if (!is_open || !is_near)
            groups.push_back({{at, {}}, true});
        is_open = true;
        auto& all = groups.back().read.codes;
        all.insert(all.end(), codes.begin(), codes.end());
    }
    return groups;
}

/// The codes that stand alone right of the answers, in reading order.
std::vector<LineCodes> recognise_codes(const Layout& layout) {
    std::vector<LineCodes> found;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        for (Group& group : groups_of(line, i, column_from * layout.regions[line.region].box.right))
            if (group.stands_alone)
                found.push_back(std::move(group.read));
    }
    return found;
}

RowSpan without_table_heads(const Layout& layout, RowSpan span) {
    while (span.end > span.first + 1 && heads_table(layout.lines[span.end - 1]))
        --span.end;
    return span;
}

/// The scheme's questions. If it shows neither codes nor marks in brackets, by their numbers alone.
std::vector<QuestionLabels> questions_in(const Layout& layout, const std::vector<LineCodes>& codes) {
    std::vector<std::size_t> lines = lines_with_marks(recognise_marks(layout));
    for (const LineCodes& read : codes)
        lines.insert(std::upper_bound(lines.begin(), lines.end(), read.line), read.line);
    if (lines.empty()) {
        lines.resize(layout.lines.size());
        std::iota(lines.begin(), lines.end(), std::size_t{0});
    }
    const std::vector<LineStart> line_starts = starts_of(layout);
    const Starts starts = read_starts(layout, line_starts, lines, {});
    std::vector<Doubt> unused; // the paper's parts show what is missing
    std::vector<QuestionLabels> questions = recognise_questions(starts, {}, unused);
    recognise_sub_parts(starts, questions, unused);
    return questions;
}

/// Where a label is in the scheme, and what is written there.
struct Written {
    std::size_t page;
    std::string codes;
};

std::map<std::string, Written> entries_of(const Layout& layout, const std::vector<QuestionLabels>& questions,
                                          const std::vector<LineCodes>& codes) {
    std::map<std::string, Written> entries;
    for (const QuestionLabels& question : questions)
        for (std::size_t i = 0; i < question.labels.size(); ++i) {
            const LabelOnLine& label = question.labels[i];
            Written written{layout.page_of(label.line), ""};
            for (const LineCodes& read : codes)
                if (label.line <= read.line && read.line < question.end_of(i))
                    for (const std::string& code : read.codes)
                        written.codes += (written.codes.empty() ? "" : " ") + code;
            entries.emplace(label.label, std::move(written));
        }
    return entries;
}

void append_part(PrintedScheme& scheme, const PrintedPart& part, const Written& entry) {
    const Marks sum = marks_of_codes(entry.codes);
    const bool fits = entry.codes.empty() || part.marks == sum;
    if (!fits)
        scheme.doubts.push_back(
            {entry.page, "part " + part.label + ": its codes " + entry.codes + " add up to " +
                             marks_text(sum.count()) + ", but the paper says " +
                             (part.marks ? std::to_string(part.marks->count()) : "nothing")});
    scheme.parts.push_back({part.label, fits ? entry.codes : ""});
}

} // namespace

PrintedScheme recognise_scheme(const std::vector<PrintedPage>& pages, const PrintedPaper& paper) {
    const Layout layout = layout_of(pages, Columns::none);
    const std::vector<LineCodes> codes = recognise_codes(layout);
    const std::vector<QuestionLabels> questions = questions_in(layout, codes);

    PrintedScheme scheme;
    const std::map<std::string, Written> entries = entries_of(layout, questions, codes);
    for (const PrintedPart& part : paper.parts) {
        const auto entry = entries.find(part.label);
        if (entry != entries.end())
            append_part(scheme, part, entry->second);
        else
            scheme.doubts.push_back(
                {std::nullopt, "part " + part.label + " was not found in the mark scheme"});
    }
    std::vector<RowSpan> spans;
    for (const QuestionLabels& question : questions)
        spans.push_back(without_table_heads(layout, {question.line, question.end, question.line}));
    const auto strips = strips_of(layout, Shifts(), spans);
    for (std::size_t i = 0; i < questions.size(); ++i)
        if (find_label(paper.questions, questions[i].label) != paper.questions.end())
            scheme.questions.push_back({questions[i].label, {}, std::nullopt, strips[i]});
    return scheme;
}

} // namespace inkturn
