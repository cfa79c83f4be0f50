#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What came back of the retries that a candidate had to do by the end of some days:
/// due = recorded + planned + late + not_placed.
struct ReturnedWork {
    std::string candidate;
    std::size_t due = 0;      ///< their windows opened by then, and nothing was recorded before these days
    std::size_t recorded = 0; ///< of them; also those done on these days before their window opened
    std::size_t planned = 0;  ///< still to come on a day of their window
    std::size_t late = 0;     ///< open, and their window has closed
    std::size_t not_placed = 0;
    Days longest_late{0};               ///< since the first of the late windows closed, of those to ask for
    std::optional<Day> last_recorded{}; ///< of any of the candidate's retries
    std::size_t rested = 0; ///< of the late: nothing is to be done any more, as their exams have passed

    std::size_t to_ask_for() const { return late - rested; }
};

/// `open` are the candidate's open retries with their days.
ReturnedWork returned_work(const Candidate& candidate, const std::vector<Retry>& open, DaySpan days,
                           Day today);

/// Who has late retries that do not rest: the most first, then the longest late, then by code.
std::vector<ReturnedWork> those_to_ask(const std::vector<ReturnedWork>& work);

} // namespace inkturn
