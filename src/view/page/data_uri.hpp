#pragma once

#include "inkturn/paper/picture.hpp"

#include <string>

namespace inkturn {

/// The whole picture as an address that a page can hold (RFC 2397): `data:image/png;base64,...`. Nothing in
/// it needs escaping in HTML.
std::string data_uri(const Picture& picture);

} // namespace inkturn
