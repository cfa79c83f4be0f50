#include "inkturn/store/collected.hpp"

#include "store/state.hpp"

namespace inkturn {

std::map<std::string, Day> CollectedFiles::days(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading what was collected from", [&] {
        std::map<std::string, Day> days;
        const auto query = state.prepared("SELECT candidate.code, day FROM collected JOIN candidate ON "
                                          "candidate.id = collected.candidate");
        while (query->executeStep())
            days.emplace(query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()));
        return days;
    });
}

void CollectedFiles::keep_day(const std::string& candidate, Day day) {
    Store::State& state = change_.state();
    state.changed("noting what was collected in", [&] {
        check_day(day);
        const auto insert = state.prepared("INSERT OR REPLACE INTO collected (candidate, day) VALUES (?, ?)");
        insert->bind(1, state.candidate_row_made(candidate));
        insert->bind(2, static_cast<std::int64_t>(day.time_since_epoch().count()));
        insert->exec();
    });
}

} // namespace inkturn
