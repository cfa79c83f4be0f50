#include "store/state.hpp"

namespace inkturn {

std::unique_ptr<Store::State> Store::opened(const std::string& file, bool to_write) {
    OpenedDatabase opened = open_database(file, to_write);
    auto state = std::make_unique<State>();
    state->file = file;
    state->database = std::move(opened.database);
    state->writable = opened.writable;
    return state;
}

Store::Store(std::unique_ptr<State> state) : state_(std::move(state)) {}
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

Store::Change::Change(Store& store) : store_(store) {
    State& state = *store_.state_;
    if (!state.writable)
        throw StoreError("writing the store", state.file,
                         "it may not be written; check the permissions of the file and its folder");
    state.guarded("writing the store", [&] { state.database->exec("BEGIN IMMEDIATE"); });
    state.changing = true;
}

Store::Change::~Change() {
    if (committed_)
        return;
    store_.state_->changing = false;
    store_.state_->forget();
    store_.state_->database->tryExec("ROLLBACK");
}

void Store::Change::commit() {
    State& state = *store_.state_;
    state.guarded("writing the store", [&] { state.database->exec("COMMIT"); });
    state.changing = false;
    committed_ = true;
}

void Store::compact() {
    assert(!state_->changing && "a store is made compact outside a Change");
    state_->guarded("rewriting", [&] {
        state_->statements.clear();
        state_->database->exec("PRAGMA temp_store = MEMORY"); // no copy of it in a folder for passing files
        state_->database->exec("VACUUM");
    });
}

} // namespace inkturn
