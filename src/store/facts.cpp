#include "inkturn/store/facts.hpp"

#include "store/state.hpp"

#include <sqlite3.h>

namespace inkturn {
namespace {

constexpr const char* reading_facts = "reading the facts from";
constexpr const char* reading_sheets = "reading the sheets from";

std::int64_t number(FactId id) {
    return static_cast<std::int64_t>(id);
}
std::int64_t number(SheetId id) {
    return static_cast<std::int64_t>(id);
}

std::string named(FactId id) {
    return "fact " + std::to_string(number(id));
}

/// The columns from `first` on: id, prompt, answer, topic, subject.
Fact fact_in(SQLite::Statement& row, int first) {
    Fact fact{FactId{row.getColumn(first).getInt64()}, row.getColumn(first + 1).getString(),
              row.getColumn(first + 2).getString(), row.getColumn(first + 3).getString(),
              row.getColumn(first + 4).getString()};
    check_fact(fact);
    return fact;
}

/// Takes one row of sheet_fact joined to its sheet, by sheet, then position. The columns from 0 on: the
/// sheet's id, day and logged, then position, fact, missed.
void take_row(SQLite::Statement& row, std::vector<Sheet>& sheets) {
    const SheetId id{row.getColumn(0).getInt64()};
    if (sheets.empty() || sheets.back().id != id) {
        Sheet& sheet = sheets.emplace_back(Sheet{id, day_of(row.getColumn(1).getInt64()), {}, {}});
        if (!row.getColumn(2).isNull())
            sheet.log = Sheet::Log{day_of(row.getColumn(2).getInt64()), {}};
    }
    Sheet& sheet = sheets.back();
    const int position = row.getColumn(3).getInt();
    sheet.rows.push_back({position, FactId{row.getColumn(4).getInt64()}});
    if (sheet.log && row.getColumn(5).getInt() == 1)
        sheet.log->missed_rows.push_back(position);
}

} // namespace

std::vector<Fact> FactsOnFile::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_facts, [&] {
        std::vector<Fact> facts;
        const auto query =
            state.prepared("SELECT id, prompt, answer, topic, subject FROM fact ORDER BY subject, topic, id");
        while (query->executeStep())
            facts.push_back(state.undamaged(reading_facts, [&] { return fact_in(*query, 0); }));
        return facts;
    });
}

FactId FactsOnFile::add(const Fact& fact) {
    Store::State& state = change_.state();
    return state.changed("adding a fact to", [&] {
        check_fact(fact);
        const auto insert =
            state.prepared("INSERT INTO fact (subject, prompt, answer, topic) VALUES (?, ?, ?, ?)");
        insert->bind(1, fact.subject);
        insert->bind(2, fact.prompt);
        insert->bind(3, fact.answer);
        insert->bind(4, fact.topic);
        try {
            insert->exec();
        } catch (const SQLite::Exception& failure) {
            if (failure.getExtendedErrorCode() != SQLITE_CONSTRAINT_UNIQUE)
                throw;
            throw Error("the fact '" + fact.prompt + "'" +
                            (fact.subject.empty() ? "" : " of " + fact.subject) + " is on file",
                        Error::Kind::conflict, Error::Remedy::see_fact);
        }
        return FactId{state.database->getLastInsertRowid()};
    });
}

void FactsOnFile::change(const Fact& fact) {
    Store::State& state = change_.state();
    state.changed("changing a fact in", [&] {
        check_answer(fact.answer);
        check_topic(fact.topic);
        const auto update = state.prepared("UPDATE fact SET answer = ?, topic = ? WHERE id = ?");
        update->bind(1, fact.answer);
        update->bind(2, fact.topic);
        update->bind(3, number(fact.id));
        exec_found(update, named(fact.id));
    });
}

void FactsOnFile::remove(FactId id) {
    Store::State& state = change_.state();
    state.changed("removing a fact from", [&] {
        const auto fact = state.prepared("DELETE FROM fact WHERE id = ?");
        fact->bind(1, number(id));
        exec_found(fact, named(id));
        const auto planned = state.prepared("DELETE FROM planned WHERE kind = 'recall' AND name = ?");
        planned->bind(1, std::to_string(number(id)));
        planned->exec();
        state.prepared("DELETE FROM sheet WHERE id NOT IN (SELECT sheet FROM sheet_fact)")->exec();
        state.remove_candidates_without_records();
    });
}

std::vector<Sheet> FactsOnFile::sheets(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded(reading_sheets, [&] {
        std::vector<Sheet> sheets;
        const auto row = state.candidate_row(candidate);
        if (!row)
            return sheets;
        const auto query =
            state.prepared("SELECT id, day, logged, position, fact, missed FROM sheet JOIN "
                           "sheet_fact ON sheet = id WHERE candidate = ? ORDER BY id, position");
        query->bind(1, *row);
        while (query->executeStep())
            take_row(*query, sheets);
        return sheets;
    });
}

std::optional<CandidateSheet> FactsOnFile::find_sheet(const Store& store, SheetId id) {
    Store::State& state = *store.state_;
    return state.guarded(reading_sheets, [&]() -> std::optional<CandidateSheet> {
        std::vector<Sheet> sheets;
        CandidateSheet found;
        const auto query = state.prepared(
            "SELECT sheet.id, day, logged, position, fact.id, missed, fact.id, prompt, answer, topic, "
            "subject, "
            "code FROM sheet JOIN sheet_fact ON sheet = sheet.id JOIN fact ON fact.id = fact JOIN candidate "
            "ON candidate.id = candidate WHERE sheet.id = ? ORDER BY position");
        query->bind(1, number(id));
        while (query->executeStep()) {
            take_row(*query, sheets);
            found.facts.push_back(state.undamaged(reading_facts, [&] { return fact_in(*query, 6); }));
            found.candidate = query->getColumn(11).getString();
        }
        if (sheets.empty())
            return std::nullopt;
        found.sheet = std::move(sheets.front());
        return found;
    });
}

std::set<FactId> FactsOnFile::on_logged_sheets(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_sheets, [&] {
        std::set<FactId> facts;
        const auto query = state.prepared(
            "SELECT DISTINCT fact FROM sheet JOIN sheet_fact ON sheet = id WHERE logged IS NOT NULL");
        while (query->executeStep())
            facts.insert(FactId{query->getColumn(0).getInt64()});
        return facts;
    });
}

void FactsOnFile::check_on_file(FactId id) const {
    const auto query = change_.state().prepared("SELECT 1 FROM fact WHERE id = ?");
    query->bind(1, number(id));
    if (!query->executeStep())
        throw Error("no " + named(id) + " on file", Error::Kind::not_found);
}

SheetId FactsOnFile::add_sheet(const std::string& candidate, const Sheet& sheet) {
    Store::State& state = change_.state();
    return state.changed("adding a sheet to", [&] {
        check_sheet(sheet);
        for (const Sheet::Row& row : sheet.rows)
            check_on_file(row.fact);
        const auto insert = state.prepared("INSERT INTO sheet (candidate, day) VALUES (?, ?)");
        insert->bind(1, state.candidate_row_made(candidate));
        insert->bind(2, day_number(sheet.day));
        insert->exec();
        const SheetId id{state.database->getLastInsertRowid()};
        for (const Sheet::Row& row : sheet.rows) {
            const auto fact =
                state.prepared("INSERT INTO sheet_fact (sheet, position, fact) VALUES (?, ?, ?)");
            fact->bind(1, number(id));
            fact->bind(2, row.number);
            fact->bind(3, number(row.fact));
            fact->exec();
        }
        if (sheet.log)
            keep_log(id, sheet.log);
        return id;
    });
}

void FactsOnFile::keep_log(SheetId id, const std::optional<Sheet::Log>& log) {
    Store::State& state = change_.state();
    state.changed("logging a sheet in", [&] {
        const auto on_file = find_sheet(change_.store(), id);
        if (!on_file)
            throw Error("no sheet " + to_text(id) + " on file", Error::Kind::not_found);
        if (log)
            check_log(on_file->sheet, *log);
        const auto sheet = state.prepared("UPDATE sheet SET logged = ? WHERE id = ?");
        if (log)
            sheet->bind(1, day_number(log->day));
        else
            sheet->bind(1);
        sheet->bind(2, number(id));
        sheet->exec();
        const auto all = state.prepared("UPDATE sheet_fact SET missed = 0 WHERE sheet = ?");
        all->bind(1, number(id));
        all->exec();
        if (!log)
            return;
        for (const int row : log->missed_rows) {
            const auto missed =
                state.prepared("UPDATE sheet_fact SET missed = 1 WHERE sheet = ? AND position = ?");
            missed->bind(1, number(id));
            missed->bind(2, row);
            missed->exec();
        }
    });
}

} // namespace inkturn
