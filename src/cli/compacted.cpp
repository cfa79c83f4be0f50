#include "cli/compacted.hpp"

#include "inkturn/base/error.hpp"

namespace inkturn {

void leave_no_trace(Store& store) {
    try {
        store.compact();
    } catch (const StoreError& error) {
        throw StoreError(error.operation(), error.file(),
                         error.why() + ", so traces may be left in it: 'inkturn check --compact' "
                                       "rewrites the file without them",
                         error.kind());
    }
}

} // namespace inkturn
