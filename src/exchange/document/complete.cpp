#include "exchange/document/complete.hpp"

namespace inkturn {
namespace {

bool take_clock(std::vector<ClockEvent>& clock, const std::vector<ClockEvent>& other) {
    if (!clock.empty() || other.empty())
        return false;
    clock = other;
    return true;
}

bool take_notes(Notes& notes, const Notes& other) {
    const std::size_t before = notes.size();
    notes.insert(other.begin(), other.end());
    return notes.size() > before;
}

template <typename Attempt>
bool complete_attempt(Attempt& attempt, const Attempt& other) {
    const bool clock_taken = take_clock(attempt.clock, other.clock);
    return take_notes(attempt.notes, other.notes) || clock_taken;
}

} // namespace

bool complete(Sitting& sitting, const Sitting& other) {
    return complete_attempt(sitting, other);
}

bool complete(Reattempt& reattempt, const Reattempt& other) {
    return complete_attempt(reattempt, other);
}

} // namespace inkturn
