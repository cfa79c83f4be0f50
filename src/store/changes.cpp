#include "inkturn/store/changes.hpp"

#include "store/commit_watch.hpp"
#include "store/state.hpp"

#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <map>

namespace inkturn {
namespace {

constexpr const char* reading_changes = "reading the changes of";

struct Kind {
    const char* table;
    const char* one;
    const char* several;
};

constexpr std::array<Kind, 38> kinds{{{"paper", "paper", "papers"},
                                      {"part", "part", "parts"},
                                      {"candidate", "candidate", "candidates"},
                                      {"collected", "collected export", "collected exports"},
                                      {"sitting", "sitting", "sittings"},
                                      {"reattempt", "re-attempt", "re-attempts"},
                                      {"script", "script", "scripts"},
                                      {"sitting_note", "note", "notes"},
                                      {"reattempt_note", "note on a re-attempt", "notes on re-attempts"},
                                      {"script_note", "note on a script", "notes on scripts"},
                                      {"week", "week of times", "weeks of times"},
                                      {"date_availability", "time for a date", "times for dates"},
                                      {"class_week", "week of a class's times", "weeks of classes' times"},
                                      {"class_date", "time for a class's date", "times for classes' dates"},
                                      {"exam", "exam", "exams"},
                                      {"class", "class", "classes"},
                                      {"absent", "absence", "absences"},
                                      {"member", "member of a class", "members of classes"},
                                      {"picture", "picture", "pictures"},
                                      {"printed_set", "set", "sets"},
                                      {"listed_topic", "topic of the list", "topics of the list"},
                                      {"closed_class", "closed class", "closed classes"},
                                      {"closed_part", "figure of a part", "figures of parts"},
                                      {"award", "award", "awards"},
                                      {"component", "component", "components"},
                                      {"boundary_set", "boundary set", "boundary sets"},
                                      {"boundary", "boundary", "boundaries"},
                                      {"fact", "fact", "facts"},
                                      {"sheet", "sheet of facts", "sheets of facts"},
                                      {"relearned", "relearned topic", "relearned topics"},
                                      {"topic_rating", "rating of a topic", "ratings of topics"},
                                      {"plan_wish", "wish for the plan", "wishes for the plan"},
                                      {"papers_wished", "number of papers", "numbers of papers"},
                                      {"steered_retry", "decision on a retry", "decisions on retries"},
                                      {"asked_again", "retry once more", "retries once more"},
                                      {"steered_work", "decision on the plan", "decisions on the plan"},
                                      {"lesson", "lesson", "lessons"},
                                      {"place_asked", "place asked for", "places asked for"}}};
constexpr std::array<std::string_view, 3> tables_of_plan{"placement", "planned", "planned_for"};

bool is_of_plan(const std::string& table) {
    return std::find(tables_of_plan.begin(), tables_of_plan.end(), table) != tables_of_plan.end();
}

void count(RecordsChanged& records, int operation) {
    ++(operation == SQLITE_INSERT   ? records.added
       : operation == SQLITE_DELETE ? records.removed
                                    : records.changed);
}

void count_records(const Changeset& changeset, ChangeOnFile& change) {
    std::map<std::string, RecordsChanged> by_table;
    changeset.visit_rows([&](const std::string& table, int operation) {
        change.moved_plan = change.moved_plan || is_of_plan(table);
        count(by_table[table], operation);
    });
    for (const Kind& kind : kinds)
        if (const auto found = by_table.find(kind.table); found != by_table.end()) {
            const RecordsChanged& records = found->second;
            change.records.push_back(
                {kind.one, kind.several, records.added, records.removed, records.changed});
        }
}

Changeset changeset_in(const SQLite::Column& column) {
    return Changeset::of(column.getBlob(), column.getBytes());
}

/// A row of id, at, command, taken_back and changeset.
ChangeOnFile change_in(SQLite::Statement& row) {
    ChangeOnFile change{ChangeId{row.getColumn(0).getInt64()},
                        {row.getColumn(2).getString(), Moment{Seconds{row.getColumn(1).getInt64()}}},
                        row.getColumn(3).getInt() != 0,
                        {},
                        false};
    count_records(changeset_in(row.getColumn(4)), change);
    return change;
}

/// Foreign keys off, and a transaction that is rolled back unless commit() is reached: rows come and go as a
/// changeset says, without those that depend on them.
class Restoring {
  public:
    explicit Restoring(SQLite::Database& database) : database_(database) {
        database_.exec("PRAGMA foreign_keys = OFF");
        try {
            database_.exec("BEGIN IMMEDIATE");
        } catch (...) {
            database_.tryExec("PRAGMA foreign_keys = ON");
            throw;
        }
    }
    ~Restoring() {
        if (!is_over_)
            database_.tryExec("ROLLBACK");
        database_.tryExec("PRAGMA foreign_keys = ON");
    }
    Restoring(const Restoring&) = delete;
    Restoring& operator=(const Restoring&) = delete;
    void commit(const std::function<void()>& when_stored) {
        const CommitWatch watch(database_);
        try {
            database_.exec("COMMIT");
        } catch (const SQLite::Exception&) {
            if (watch.took_effect())
                when_stored();
            throw;
        }
        is_over_ = true;
        when_stored();
    }

  private:
    SQLite::Database& database_;
    bool is_over_ = false;
};

/// Candidates for whom a calendar was written with events that a later one may have to cancel.
std::vector<std::pair<std::int64_t, std::string>> candidates_with_calendars(SQLite::Database& database) {
    std::vector<std::pair<std::int64_t, std::string>> candidates;
    SQLite::Statement query(database, "SELECT id, code FROM candidate WHERE id IN (SELECT candidate FROM "
                                      "calendar_event WHERE NOT cancelled)");
    while (query.executeStep())
        candidates.emplace_back(query.getColumn(0).getInt64(), query.getColumn(1).getString());
    return candidates;
}

void put_back(SQLite::Database& database,
              const std::vector<std::pair<std::int64_t, std::string>>& candidates) {
    for (const auto& [row, code] : candidates) {
        SQLite::Statement insert(database, "INSERT OR IGNORE INTO candidate (id, code) VALUES (?, ?)");
        insert.bind(1, row);
        insert.bindNoCopy(2, code);
        insert.exec();
    }
    for (const char* table : {"calendar_event", "collected_record"}) // which no change has
        database.exec(std::string("DELETE FROM ") + table +
                      " WHERE candidate NOT IN (SELECT id FROM candidate)");
}

bool has_loose_ends(SQLite::Database& database) {
    SQLite::Statement query(database, "PRAGMA foreign_key_check");
    return query.executeStep();
}

void apply(SQLite::Database& database, const Changeset& changeset) {
    const auto kept = candidates_with_calendars(database);
    const bool applied = changeset.apply(database);
    put_back(database, kept);
    if (!applied || has_loose_ends(database))
        throw Error("the store is not what that change left: another program changed it; nothing was changed",
                    Error::Kind::conflict);
}

void mark_taken_back(SQLite::Database& database, ChangeId id, bool taken_back) {
    SQLite::Statement update(database, "UPDATE change SET taken_back = ? WHERE id = ?");
    update.bind(1, taken_back ? 1 : 0);
    update.bind(2, static_cast<std::int64_t>(id));
    update.exec();
}

/// Applies the changeset of the change that the query finds, which must be this one.
void restore(SQLite::Database& database, const char* sql, ChangeId id, bool take_back,
             const std::function<void()>& when_stored) {
    Restoring restoring(database);
    {
        SQLite::Statement query(database, sql);
        if (!query.executeStep() || query.getColumn(0).getInt64() != static_cast<std::int64_t>(id))
            throw Error("another change was made meanwhile; nothing was changed", Error::Kind::conflict);
        Changeset changeset = changeset_in(query.getColumn(4));
        query.reset();
        if (take_back)
            changeset = changeset.inverted();
        apply(database, changeset);
    }
    mark_taken_back(database, id, take_back);
    restoring.commit(when_stored);
}

constexpr const char* last_change = "SELECT id, at, command, taken_back, changeset FROM change WHERE NOT "
                                    "taken_back ORDER BY id DESC LIMIT 1";
constexpr const char* taken_back_last = "SELECT id, at, command, taken_back, changeset FROM change WHERE "
                                        "taken_back ORDER BY id LIMIT 1";

} // namespace

std::vector<ChangeOnFile> ChangesOnFile::list(const Store& store, std::optional<std::size_t> max) {
    Store::State& state = *store.state_;
    return state.guarded(reading_changes, [&] {
        std::vector<ChangeOnFile> changes;
        const auto query =
            state.prepared("SELECT id, at, command, taken_back, changeset FROM change ORDER BY id DESC");
        while ((!max || changes.size() < *max) && query->executeStep())
            changes.push_back(change_in(*query));
        return changes;
    });
}

void Store::State::restored(const char* operation, const std::function<void(SQLite::Database&)>& work) {
    if (changing || reading)
        throw StoreError(operation, file, "a change or a reading is under way", Error::Kind::misused);
    if (!writable)
        throw StoreError(operation, file,
                         "it can't be written; check the permissions of the file and its folder",
                         Error::Kind::unwritable);
    forget();
    guarded(operation, [&] { work(*database); });
}

std::optional<ChangeOnFile> Store::State::find_change(const char* sql) {
    return guarded(reading_changes, [&]() -> std::optional<ChangeOnFile> {
        const auto query = prepared(sql);
        if (!query->executeStep())
            return std::nullopt;
        return change_in(*query);
    });
}

std::optional<ChangeOnFile> ChangesOnFile::find_last(const Store& store) {
    return store.state_->find_change(last_change);
}

std::optional<ChangeOnFile> ChangesOnFile::find_taken_back(const Store& store) {
    return store.state_->find_change(taken_back_last);
}

std::vector<RecordsChanged> ChangesOnFile::records(const Store::Change& change) {
    Store::State& state = change.state();
    return state.guarded(reading_changes, [&] {
        ChangeOnFile so_far{};
        count_records(state.recording->changeset(), so_far);
        return so_far.records;
    });
}

bool ChangesOnFile::tell_of(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded(reading_changes, [&] {
        const auto query = state.prepared("SELECT changeset FROM change");
        while (query->executeStep())
            if (changeset_in(query->getColumn(0)).adds_or_removes_candidate(candidate))
                return true;
        return false;
    });
}

void ChangesOnFile::take_back(Store& store, ChangeId id) {
    Store::State& state = *store.state_;
    state.restored("taking back a change of", [&](SQLite::Database& database) {
        restore(database, last_change, id, true, [&] { state.say_stored(); });
    });
}

void ChangesOnFile::bring_back(Store& store, ChangeId id) {
    Store::State& state = *store.state_;
    state.restored("bringing back a change of", [&](SQLite::Database& database) {
        restore(database, taken_back_last, id, false, [&] { state.say_stored(); });
    });
}

} // namespace inkturn
