#include "view/text/findings.hpp"

#include "view/text/analysis.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_labels = 4;

std::string decision_text(CostFinding::Decision decision) {
    switch (decision) {
    case CostFinding::Decision::leave:
        return "That is little: nothing needs to be taught again.";
    case CostFinding::Decision::find_out_why:
        return "More than half of that was not tried: ask why before teaching it again.";
    case CostFinding::Decision::teach_all:
        return "The strongest by total did little better than the weakest: teach it again to all.";
    case CostFinding::Decision::teach_some:
        return "The strongest by total did much better than the weakest: take it up with those who lost it.";
    case CostFinding::Decision::go_over:
        return "Go over it with all, then set practice to those who need it.";
    }
    return "";
}

std::string decision_text(TimeFinding::Decision decision) {
    switch (decision) {
    case TimeFinding::Decision::leave:
        return "Leave the pace as it is.";
    case TimeFinding::Decision::speak_to_some:
        return "Speak to them: the others need no work on pace.";
    case TimeFinding::Decision::practise_pace:
        return "Practise the pace with all: the next paper by its checkpoints (inkturn pace).";
    }
    return "";
}

std::string decision_text(const Paper& paper, const TrustFinding& found) {
    switch (found.decision) {
    case TrustFinding::Decision::check_marking:
        return "Check the marking of " + labels_text(paper, found.parts) + " before acting on any of this.";
    case TrustFinding::Decision::set_another:
        return "Where a grade hangs on fewer marks, set another paper before deciding it.";
    case TrustFinding::Decision::judge_nobody:
        return "Decide nothing about a single candidate by this paper alone.";
    }
    return "";
}

std::string on_what(const Paper& paper, const CostFinding& found) {
    const std::string labels = labels_text(paper, found.parts);
    return found.topic.empty() ? labels : short_name(found.topic) + " (" + labels + ")";
}

std::string finding_text(const Paper& paper, const CostFinding& found) {
    const std::string lost =
        one_decimal(found.lost) + (found.max ? " of " + counted_marks(*found.max) : std::string(" marks"));
    return "On average " + lost + " were lost in " + on_what(paper, found) +
           (found.compared == 1   ? "."
            : found.topic.empty() ? ": no other part cost more."
                                  : ": no other topic cost more.");
}

std::string finding_text(const Paper& paper, const TimeFinding& found) {
    if (!found.most_at)
        return "To judge by the marks, nobody ran out of time" +
               (found.went_back == 0 ? std::string(".")
                                     : "; " + went_back_text(found.went_back, found.candidates) + ".");
    const bool all_there = found.ran_out_there == found.ran_out;
    return "To judge by the marks, " + std::to_string(found.ran_out) + " of " +
           count_text(found.candidates, "candidate") + " ran out of time, " +
           (all_there ? "" : std::to_string(found.ran_out_there) + " of them ") + "at " +
           paper.part(*found.most_at).label + ".";
}

std::string finding_text(const Paper& paper, const PaperAnalysis& analysis, const TrustFinding& found) {
    if (found.decision == TrustFinding::Decision::check_marking)
        return "In " + labels_text(paper, found.parts) + " those who did well elsewhere did worse.";
    if (!analysis.standard_error.has_value())
        return why_no_error(analysis);
    return "A total typically lies " + one_decimal(analysis.standard_error.value()) +
           " marks off what the same candidate would average on papers like this one.";
}

} // namespace

std::string went_back_text(std::size_t went_back, std::size_t candidates) {
    return std::to_string(went_back) + " of " + count_text(candidates, "candidate") +
           " finished the last part in time and earlier ones in overtime";
}

std::string labels_text(const Paper& paper, const std::vector<std::size_t>& positions) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < std::min(positions.size(), max_labels); ++i)
        labels.push_back(paper.part(positions[i]).label);
    if (positions.size() > max_labels)
        labels.push_back(std::to_string(positions.size() - max_labels) + " more");
    return joined(labels, " and ");
}

std::vector<FindingText> finding_texts(const Paper& paper, const PaperAnalysis& analysis,
                                       const Findings& findings) {
    return {{finding_text(paper, findings.cost), decision_text(findings.cost.decision)},
            {finding_text(paper, findings.time), decision_text(findings.time.decision)},
            {finding_text(paper, analysis, findings.trust), decision_text(paper, findings.trust)}};
}

std::string finding_lines(const std::vector<FindingText>& texts) {
    constexpr std::size_t indent = 3;
    std::string lines;
    for (std::size_t i = 0; i < texts.size(); ++i)
        lines += wrapped(std::to_string(i + 1) + ". " + texts[i].finding + " " + texts[i].decision,
                         text_width() - indent, indent) +
                 '\n';
    return lines;
}

} // namespace inkturn
