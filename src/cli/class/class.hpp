#pragma once

#include "cli/context.hpp"

#include <CLI/CLI.hpp>

namespace inkturn {

// The commands of the group `class`, each defined in the file of its name.
void add_class_analyse(CLI::App& group, Context& context);
void add_class_import(CLI::App& group, Context& context);
void add_class_members(CLI::App& group, Context& context); ///< add, list, members, remove
void add_class_report(CLI::App& group, Context& context);
void add_class_retries(CLI::App& group, Context& context);
void add_class_seats(CLI::App& group, Context& context);
void add_class_standing(CLI::App& group, Context& context);
void add_class_topics(CLI::App& group, Context& context);

/// The option --class; its name is not empty.
void add_class_option(CLI::App& command, std::string& name, const std::string& help);

/// --class as typed; nothing where it was not.
std::optional<std::string> class_named(const std::string& name);

/// Codes of the candidates of the class named, or of all on file; throws Error where there is no such class.
std::vector<std::string> codes_of(const Store& store, const std::string& class_name);

/// `class tuesday`, `all candidates`.
std::string class_title(const std::string& class_name);

} // namespace inkturn
