#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The file that a candidate's page is written to, without a folder: `K07.html`. What a file system may not
/// take is written as %XX, a byte each.
std::string page_file_name(const std::string& code);

/// A folder with a page for each of these candidates.
class PageFolder {
  public:
    /// Makes it if it is not there, and checks that every page can be written. Throws Error as check_output()
    /// does, and if the folder can't be made. The context must outlive it.
    PageFolder(const Context& context, std::string folder, bool force, const std::vector<std::string>& codes);

    /// Throws Error as write_output() does.
    void write(const std::string& code, const std::string& html) const;

  private:
    const Context& context_;
    std::string folder_;
    bool force_;
};

} // namespace inkturn
