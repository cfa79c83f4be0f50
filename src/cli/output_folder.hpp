#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A page for one candidate of a class.
struct PageOfCandidate {
    std::string code;
    std::string html;
};

/// The file that a candidate's page is written to, without a folder: `K07.html`. What a file system may not
/// take is written as %XX, a byte each.
std::string page_file_name(const std::string& code);

/// Writes a page each into the folder, which is made if it is not there. All names are checked before the
/// first page is written. Throws Error as write_output() does, and if the folder can't be made.
void write_pages(const Context& context, const std::string& folder, bool force,
                 const std::vector<PageOfCandidate>& pages);

} // namespace inkturn
