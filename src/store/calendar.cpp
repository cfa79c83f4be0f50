#include "inkturn/store/calendar.hpp"

#include "store/state.hpp"

namespace inkturn {

std::vector<WrittenEvent> CalendarOnFile::events(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded("reading what a calendar was written with from", [&] {
        std::vector<WrittenEvent> events;
        const auto row = state.candidate_row(candidate);
        if (!row)
            return events;
        const auto query = state.prepared("SELECT uid, day, revision, cancelled FROM calendar_event "
                                          "WHERE candidate = ? ORDER BY day, uid");
        query->bind(1, *row);
        while (query->executeStep())
            events.push_back({query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()),
                              query->getColumn(2).getInt(), query->getColumn(3).getInt() != 0});
        return events;
    });
}

void CalendarOnFile::keep(const std::string& candidate, const std::vector<WrittenEvent>& events) {
    Store::State& state = change_.state();
    state.changed("saving what a calendar was written with in", [&] {
        for (const WrittenEvent& event : events) {
            check_day(event.day);
            if (event.uid.empty() || event.revision < 0)
                throw Error("an event that was written needs a UID, and its revision can't be below 0",
                            Error::Kind::misused);
        }
        const std::int64_t row = state.candidate_row_made(candidate);
        for (const WrittenEvent& event : events) {
            const auto insert =
                state.prepared("INSERT OR REPLACE INTO calendar_event (candidate, uid, day, revision, "
                               "cancelled) VALUES (?, ?, ?, ?, ?)");
            insert->bind(1, row);
            insert->bind(2, event.uid);
            insert->bind(3, day_number(event.day));
            insert->bind(4, event.revision);
            insert->bind(5, event.cancelled ? 1 : 0);
            insert->exec();
        }
    });
}

void CalendarOnFile::forget_before(const std::string& candidate, Day day) {
    Store::State& state = change_.state();
    state.changed("forgetting what a calendar was written with in", [&] {
        const auto row = state.candidate_row(candidate);
        if (!row)
            return;
        const auto statement = state.prepared("DELETE FROM calendar_event WHERE candidate = ? AND day < ?");
        statement->bind(1, *row);
        statement->bind(2, day_number(day));
        statement->exec();
    });
}

} // namespace inkturn
