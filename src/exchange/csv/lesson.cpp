#include "exchange/csv/lesson.hpp"

#include "exchange/csv/write.hpp"
#include "inkturn/base/time.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// `16:00`; empty if it is not stated.
std::string start_text(const std::optional<Seconds>& start) {
    return start ? time_of_day_text(*start).substr(0, 5) : "";
}

void write_lesson(CsvWriter& csv, const SeatRow& row) {
    csv.text(row.lesson).text(row.day ? iso(*row.day) : "").text(start_text(row.start));
}

} // namespace

std::vector<SeatRow> seat_rows(const Lesson& lesson, const std::vector<PlaceState>& states,
                               const LostByCandidate& lost) {
    std::vector<SeatRow> rows;
    for (const PlaceAsked& asked : lesson.asked) {
        if (std::find(states.begin(), states.end(), asked.state) == states.end())
            continue;
        const auto found = lost.find(asked.candidate);
        rows.push_back({lesson.id, lesson.day, lesson.start, lesson.duration, lesson.topics, asked.candidate,
                        asked.state, found == lost.end() ? std::nullopt : found->second});
    }
    return rows;
}

void write_invitations(std::ostream& out, const std::vector<SeatRow>& rows) {
    CsvWriter csv(out);
    csv.text("candidate")
        .text("lesson")
        .text("date")
        .text("start")
        .text("minutes")
        .text("topics")
        .text("lost");
    csv.end_row();
    for (const SeatRow& row : rows) {
        csv.text(row.candidate);
        write_lesson(csv, row);
        if (row.duration)
            csv.number(static_cast<std::size_t>((row.duration->count() + 59) / 60));
        else
            csv.text("");
        csv.text(topics_text(row.topics));
        if (row.lost)
            csv.number(static_cast<std::size_t>(row.lost->count()));
        else
            csv.text("");
        csv.end_row();
    }
}

void write_register(std::ostream& out, const std::vector<SeatRow>& rows) {
    CsvWriter csv(out);
    csv.text("lesson")
        .text("date")
        .text("start")
        .text("candidate")
        .text("place")
        .text("present")
        .text("remarks");
    csv.end_row();
    for (const SeatRow& row : rows) {
        write_lesson(csv, row);
        csv.text(row.candidate).text(row.state ? name(*row.state) : "").text("").text("").end_row();
    }
}

} // namespace inkturn
