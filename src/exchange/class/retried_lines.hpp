#pragma once

#include "exchange/class/retried_file.hpp"

#include <string_view>

namespace inkturn {

/// Whether the text is lines that a page for the phone gave to copy back, whole or cut, rather than a table.
bool holds_returned_lines(std::string_view text);

/// Reads such lines, see returned_line.hpp. Blanks within a line, and that it runs over several rows, as a
/// mail program wraps it, make no difference, nor do capitals in the words at its ends. Of a message only
/// lines are read: what stands before or after them, and rows without marks, is left out. A line that was
/// cut or changed, and a row typed by hand, is a problem. Throws Error as read_retried() does.
RetriedFile read_retried_lines(std::string_view text, const RetriedFileOptions& options);

} // namespace inkturn
