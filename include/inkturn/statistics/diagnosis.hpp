#pragma once

#include "inkturn/base/interval.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/topic.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a topic needs. Each of the first four wins back the marks lost to one cause.
enum class Advice : std::uint8_t {
    relearn,   ///< the method isn't known
    recall,    ///< facts aren't known
    care,      ///< slips, misreadings, and accuracy lost after its method
    pace,      ///< unfinished, not attempted, or earned in overtime
    firm,      ///< hardly any marks lost
    too_little ///< too little is known to say
};

std::string_view name(Advice advice) noexcept;

/// Marks that were not earned in time, by what would win them back. A reason stated for the part overrides
/// the codes of its marks.
struct LostByCause {
    std::array<Marks, 4> known; ///< by Advice, relearn to pace
    Marks unexplained;          ///< no reason stated, and the codes don't tell

    Marks of(Advice cause) const { return known[static_cast<std::size_t>(cause)]; }
    Marks all() const;
};

/// How one topic stands, by the latest attempts.
struct TopicDiagnosis {
    std::string topic;      ///< empty: the parts that state none
    std::size_t parts;      ///< each once, however many of a class sat it: others tell nothing of other parts
    double effective_parts; ///< of equal marks, 1 to parts
    Marks marks;            ///< above 0
    Marks in_time;          ///< earned within the allowance
    Marks overtime;         ///< earned after it, still unaided
    Interval unaided_interval; ///< of unaided ÷ marks, 95%
    Interval in_time_interval; ///< of in time ÷ marks, 95%: the advice is based on it

    LostByReason lost;         ///< sums to marks - unaided
    LostByCode lost_by_code;   ///< with lost_code_unknown sums to marks - unaided
    Marks lost_code_unknown;   ///< of parts whose codes don't tell
    LostByCause lost_by_cause; ///< sums to marks - in time

    std::optional<Advice> advice; ///< nothing for the parts that state no topic
    Seconds work{0}; ///< to win marks back, see docs/method.md; 0 where none were lost, or no advice

    Marks unaided() const { return in_time + overtime; }
    Marks to_win_back() const { return marks - in_time; }
    /// Of unaided marks, 0 to 1; 0 where there are none.
    double overtime_share() const;
    /// Marks to win back per hour of work; 0 without work.
    double marks_per_hour() const;

    /// Thresholds of the advice: our own, see docs/method.md.
    static constexpr double min_effective_parts = 2;
    static constexpr Marks min_marks{8};
    static constexpr int firm_percent = 90;         ///< of the marks, in time, at least
    static constexpr double firm_low = 0.6;         ///< the interval's low end, at least
    static constexpr double weak_high = 0.95;       ///< the interval's high end lies below it
    static constexpr Seconds time_to_relearn{3600}; ///< a topic whose method isn't known, once per candidate
    static constexpr Seconds time_to_recall{1800};  ///< its facts
};

/// The topics of the subject's papers, or of all papers if it is empty: those that win back the most marks
/// per hour of work first; if tied, those with more marks to win back, then by name. Parts without a topic
/// come last. Each element holds one candidate's latest_marks(); with several, the parts of all are taken
/// together.
std::vector<TopicDiagnosis> diagnose(const std::vector<std::vector<LatestMarks>>& candidates,
                                     std::string_view subject = {});

} // namespace inkturn
