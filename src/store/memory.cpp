#include "store/memory.hpp"

#include <sqlite3.h>

namespace inkturn {

void leave_memory_uncounted() {
    sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
}

} // namespace inkturn
