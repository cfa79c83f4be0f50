#include "inkturn/store/change.hpp"

#include "store/commit_watch.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* writing = "writing the store";

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
    changes_before_ = state_->database->getTotalChanges();
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
    const bool any_change = state.database->getTotalChanges() != changes_before_;
    state.spoiled = true; // until all of it has succeeded: it can't be tried twice
    state.guarded(writing, [&] {
        state.keep_recorded();
        const CommitWatch watch(*state.database);
        try {
            state.database->exec("COMMIT");
        } catch (const SQLite::Exception&) {
            if (any_change && watch.took_effect())
                state.say_stored();
            throw;
        }
    });
    state.spoiled = false;
    state.recording.reset();
    state.changing = false;
    is_over_ = true;
    if (any_change)
        state.say_stored();
}

} // namespace inkturn
