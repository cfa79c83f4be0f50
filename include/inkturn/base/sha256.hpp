#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// The 32 bytes of the SHA-256 digest (FIPS 180-4).
std::string sha256(std::string_view bytes);

} // namespace inkturn
