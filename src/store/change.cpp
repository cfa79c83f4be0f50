#include "inkturn/store/change.hpp"

#include "store/state.hpp"

#include <sqlite3.h>

#include <filesystem>
#include <fstream>

namespace inkturn {
namespace {

constexpr const char* writing = "writing the store";

std::string path_of(const SQLite::Database& database) {
    return sqlite3_db_filename(database.getHandle(), "main");
}

/// The file's own count of the changes that were written to it (SQLite's file format, 1.3.9); nothing where
/// it can't be read, or is in memory.
std::optional<std::string> changes_counted(const SQLite::Database& database) {
    std::string count(4, '\0');
    std::ifstream file(path_of(database), std::ios::binary);
    if (!file.seekg(24) || !file.read(count.data(), 4))
        return std::nullopt;
    return count;
}

/// Whether a commit that failed has taken effect: the file is a later one, and no journal is left to undo
/// that.
bool is_committed(const SQLite::Database& database, const std::optional<std::string>& before) {
    std::error_code failure;
    const bool is_undone =
        std::filesystem::file_size(path_of(database) + "-journal", failure) > 0 && !failure;
    const auto now = changes_counted(database);
    return !is_undone && before && now && now != before;
}

} // namespace

Store::Change::Change(Store& store) : store_(store), state_(store.state_) {
    if (state_->changing || state_->reading)
        throw StoreError(writing, state_->file,
                         state_->changing ? "a change is under way, and another can't begin inside it"
                                          : "a change can't begin inside a reading",
                         Error::Kind::misused);
    if (!state_->writable)
        throw StoreError(writing, state_->file,
                         "it can't be written; check the permissions of the file and its folder",
                         Error::Kind::unwritable);
    state_->guarded(writing, [&] {
        state_->database->exec("BEGIN IMMEDIATE");
        try {
            state_->forget_what_is_stale();
            state_->recording.emplace(*state_->database);
        } catch (...) {
            state_->database->tryExec("ROLLBACK");
            throw;
        }
    });
    state_->changing = true;
    state_->spoiled = false;
    state_->forgets_changes = false;
}

Store::Change::Change(Store& store, Seen seen) : Change(store) {
    if (store.seen() != seen)
        throw Error(
            "the store was changed meanwhile, from another window or program: look again; nothing was "
            "changed",
            Error::Kind::conflict);
}

Store::Change::~Change() {
    if (is_over_)
        return;
    state_->changing = false;
    state_->spoiled = false;
    state_->recording.reset();
    state_->forget();
    state_->database->tryExec("ROLLBACK");
}

Store::State& Store::Change::state() const {
    if (is_over_)
        throw StoreError(writing, state_->file, "this change is over: begin another one",
                         Error::Kind::misused);
    return *state_;
}

void Store::Change::forget_changes() {
    state().check_can_change(writing);
    state().forgets_changes = true;
}

void Store::Change::commit() {
    State& state = this->state();
    state.check_can_change(writing);
    state.spoiled = true; // until all of it has succeeded: it can't be tried twice
    state.guarded(writing, [&] {
        state.keep_recorded();
        const auto before = changes_counted(*state.database);
        try {
            state.database->exec("COMMIT");
        } catch (const SQLite::Exception&) {
            if (is_committed(*state.database, before)) // and only what comes after it failed
                state.say_stored();
            throw;
        }
    });
    state.spoiled = false;
    state.recording.reset();
    state.changing = false;
    is_over_ = true;
    state.say_stored();
}

} // namespace inkturn
