#pragma once

#include "inkturn/store/store.hpp"

namespace inkturn {

/// Writes the file anew, without what was erased or renamed. Throws a StoreError that says how to do it later
/// where it can't be done now.
void leave_no_trace(Store& store);

} // namespace inkturn
