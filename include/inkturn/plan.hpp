#pragma once

#include "inkturn/availability.hpp"
#include "inkturn/candidate.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What one day asks of a candidate.
struct PlannedDay {
    Day day;
    Seconds available{0};
    Seconds asked{0};
    std::vector<Retry> retries;
};

/// Day by day what the retries ask, and how near it comes to the best that any plan could do.
struct Plan {
    std::vector<PlannedDay> days; ///< every day of the span, ascending
    Seconds over{0};              ///< total time above what is available
    double fullest_share = 0;     ///< largest asked ÷ available
    double fullest_share_bound = 0;
    double evenness = 0; ///< Σ L²/c over days with c > 0, in seconds
    double evenness_bound = 0;
};

/// The plan of the retries placed from `span.first` to `span.last`. Its bounds are over these retries with
/// their windows cut to the span and to today.
Plan plan(const std::vector<Retry>& retries, const Availability& availability, DaySpan span, Day today);

/// What a span of days asks of a candidate.
struct AskedWithin {
    Seconds asked{0};
    std::vector<Retry> retries; ///< by day
};

AskedWithin asked_within(std::vector<Retry> retries, DaySpan span);

/// One of a class.
struct CandidateAsked {
    std::string code;
    AskedWithin within;
};

/// What today holds, and what comes after it.
struct TodaysWork {
    PlannedDay today;
    struct Next {
        Day day;
        std::size_t count;
    };
    std::optional<Next> next;
    std::size_t without_day = 0; ///< open retries that have no day left
};

TodaysWork todays_work(const std::vector<Retry>& retries, const Availability& availability, Day today);

} // namespace inkturn
