#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/analysis.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Where a class lost most: a topic of the paper, or a part where it has none.
struct CostFinding {
    enum class Decision : std::uint8_t {
        leave,        ///< hardly anything was lost
        find_out_why, ///< more than half of what was lost was not tried
        teach_all,    ///< the upper group did little better than the lower
        teach_some,   ///< the upper group did much better
        go_over       ///< between these, or there are no groups
    };

    std::string topic;              ///< empty: the part has none
    std::vector<std::size_t> parts; ///< positions, ascending
    std::size_t compared;           ///< topics, and parts without one, of which none cost more
    double lost;                    ///< marks, on average over the class
    std::optional<Marks> max;       ///< of the parts together; nothing where one did not count for all
    Decision decision;
};

/// For how many time ran out, to judge by the marks.
struct TimeFinding {
    enum class Decision : std::uint8_t { leave, speak_to_some, practise_pace };

    std::size_t ran_out;
    std::size_t candidates;             ///< of so many
    std::optional<std::size_t> most_at; ///< position of the part, the first if tied; nothing: nobody ran out
    std::size_t ran_out_there;
    std::size_t went_back; ///< see PaperAnalysis
    Decision decision;
};

/// How far the marks can be relied on.
struct TrustFinding {
    enum class Decision : std::uint8_t {
        check_marking, ///< parts in which those who did well elsewhere did worse
        set_another,   ///< where a grade hangs on less than the standard error
        judge_nobody   ///< there is no standard error
    };

    std::vector<std::size_t> parts; ///< whose marking to check: positions, ascending
    Decision decision;
};

/// What a paper's figures over a class come to, each finding with a decision.
struct Findings {
    CostFinding cost;
    TimeFinding time;
    TrustFinding trust;
};

/// How the topic that costs a class most over all papers stands to what one paper says. What the paper says
/// is decided first, unless it lost little or nothing on a topic.
enum class BesidePaper : std::uint8_t {
    same,          ///< it is the paper's topic too
    less_in_paper, ///< the paper lost more on its own topic: this one comes next
    not_in_paper,  ///< the paper has no part on it: it comes next
    instead        ///< the paper lost little, or most on a part without a topic: this one is decided
};
BesidePaper beside_paper(const Paper& paper, const CostFinding& cost, const std::string& topic);

/// Nothing if the class is too small for remarks. Parts that counted for too few are left out. Where the
/// bounds lie is in findings.cpp and remarks.hpp.
std::optional<Findings> find_findings(const Paper& paper, const PaperAnalysis& analysis);

/// Positions of the parts to look at before the others: those with a remark that asks for something, in the
/// order of Remark, then of marks lost.
std::vector<std::size_t> parts_to_look_at(const PaperAnalysis& analysis);

std::string_view name(CostFinding::Decision decision) noexcept;
std::string_view name(TimeFinding::Decision decision) noexcept;
std::string_view name(TrustFinding::Decision decision) noexcept;

} // namespace inkturn
