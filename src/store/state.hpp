#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/changes.hpp"
#include "store/file.hpp"
#include "store/recording.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <functional>
#include <string>
#include <unordered_map>

namespace inkturn {

/// A statement in use: ready to be bound, and put back, without locks or bound values, at the end of its
/// scope.
class StatementInUse {
  public:
    explicit StatementInUse(SQLite::Statement& statement) : statement_(statement) {}
    ~StatementInUse() {
        statement_.tryReset();
        try {
            statement_.clearBindings();
        } catch (const SQLite::Exception&) { // what stays bound is bound anew before the next use
        }
    }
    StatementInUse(const StatementInUse&) = delete;
    StatementInUse& operator=(const StatementInUse&) = delete;
    SQLite::Statement* operator->() const { return &statement_; }
    SQLite::Statement& operator*() const { return statement_; }

  private:
    SQLite::Statement& statement_;
};

/// What the groups of verbs share: the database, its statements once prepared, and the papers once read.
struct Store::State {
    std::string file;
    Occasion occasion;
    std::unique_ptr<SQLite::Database> database;
    bool writable;

    /// Declared after the database, so that none outlives it.
    std::unordered_map<const char*, std::unique_ptr<SQLite::Statement>> statements;
    std::unordered_map<std::int64_t, std::shared_ptr<const Paper>> papers_by_row;
    std::unordered_map<std::string, std::int64_t> paper_rows;
    std::unordered_map<std::string, std::int64_t> candidate_rows;

    std::unordered_map<std::int64_t, std::int64_t>
        sitting_papers;   ///< rows of papers by the sittings' numbers
    int data_version = 0; ///< SQLite's, when what was read was last known to be fresh

    bool changing = false; ///< inside a Change
    bool spoiled = false;  ///< and one of its verbs failed after writing
    bool reading = false;  ///< inside a Reading
    bool stored = false;   ///< a change was made since the store was opened

    std::optional<Recording> recording;     ///< of the Change
    bool forgets_changes = false;           ///< no change up to this one is to be kept
    std::optional<std::int64_t> own_change; ///< the row that keeps what this store's changes changed

    /// The statement for a literal of SQL.
    StatementInUse prepared(const char* sql) {
        auto& statement = statements[sql];
        if (!statement)
            statement = std::make_unique<SQLite::Statement>(*database, sql);
        return StatementInUse(*statement);
    }

    /// Does the work; a failure of SQLite becomes a StoreError that names the operation and the file.
    template <typename Work>
    auto guarded(const char* operation, const Work& work) -> decltype(work()) {
        try {
            return work();
        } catch (const SQLite::Exception& failure) {
            throw failed(operation, failure);
        }
    }
    StoreError failed(const char* operation, const SQLite::Exception& failure) const {
        const bool is_undone = changing && !stored && is_of_disk(failure);
        return StoreError(operation, file, explained(failure) + (is_undone ? "; nothing was changed" : ""),
                          kind_of(failure));
    }
    void say_stored() {
        stored = true;
        if (occasion.when_stored)
            occasion.when_stored();
    }

    /// Does the work of a verb that changes tables. One that fails after writing something spoils the change.
    template <typename Work>
    auto changed(const char* operation, const Work& work) -> decltype(work()) {
        check_can_change(operation);
        const int before = database->getTotalChanges();
        try {
            return guarded(operation, work);
        } catch (...) {
            spoiled = spoiled || database->getTotalChanges() != before;
            throw;
        }
    }
    void check_can_change(const char* operation) const;

    /// Reads what a verb wrote, so an Error means a damaged store.
    template <typename Read>
    auto undamaged(const char* operation, const Read& read) const -> decltype(read()) {
        try {
            return read();
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            throw damaged(operation, error.what());
        }
    }
    StoreError damaged(const char* operation, const std::string& why) const {
        return StoreError(operation, file, "it is damaged: " + why, Error::Kind::damaged);
    }

    /// A line as it stands in a row.
    template <typename Read>
    auto line_in(const char* operation, const SQLite::Column& column, const Read& read)
        -> decltype(read(std::string_view())) {
        return undamaged(operation, [&] {
            return read(std::string_view(column.getText(), static_cast<std::size_t>(column.getBytes())));
        });
    }
    template <typename Read>
    auto marks_in(const SQLite::Column& column, const Read& read) -> decltype(read(std::string_view())) {
        return line_in("reading marks from", column, read);
    }
    template <typename Read>
    auto clock_in(const SQLite::Column& column, const Read& read) -> decltype(read(std::string_view())) {
        return line_in("reading a clock from", column, read);
    }

    /// Keeps what was recorded, so that it can be taken back.
    void keep_recorded();
    std::int64_t insert_change(const Changeset& changeset); ///< returns its row
    void replace_own_change(const Changeset& changeset);
    std::optional<Changeset> own_changeset(); ///< nothing where a newer one is kept
    void drop_old_changes();
    std::optional<ChangeOnFile> find_change(const char* sql);
    /// Takes back, or makes again, what changed the tables.
    void restored(const char* operation, const std::function<void(SQLite::Database&)>& work);

    /// What was read may be stale once a change was undone.
    void forget() {
        papers_by_row.clear();
        paper_rows.clear();
        candidate_rows.clear();
        sitting_papers.clear();
    }
    /// The same where another program has changed the file since.
    void forget_what_is_stale();

    std::optional<std::int64_t> paper_row(const std::string& id);
    std::shared_ptr<const Paper> paper(std::int64_t row);
    std::int64_t paper_row_on_file(const std::string& id); ///< throws Error where there is none
    std::optional<std::int64_t> candidate_row(const std::string& code);
    std::int64_t candidate_row_made(const std::string& code);
    StatedTimes own_times(std::int64_t candidate);
    std::vector<StatedTimes> class_times_of(std::int64_t candidate);   ///< of the classes that have set some
    std::vector<Exam> exams_of(std::optional<std::int64_t> candidate); ///< those that count
    std::optional<ExtraTime> extra_time(std::int64_t candidate);
    CandidateOnFile listed_in(SQLite::Statement& row) const;
    /// Whether any candidate has rows in tables that are empty for many: to prepare a statement takes longer
    /// than to find them empty.
    struct InUse {
        bool week;
        bool class_week;
        bool lessons;
        bool relearned;
        bool wishes;
        bool reattempts;
        bool notes;
        bool steering;
    };
    InUse in_use();
    void read_plan(std::int64_t row, Candidate& candidate);
    void read_relearned(std::int64_t row, Candidate& candidate);
    void read_wishes(std::int64_t row, Candidate& candidate);
    SittingRecord sitting_in(SQLite::Statement& row);
    Reattempt reattempt_in(SQLite::Statement& row, const Paper& of);
    void read_sittings(std::int64_t row, Candidate& candidate);
    using SittingsByNumber = std::unordered_map<std::int64_t, SittingRecord*>;
    void read_reattempts(std::int64_t row, const SittingsByNumber& records);
    void read_notes(std::int64_t row, const SittingsByNumber& records);
    void set_sitting_notes(SittingId sitting, const Notes& notes);
    void add_reattempt_notes(const RetryId& id, const Notes& notes);
    void set_script_notes(const RetryId& id, const Notes& notes); ///< of a paper: no question, turn 0
    Notes script_notes(const RetryId& id);                        ///< likewise
    void read_placements(std::int64_t row, Candidate& candidate);
    void read_steering(std::int64_t row, Candidate& candidate);
    /// Takes the next number for a sitting that is yet to come.
    std::int64_t next_sitting();
    SittingId insert_sitting(const std::string& candidate, std::int64_t paper, const Sitting& sitting,
                             std::optional<SittingId> id);
    /// Throws Error where a script of the candidate's is to become a sitting of this paper on this day.
    void check_not_on_desk(std::int64_t candidate, std::int64_t paper, Day day);
    std::shared_ptr<const Paper> paper_of(SittingId sitting); ///< throws Error where it is not on file
    void check_is_next_turn(SittingId sitting, const Reattempt& reattempt);
    void check_is_last_turn(const RetryId& id);
    void check_can_be_kept(const Placement& placement);
    void insert_placement(const char* sql, const Placement& placement);
    void remove_placement(SittingId sitting, const std::string& question);
    void remove_wanted_day(SittingId sitting, const std::string& question);
    std::int64_t class_row(const std::string& name);
    std::vector<std::string> names(const char* sql);    ///< the texts of its only column
    std::int64_t lesson_row(const std::string& lesson); ///< throws Error where there is none
    std::vector<std::string> lesson_topics(std::int64_t row);
    Lesson lesson_in(SQLite::Statement& row);
    void read_places_asked(std::int64_t row, Lesson& lesson);
    void read_lessons(std::int64_t row, Candidate& candidate);
    void remove_candidate(std::int64_t row); ///< sets for it are for nobody then
    void remove_candidates_without_records();
};

/// Carries out a statement that names a row. Throws Error if there is no such row.
inline void exec_found(const StatementInUse& statement, const std::string& what) {
    if (statement->exec() == 0)
        throw Error("no " + what + " on file", Error::Kind::not_found);
}

/// Days are kept as their number since 1 January 1970.
inline std::int64_t day_number(Day day) {
    return day.time_since_epoch().count();
}
inline Day day_of(std::int64_t number) {
    return Day{Days{static_cast<Days::rep>(number)}};
}

} // namespace inkturn
