#pragma once

namespace inkturn {

/// For a program that has no use for what SQLite says of its memory, before it opens a store: counting takes
/// a lock for each piece.
void leave_memory_uncounted();

} // namespace inkturn
