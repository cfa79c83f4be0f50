#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "cli/csv_options.hpp"

#include <map>
#include <string>
#include <vector>

namespace inkturn {

/// The names that belong to codes, read from a file for pages alone: no store learns them.
class NamesOfCandidates {
  public:
    /// No names where `file` is empty. Throws Error if the file is partly wrong; `otherwise` says what was
    /// not done.
    NamesOfCandidates(const Context& context, const std::string& file, const CsvOptionTexts& csv,
                      const std::string& otherwise);

    /// Empty: the file has none, or there is no file.
    std::string of(const std::string& code) const;

    /// Says which codes of the file are not among these, and which of these it has no name for. `codes` are
    /// ascending, those of the class or, if that is empty, all on file; `page`: what each gets.
    void say_whose(const Context& context, const std::vector<std::string>& codes, const std::string& of_class,
                   const std::string& page) const;

  private:
    std::map<std::string, std::string> names_;
    std::string file_;
};

/// Adds the option --names, and how its file is read; `bearers` are what bears the names.
void add_names_option(Command& command, std::string& names, CsvOptionTexts& csv, const std::string& bearers);

} // namespace inkturn
