#pragma once

#include "inkturn/timetable.hpp"

#include <vector>

namespace inkturn {

/// What by itself would make a timetable fit that is short.
struct Remedy {
    enum class Kind : std::uint8_t {
        more_minutes, ///< on every day that has time
        longer_day,   ///< minutes in all on a weekday, so that a paper has room in one piece
        fewer_papers, ///< to sit
        days_off      ///< to use, the first ones from today on, each as long as the longest weekday
    };

    Kind kind;
    int amount;           ///< minutes, papers or days, from 1
    unsigned weekday = 0; ///< of longer_day: 0 is Monday
};

std::string_view name(Remedy::Kind kind) noexcept;

/// At most one of each kind, each with the least amount that was found to do: minutes in steps of five, three
/// hours a day more at most. Each was tried on the whole timetable. A week keeps its free days.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableAsked& asked, Day today);

} // namespace inkturn
