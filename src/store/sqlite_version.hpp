#pragma once

namespace inkturn {

/// Of the SQLite that the program runs with: `3.40.1`.
const char* sqlite_version() noexcept;

} // namespace inkturn
