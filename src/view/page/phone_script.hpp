#pragma once

#include <string_view>

namespace inkturn {

/// The script of the page for the phone. It reads the boxes of `.retry` and `.part`, says what is wrong or
/// missing, and writes the line to copy back, as to_text(const ReturnedLine&) does. It is a constant: what
/// differs between pages stands in the page's attributes.
std::string_view phone_script();

} // namespace inkturn
