#include "store/state.hpp"

#include <sqlite3.h>

namespace inkturn {

std::shared_ptr<Store::State> Store::opened(const std::string& file, bool to_write) {
    OpenedDatabase opened = open_database(file, to_write);
    auto state = std::make_shared<State>();
    state->file = file;
    state->database = std::move(opened.database);
    state->writable = opened.writable;
    return state;
}

Store::Store(std::shared_ptr<State> state) : state_(std::move(state)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::string& file) {
    return Store(opened(file, true));
}
Store Store::open_to_read(const std::string& file) {
    return Store(opened(file, false));
}

bool Store::writable() const {
    return state_->writable;
}

void Store::State::check_can_change(const char* operation) const {
    if (spoiled)
        throw StoreError(operation, file, "a step of this change failed halfway, so that it can't be kept",
                         Error::Kind::misused);
    if (sqlite3_get_autocommit(database->getHandle()) !=
        0) // SQLite takes a transaction back on some failures
        throw StoreError(operation, file, "a failure took this change back", Error::Kind::misused);
}

void Store::State::forget_what_is_stale() {
    const auto query = prepared("PRAGMA data_version");
    query->executeStep();
    const int now = query->getColumn(0).getInt();
    if (now != data_version)
        forget();
    data_version = now;
}

void Store::compact() {
    if (state_->changing || state_->reading)
        throw StoreError("rewriting", state_->file, "a change or a reading of it goes on",
                         Error::Kind::misused);
    state_->guarded("rewriting", [&] {
        state_->statements.clear();
        state_->database->exec("PRAGMA temp_store = MEMORY"); // no copy of it in a folder for passing files
        state_->database->exec("VACUUM");
    });
}

} // namespace inkturn
