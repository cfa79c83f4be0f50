#pragma once

#include "inkturn/retry/retry.hpp"

namespace inkturn {

/// Takes what the other of the same attempt has and this one has not: its clock, and the notes of parts that
/// have none; whether there was something.
bool complete(Sitting& sitting, const Sitting& other);
bool complete(Reattempt& reattempt, const Reattempt& other);

} // namespace inkturn
