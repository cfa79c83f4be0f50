#pragma once

#include "inkturn/paper/picture.hpp"

#include <string>
#include <string_view>

namespace inkturn {

/// The bytes in base64 with padding, on one line (RFC 4648 section 4).
std::string base64(std::string_view bytes);

/// The whole picture as an address that a page can hold (RFC 2397): `data:image/png;base64,...`. Nothing in
/// it needs escaping in HTML.
std::string data_uri(const Picture& picture);

} // namespace inkturn
