#pragma once

#include "inkturn/plan/timetable.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What by itself would make a timetable fit that is short.
struct Remedy {
    enum class Kind : std::uint8_t {
        more_minutes, ///< on every day that has time
        longer_day,   ///< minutes in all on a weekday, so that a paper has room in one piece
        fewer_papers, ///< of a subject to sit
        days_off      ///< to use, each as long as the longest weekday
    };

    Kind kind;
    int amount;              ///< minutes, papers or days, from 1
    unsigned weekday = 0;    ///< of longer_day: 0 is Monday
    std::string subject{};   ///< of fewer_papers
    int remaining = 0;       ///< of fewer_papers: how many are still to be sat
    std::vector<Day> days{}; ///< of days_off: the first ones from today on
    Seconds available{0};    ///< of days_off: on each
};

std::string_view name(Remedy::Kind kind) noexcept;

/// At most one of each kind, each with the least amount that was found to do: minutes in steps of five, three
/// hours a day more at most; papers of the one subject of which the fewest do. Each was tried on the whole
/// timetable, with all days chosen anew. A week keeps its free days.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableRequest& request, Day today);

} // namespace inkturn
