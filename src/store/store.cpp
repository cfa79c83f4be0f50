#include "store/state.hpp"

#include <sqlite3.h>

namespace inkturn {

std::shared_ptr<Store::State> Store::opened(const std::string& file, const Occasion& occasion,
                                            Purpose purpose) {
    OpenedDatabase opened = open_database(
        file, {purpose != Purpose::reading, purpose == Purpose::writing, date::floor<Days>(occasion.at)});
    auto state = std::make_shared<State>();
    state->file = file;
    state->occasion = occasion;
    state->database = std::move(opened.database);
    state->writable = opened.writable;
    return state;
}

Store::Store(std::shared_ptr<State> state) : state_(std::move(state)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::string& file, const Occasion& occasion) {
    return Store(opened(file, occasion, Purpose::writing));
}
Store Store::open_to_read(const std::string& file, const Occasion& occasion) {
    return Store(opened(file, occasion, Purpose::reading));
}

Store Store::open_to_repair(const std::string& file) {
    return Store(opened(file, {}, Purpose::repair));
}

bool Store::writable() const {
    return state_->writable;
}

Store::Seen Store::seen() const {
    return state_->guarded("reading", [&] {
        const auto query = state_->prepared("PRAGMA data_version");
        query->executeStep();
        return Seen{query->getColumn(0).getInt64()};
    });
}

void Store::State::check_can_change(const char* operation) const {
    if (spoiled)
        throw StoreError(operation, file, "a step of this change failed halfway, so it can't be saved",
                         Error::Kind::misused);
    if (sqlite3_get_autocommit(database->getHandle()) !=
        0) // SQLite rolls a transaction back on some failures
        throw StoreError(operation, file, "a failure undid this change", Error::Kind::misused);
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
        throw StoreError("rewriting", state_->file, "a change or a reading is under way",
                         Error::Kind::misused);
    state_->guarded("rewriting", [&] {
        state_->statements.clear();
        state_->database->exec("PRAGMA temp_store = MEMORY"); // no copy of it in a folder for temporary files
        state_->database->exec("VACUUM");
    });
}

} // namespace inkturn
