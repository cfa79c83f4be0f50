#include "inkturn/printed/corrected_paper.hpp"

#include "printed/sums.hpp"

#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <string>

namespace inkturn {
namespace {

using printed::find_label;

std::optional<std::size_t> page_of(const PrintedQuestion& question) {
    return question.strips.empty() ? std::nullopt : std::make_optional(question.strips.front().page);
}

/// The total and strips of a question as it was read; without them where it was not.
PrintedQuestion as_read(const std::vector<PrintedQuestion>& read, const std::string& label) {
    const auto found = find_label(read, label);
    return found == read.end() ? PrintedQuestion{label, {}, std::nullopt, {}}
                               : PrintedQuestion{label, {}, found->total, found->strips};
}

void add_part(PrintedPaper& paper, const PrintedPaper& read, const Part& part) {
    const std::string label(question_of(part.label));
    if (find_label(paper.questions, label) == paper.questions.end())
        paper.questions.push_back(as_read(read.questions, label));
    const auto place = find_label(paper.questions, label) - paper.questions.begin();
    paper.questions[static_cast<std::size_t>(place)].parts.push_back(paper.parts.size());
    const auto found = find_label(read.parts, part.label);
    const PrintedPart as_read = found == read.parts.end() ? PrintedPart{} : *found;
    paper.parts.push_back({part.label, part.max, as_read.page, as_read.words});
}

void add_doubts(PrintedPaper& paper, const std::vector<PrintedQuestion>& read) {
    for (const PrintedQuestion& question : paper.questions) {
        printed::doubt_total(paper.doubts, paper, question, page_of(question));
        if (find_label(read, question.label) == read.end())
            paper.doubts.push_back(
                {std::nullopt, "question " + question.label + " was not found in print: it has no picture"});
    }
    for (const PrintedQuestion& question : read)
        if (find_label(paper.questions, question.label) == paper.questions.end())
            paper.doubts.push_back(
                {page_of(question), "question " + question.label + " was read here but has no part"});
    int sum = 0;
    for (const PrintedQuestion& question : paper.questions)
        sum += marks_of(paper, question).count();
    if (paper.total)
        printed::doubt_sum(paper.doubts, std::nullopt, "the parts", sum, "the paper", paper.total->count());
}

} // namespace

PrintedPaper corrected(const PrintedPaper& read, const std::vector<Part>& parts) {
    PrintedPaper paper{read.duration, read.total, {}, {}, {}, {}};
    for (const Part& part : parts)
        add_part(paper, read, part);
    add_doubts(paper, read.questions);
    return paper;
}

PrintedScheme corrected(const PrintedScheme& read, const std::vector<Part>& parts) {
    PrintedScheme scheme{{}, read.questions, {}};
    for (const Part& part : parts)
        scheme.parts.push_back({part.label, part.codes});
    return scheme;
}

} // namespace inkturn
