#include "inkturn/store/reading.hpp"

#include "store/state.hpp"

namespace inkturn {

Reading::Reading(const Store& store)
    : store_(store), is_outermost_(!store.state_->changing && !store.state_->reading) {
    if (!is_outermost_)
        return;
    Store::State& state = *store_.state_;
    state.guarded("reading the store", [&] { state.prepared("BEGIN")->exec(); });
    state.reading = true;
}

Reading::~Reading() {
    if (!is_outermost_)
        return;
    store_.state_->reading = false;
    store_.state_->database->tryExec("COMMIT");
}

} // namespace inkturn
