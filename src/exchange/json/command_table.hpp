#pragma once

#include <string>
#include <vector>

namespace inkturn {

/// An option or an argument, as the help page describes it.
struct OptionRow {
    std::vector<std::string> names; ///< `-o`, `--output`; of an argument what it is called, `PAPER`
    std::string value;              ///< what is typed after an option, `FILE`; empty if nothing is
    std::string help;
    bool required = false;
    bool repeats = false; ///< several may be typed
};

/// A command, as the help page describes it.
struct CommandRow {
    std::string name;
    std::string occasion; ///< the heading that it comes under; empty within a group
    std::string help;
    std::string closing; ///< explanations and examples, laid out as they are shown
    std::vector<OptionRow> arguments;
    std::vector<OptionRow> options;
    std::vector<CommandRow> commands; ///< of a group
};

/// The table from which the man pages are made.
std::string json_of(const CommandRow& program);

} // namespace inkturn
