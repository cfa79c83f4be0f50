#pragma once

#include <string>
#include <string_view>

// What a changed input would have to get right by chance before a reader looks at anything else.

namespace inkturn::fuzz {

/// A PNG whose chunks have the sums that their bytes ask for.
std::string with_sums(std::string_view png);

/// A zip of parts, not compressed: a line `--- NAME` and then the part's bytes, one after another.
std::string packed_parts(std::string_view text);

} // namespace inkturn::fuzz
