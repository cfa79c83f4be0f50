#include "inkturn/store/reading.hpp"

#include "store/state.hpp"

namespace inkturn {

Reading::Reading(const Store& store) {
    Store::State& state = *store.state_;
    if (state.changing || state.reading)
        return;
    state.guarded("reading the store", [&] {
        state.prepared("BEGIN")->exec();
        try {
            state.forget_what_is_stale();
        } catch (...) {
            state.database->tryExec("ROLLBACK");
            throw;
        }
    });
    state.reading = true;
    state_ = store.state_;
}

Reading::~Reading() {
    if (!state_)
        return;
    state_->reading = false;
    state_->database->tryExec("COMMIT");
}

} // namespace inkturn
