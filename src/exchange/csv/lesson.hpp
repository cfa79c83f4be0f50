#pragma once

#include "inkturn/lesson/lesson.hpp"
#include "inkturn/paper/marks.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A candidate's seat in a lesson, on file or planned.
struct SeatRow {
    std::string lesson; ///< its id, or its number in a plan
    std::optional<Day> day;
    std::optional<Seconds> start;
    std::optional<Seconds> duration;
    std::vector<std::string> topics;
    std::string candidate;
    std::optional<PlaceState> state;
    std::optional<Marks> lost;
};

/// Those in these states, in the lesson's order.
std::vector<SeatRow> seat_rows(const Lesson& lesson, const std::vector<PlaceState>& states,
                               const LostByCandidate& lost);

/// CSV with a row for each seat, for a mail merge.
void write_invitations(std::ostream& out, const std::vector<SeatRow>& rows);

/// CSV with a row for each seat and empty columns to fill in: present, remarks.
void write_register(std::ostream& out, const std::vector<SeatRow>& rows);

} // namespace inkturn
