#include "inkturn/store/collected.hpp"

#include "store/state.hpp"

#include <tuple>

namespace inkturn {

bool CollectedRecord::operator<(const CollectedRecord& other) const {
    return std::tie(paper, day, question, turn) <
           std::tie(other.paper, other.day, other.question, other.turn);
}

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

std::set<CollectedRecord> CollectedFiles::records(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded("reading what was collected from", [&] {
        std::set<CollectedRecord> records;
        const auto query =
            state.prepared("SELECT paper, day, question, turn FROM collected_record WHERE candidate = "
                           "(SELECT id FROM candidate WHERE code = ?)");
        query->bindNoCopy(1, candidate);
        while (query->executeStep())
            records.insert({query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()),
                            query->getColumn(2).getString(), query->getColumn(3).getInt()});
        return records;
    });
}

void CollectedFiles::keep_records(const std::string& candidate, const std::set<CollectedRecord>& records) {
    Store::State& state = change_.state();
    state.changed("noting what was collected in", [&] {
        const std::int64_t row = state.candidate_row_made(candidate);
        for (const CollectedRecord& record : records) {
            const auto insert =
                state.prepared("INSERT OR IGNORE INTO collected_record (candidate, paper, day, "
                               "question, turn) VALUES (?, ?, ?, ?, ?)");
            insert->bind(1, row);
            insert->bindNoCopy(2, record.paper);
            insert->bind(3, day_number(record.day));
            insert->bindNoCopy(4, record.question);
            insert->bind(5, record.turn);
            insert->exec();
        }
    });
}

} // namespace inkturn
