#include "inkturn/statistics/findings.hpp"

#include "core/statistics/remarks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace inkturn {
namespace {

constexpr int percent = 100;
constexpr std::int64_t hardly_lost_below = 10;    ///< percent of the marks; above is what is remarked easy
constexpr std::int64_t mostly_untried_above = 50; ///< percent of the marks lost
constexpr std::size_t many_ran_out_from = 20;     ///< percent of the candidates
constexpr double rounding = 1e-9;                 ///< of figures that are added up

std::size_t everyone(const PaperAnalysis& analysis) {
    return analysis.candidates + analysis.others;
}

bool is_counted(const PartAnalysis& part) {
    return part.candidates >= PaperAnalysis::min_candidates_to_remark;
}

/// A share of the part's marks, times those for whom it counted: whole marks, but for rounding.
std::int64_t marks_of_all(const PartAnalysis& part, double share) {
    return std::llround(share * part.max.count() * static_cast<double>(part.candidates));
}

/// Marks that the class lost together.
std::int64_t lost_by_all(const PartAnalysis& part) {
    return marks_of_all(part, 1 - part.facility.value());
}

/// A topic's parts together. Marks are those of the whole class.
struct LostOn {
    std::vector<std::size_t> parts;
    std::int64_t lost = 0;
    std::int64_t untried = 0;  ///< lost in parts not tried
    std::int64_t possible = 0; ///< to earn
    Marks max;                 ///< for one candidate
    bool for_all = true;
    double apart = 0;   ///< marks by which the upper group did better than the lower
    double grouped = 0; ///< of so many
};

void add(LostOn& on, std::size_t position, const PartAnalysis& part, std::size_t all) {
    on.parts.push_back(position);
    on.lost += lost_by_all(part);
    on.untried += marks_of_all(part, part.not_attempted.value());
    on.possible += marks_of_all(part, 1);
    on.max += part.max;
    on.for_all = on.for_all && part.candidates == all;
    if (!part.discrimination.has_value())
        return;
    on.apart += part.discrimination.value() * part.max.count();
    on.grouped += part.max.count();
}

/// By topic, and by position where a part has none.
std::map<std::pair<std::string, std::size_t>, LostOn> lost_on(const Paper& paper,
                                                              const PaperAnalysis& analysis) {
    std::map<std::pair<std::string, std::size_t>, LostOn> all;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        const std::string& topic = paper.parts()[i].topic;
        if (is_counted(analysis.parts[i]))
            add(all[{topic, topic.empty() ? i : 0}], i, analysis.parts[i], everyone(analysis));
    }
    return all;
}

CostFinding::Decision decided(const LostOn& on) {
    using Decision = CostFinding::Decision;
    if (percent * on.lost < hardly_lost_below * on.possible)
        return Decision::leave;
    if (percent * on.untried > mostly_untried_above * on.lost)
        return Decision::find_out_why;
    if (on.grouped == 0)
        return Decision::go_over;
    const double discrimination = on.apart / on.grouped + rounding;
    if (discrimination < poor_discrimination_below)
        return Decision::teach_all;
    return discrimination >= good_discrimination_from ? Decision::teach_some : Decision::go_over;
}

/// The first in the paper if tied.
std::optional<CostFinding> cost(const Paper& paper, const PaperAnalysis& analysis) {
    const auto all = lost_on(paper, analysis);
    if (all.empty())
        return std::nullopt;
    const auto& [name, on] =
        *std::max_element(all.begin(), all.end(), [](const auto& one, const auto& other) {
            return std::pair(one.second.lost, other.second.parts.front()) <
                   std::pair(other.second.lost, one.second.parts.front());
        });
    return CostFinding{name.first,
                       on.parts,
                       all.size(),
                       static_cast<double>(on.lost) / static_cast<double>(everyone(analysis)),
                       on.for_all ? std::optional(on.max) : std::nullopt,
                       decided(on)};
}

TimeFinding time_finding(const PaperAnalysis& analysis) {
    using Decision = TimeFinding::Decision;
    TimeFinding found{analysis.ran_out, everyone(analysis), {}, 0, analysis.went_back, Decision::leave};
    if (found.ran_out == 0)
        return found;
    const auto most =
        std::max_element(analysis.parts.begin(), analysis.parts.end(),
                         [](const PartAnalysis& a, const PartAnalysis& b) { return a.ran_out < b.ran_out; });
    found.most_at = static_cast<std::size_t>(most - analysis.parts.begin());
    found.ran_out_there = most->ran_out;
    found.decision = std::size_t{percent} * found.ran_out >= many_ran_out_from * found.candidates
                         ? Decision::practise_pace
                         : Decision::speak_to_some;
    return found;
}

bool has_remark(const PartAnalysis& part, Remark remark) {
    return std::find(part.remarks.begin(), part.remarks.end(), remark) != part.remarks.end();
}

TrustFinding trust(const PaperAnalysis& analysis) {
    using Decision = TrustFinding::Decision;
    TrustFinding found{{},
                       analysis.standard_error.has_value() ? Decision::set_another : Decision::judge_nobody};
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (has_remark(analysis.parts[i], Remark::check_marking))
            found.parts.push_back(i);
    if (!found.parts.empty())
        found.decision = Decision::check_marking;
    return found;
}

/// The first remark that asks for something; the others only inform.
std::optional<Remark> asked_by(const PartAnalysis& part) {
    for (const Remark remark : part.remarks)
        if (remark != Remark::easy && remark != Remark::tells_apart)
            return remark;
    return std::nullopt;
}

} // namespace

std::optional<Findings> find_findings(const Paper& paper, const PaperAnalysis& analysis) {
    if (analysis.candidates < PaperAnalysis::min_candidates_to_remark)
        return std::nullopt;
    auto costliest = cost(paper, analysis);
    if (!costliest)
        return std::nullopt;
    return Findings{std::move(*costliest), time_finding(analysis), trust(analysis)};
}

BesidePaper beside_paper(const Paper& paper, const CostFinding& cost, const std::string& topic) {
    if (cost.topic == topic)
        return BesidePaper::same;
    if (cost.topic.empty() || cost.decision == CostFinding::Decision::leave)
        return BesidePaper::instead;
    const bool has_part = std::any_of(paper.parts().begin(), paper.parts().end(),
                                      [&](const Part& part) { return part.topic == topic; });
    return has_part ? BesidePaper::less_in_paper : BesidePaper::not_in_paper;
}

std::vector<std::size_t> parts_to_look_at(const PaperAnalysis& analysis) {
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (asked_by(analysis.parts[i]))
            positions.push_back(i);
    const auto need = [&](std::size_t i) {
        return std::pair(*asked_by(analysis.parts[i]), -lost_by_all(analysis.parts[i]));
    };
    std::stable_sort(positions.begin(), positions.end(),
                     [&](std::size_t a, std::size_t b) { return need(a) < need(b); });
    return positions;
}

std::string_view name(CostFinding::Decision decision) noexcept {
    switch (decision) {
    case CostFinding::Decision::leave:
        return "leave";
    case CostFinding::Decision::find_out_why:
        return "find_out_why";
    case CostFinding::Decision::teach_all:
        return "teach_all";
    case CostFinding::Decision::teach_some:
        return "teach_some";
    case CostFinding::Decision::go_over:
        return "go_over";
    }
    return "";
}

std::string_view name(TimeFinding::Decision decision) noexcept {
    switch (decision) {
    case TimeFinding::Decision::leave:
        return "leave";
    case TimeFinding::Decision::speak_to_some:
        return "speak_to_some";
    case TimeFinding::Decision::practise_pace:
        return "practise_pace";
    }
    return "";
}

std::string_view name(TrustFinding::Decision decision) noexcept {
    switch (decision) {
    case TrustFinding::Decision::check_marking:
        return "check_marking";
    case TrustFinding::Decision::set_another:
        return "set_another";
    case TrustFinding::Decision::judge_nobody:
        return "judge_nobody";
    }
    return "";
}

} // namespace inkturn
