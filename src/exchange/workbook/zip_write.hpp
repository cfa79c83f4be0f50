#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

struct ZipMember {
    std::string name; ///< with `/` between folders
    std::string content;
};

/// An archive whose members are stored as they are (PKWARE's APPNOTE 6.3.9, method 0), dated 1 January 1980.
/// Throws Error if it would be larger than 1 GB.
std::string zip_of(const std::vector<ZipMember>& members);

} // namespace inkturn
