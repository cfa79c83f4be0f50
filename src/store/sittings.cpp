#include "inkturn/clock/clock_line.hpp"
#include "store/state.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

std::string named(SittingId id) {
    return "sitting " + std::to_string(static_cast<std::int64_t>(id));
}

} // namespace

SittingId Store::Change::add_sitting(const std::string& candidate, const Paper& paper,
                                     const Sitting& sitting) {
    State& state = this->state();
    return state.changed("adding a sitting to", [&] {
        const std::int64_t row = state.paper_row_on_file(paper.id());
        check_fits(*state.paper(row), sitting);
        if (const auto known = state.candidate_row(candidate))
            state.check_not_on_desk(*known, row, sitting.day);
        return state.insert_sitting(candidate, row, sitting, std::nullopt);
    });
}

void Store::State::check_not_on_desk(std::int64_t candidate, std::int64_t paper, Day day) {
    const auto query =
        prepared("SELECT sitting, paper.code FROM script JOIN paper ON paper.id = script.paper "
                 "WHERE candidate = ? AND script.paper = ? AND day = ? AND retried IS NULL");
    query->bind(1, candidate);
    query->bind(2, paper);
    query->bind(3, day_number(day));
    if (!query->executeStep())
        return;
    const std::string id = std::to_string(query->getColumn(0).getInt64());
    throw Error("sitting " + id + " of " + query->getColumn(1).getString() + " on " + iso(day) +
                    " is not marked yet",
                Error::Kind::conflict, Error::Remedy::mark_or_remove_script, id);
}

/// The sitting is checked.
SittingId Store::State::insert_sitting(const std::string& candidate, std::int64_t paper_row,
                                       const Sitting& sitting, std::optional<SittingId> id) {
    const auto of = paper(paper_row);
    const std::string line = to_line(sitting.parts);
    const std::string clock = to_line(sitting.clock, *of, all_positions(*of));
    const auto insert = prepared("INSERT INTO sitting (id, candidate, paper, day, extra_time, marks, clock) "
                                 "VALUES (?, ?, ?, ?, ?, ?, ?)");
    if (id)
        insert->bind(1, static_cast<std::int64_t>(*id));
    else
        insert->bind(1);
    insert->bind(2, candidate_row_made(candidate));
    insert->bind(3, paper_row);
    insert->bind(4, day_number(sitting.day));
    insert->bind(5, sitting.extra_time.percent());
    insert->bindNoCopy(6, line);
    insert->bindNoCopy(7, clock);
    try {
        insert->exec();
    } catch (const SQLite::Exception& failure) {
        if (failure.getExtendedErrorCode() != SQLITE_CONSTRAINT_UNIQUE)
            throw;
        throw Error("candidate " + candidate + " already has a sitting of " + of->id() + " on " +
                        iso(sitting.day) + " on file",
                    Error::Kind::conflict, Error::Remedy::amend_sitting);
    }
    const std::int64_t number = database->getLastInsertRowid();
    sitting_papers.emplace(number, paper_row);
    if (!sitting.notes.empty())
        set_sitting_notes(SittingId{number}, sitting.notes);
    return SittingId{number};
}

std::int64_t Store::State::next_sitting() {
    // An ordinary table, as SQLite documents it, where AUTOINCREMENT looks for the last number given out.
    if (prepared("UPDATE sqlite_sequence SET seq = seq + 1 WHERE name = 'sitting'")->exec() == 0)
        prepared("INSERT INTO sqlite_sequence (name, seq) VALUES ('sitting', 1)")->exec();
    const auto query = prepared("SELECT seq FROM sqlite_sequence WHERE name = 'sitting'");
    query->executeStep();
    return query->getColumn(0).getInt64();
}

void Store::Change::change_sitting(SittingId id, const Sitting& sitting) {
    State& state = this->state();
    state.changed("changing a sitting in", [&] {
        const auto paper = state.paper_of(id);
        check_fits(*paper, sitting);
        const auto before = state.prepared("SELECT candidate, paper, day FROM sitting WHERE id = ?");
        before->bind(1, static_cast<std::int64_t>(id));
        if (before->executeStep() && day_of(before->getColumn(2).getInt64()) != sitting.day)
            state.check_not_on_desk(before->getColumn(0).getInt64(), before->getColumn(1).getInt64(),
                                    sitting.day);
        const auto update =
            state.prepared("UPDATE sitting SET day = ?, extra_time = ?, marks = ?, clock = ? WHERE id = ?");
        update->bind(1, day_number(sitting.day));
        update->bind(2, sitting.extra_time.percent());
        update->bind(3, to_line(sitting.parts));
        update->bind(4, to_line(sitting.clock, *paper, all_positions(*paper)));
        update->bind(5, static_cast<std::int64_t>(id));
        try {
            exec_found(update, named(id));
            state.set_sitting_notes(id, sitting.notes);
        } catch (const SQLite::Exception& failure) {
            if (failure.getExtendedErrorCode() != SQLITE_CONSTRAINT_UNIQUE)
                throw;
            throw Error("there is another sitting of that paper on " + iso(sitting.day),
                        Error::Kind::conflict, Error::Remedy::see_sitting);
        }
    });
}

void Store::Change::remove_sitting(SittingId id) {
    State& state = this->state();
    state.changed("removing a sitting from", [&] {
        const auto statement = state.prepared("DELETE FROM sitting WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        exec_found(statement, named(id));
        state.sitting_papers.erase(static_cast<std::int64_t>(id));
        state.remove_candidates_without_records();
    });
}

std::shared_ptr<const Paper> Store::State::paper_of(SittingId sitting) {
    const auto number = static_cast<std::int64_t>(sitting);
    const auto known = sitting_papers.find(number);
    if (known != sitting_papers.end())
        return paper(known->second);
    const auto query = prepared("SELECT paper FROM sitting WHERE id = ?");
    query->bind(1, number);
    if (!query->executeStep())
        throw Error("no " + named(sitting) + " on file", Error::Kind::not_found);
    const std::int64_t row = query->getColumn(0).getInt64();
    sitting_papers.emplace(number, row);
    return paper(row);
}

namespace {

/// The sittings that don't count for class ?2: imported or marked for others alone, or collected from where
/// the candidate works, where the candidate has one of the paper that was imported or marked for it.
const std::string& from_elsewhere() {
    static const std::string sql =
        "SELECT other.id FROM sitting AS other WHERE NOT EXISTS (SELECT 1 FROM class_sitting WHERE sitting = "
        "other.id AND class = ?2) AND EXISTS (SELECT 1 FROM sitting AS own JOIN class_sitting AS ours ON "
        "ours.sitting = own.id WHERE own.candidate = other.candidate AND own.paper = other.paper AND "
        "ours.class = ?2) AND (EXISTS (SELECT 1 FROM class_sitting WHERE sitting = other.id) OR EXISTS "
        "(SELECT 1 FROM collected_record AS record JOIN paper ON paper.code = record.paper WHERE "
        "record.candidate = other.candidate AND paper.id = other.paper AND record.day = other.day AND "
        "record.question = ''))";
    return sql;
}

} // namespace

Candidate Store::candidate_in(const std::string& class_name, const std::string& code) const {
    Candidate candidate = this->candidate(code);
    return state_->guarded("reading a class's sittings from", [&] {
        static const std::string sql = from_elsewhere() + " AND other.candidate = ?1";
        const auto row = state_->candidate_row(code);
        const auto query = state_->prepared(sql.c_str());
        query->bind(2, state_->class_row(class_name));
        if (row)
            query->bind(1, *row);
        std::set<SittingId> others;
        while (query->executeStep())
            others.insert(SittingId{query->getColumn(0).getInt64()});
        candidate.sittings.erase(
            std::remove_if(candidate.sittings.begin(), candidate.sittings.end(),
                           [&](const SittingRecord& record) { return others.count(record.id) > 0; }),
            candidate.sittings.end());
        return candidate;
    });
}

std::vector<SittingOfPaper> Store::sittings_of(const Paper& paper,
                                               const std::optional<std::string>& of_class) const {
    return state_->guarded("reading a paper's sittings from", [&] {
        const std::int64_t row = state_->paper_row_on_file(paper.id());
        const auto of = state_->paper(row);
        static const std::string sql =
            "SELECT code, day, marks FROM sitting JOIN candidate ON candidate.id = sitting.candidate WHERE "
            "paper = ?1 AND (?2 IS NULL OR (sitting.candidate IN (SELECT candidate FROM member WHERE class = "
            "?2) AND sitting.id NOT IN (" +
            from_elsewhere() + " AND other.paper = ?1))) ORDER BY code, day, sitting.id";
        const auto query = state_->prepared(sql.c_str());
        query->bind(1, row);
        if (of_class)
            query->bind(2, state_->class_row(*of_class));
        std::vector<SittingOfPaper> sittings;
        while (query->executeStep())
            sittings.push_back({query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()),
                                state_->marks_in(query->getColumn(2), [&](std::string_view line) {
                                    return parse_line(*of, line);
                                })});
        return sittings;
    });
}

} // namespace inkturn
