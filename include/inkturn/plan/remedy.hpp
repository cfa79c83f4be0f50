#pragma once

#include "inkturn/plan/timetable.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace inkturn {

/// On every day that has time.
struct MoreTime {
    Seconds a_day;
};

/// So that a paper has room in one piece.
struct LongerDay {
    Seconds in_all;
    unsigned weekday; ///< 0 is Monday
};

struct FewerPapers {
    std::string subject;
    std::size_t fewer;     ///< from 1
    std::size_t remaining; ///< how many are still to be sat
};

struct UseDaysOff {
    std::vector<Day> days; ///< the first ones from today on, not empty
    Seconds each;          ///< as long as the longest weekday
};

/// Let go, the least valuable ones.
struct FewerRetries {
    std::vector<RetryId> retries; ///< least worth first
    Marks missed_marks;           ///< in all
};

/// What by itself would make a timetable fit that is short.
using Remedy = std::variant<MoreTime, LongerDay, FewerPapers, UseDaysOff, FewerRetries>;

/// `more_minutes`, `longer_day`, `fewer_papers`, `days_off` or `fewer_retries`.
std::string_view name(const Remedy& remedy) noexcept;

/// Where work has no day, what makes all work fit; else what makes room for later turns too, if the request
/// asks for these. At most one of each kind, each with the least amount that was found to do: minutes in
/// steps of five, three hours a day more at most; papers of the one subject of which the fewest do; retries
/// by least_to_let_go(). Each was tried on the whole timetable, with all days chosen anew. A week keeps its
/// free days.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableRequest& request, Day today);

} // namespace inkturn
