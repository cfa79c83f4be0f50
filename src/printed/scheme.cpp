#include "inkturn/printed/paper.hpp"

#include "printed/codes.hpp"
#include "printed/marks.hpp"
#include "printed/parts.hpp"
#include "printed/strips.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>

namespace inkturn {
namespace {

using namespace printed;

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
    PrintedSchemePart found{part.label, entry.codes};
    if (!found.codes.empty()) {
        const Marks sum = marks_of_codes(found.codes);
        if (part.marks != sum) {
            scheme.doubts.push_back(
                {entry.page,
                 "part " + part.label + ": its codes " + found.codes + " add up to " +
                     marks_text(sum.count()) + ", but the paper " +
                     (part.marks ? "says " + std::to_string(part.marks->count()) : "says nothing")});
            found.codes.clear();
        }
    }
    scheme.parts.push_back(std::move(found));
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
