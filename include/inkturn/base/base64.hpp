#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

// Bytes in base64 with padding, on one line (RFC 4648 section 4).

std::string base64(std::string_view bytes);

/// Puts them behind a text.
void append_base64(std::string& text, std::string_view bytes);

/// The bytes; nothing where the text is not what base64() gives for any.
std::optional<std::string> read_base64(std::string_view text);

} // namespace inkturn
