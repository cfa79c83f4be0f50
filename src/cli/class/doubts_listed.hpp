#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "exchange/class/doubts.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Lists the open doubts about a file, or without one about what was typed, and what to type to settle each.
/// Returns how many there are.
std::size_t list_doubts(const Context& context, const std::string& file, const FileDoubts& doubts);

/// Lists the doubts about what was typed, and throws Error, where there are any.
void refuse_open_doubts(const Context& context, const FileDoubts& doubts);

/// The codes as they are meant: one that is not on file may be like one that is, `besides` one that is to go.
/// Throws Error where that is in doubt.
std::vector<std::string> settled_codes(const Context& context, const Store& store,
                                       std::vector<std::string> codes,
                                       const std::vector<std::string>& accepted,
                                       const std::string& besides = {});

/// Notes the codes that a change brings on file.
void note_unknown(const Context& context, const Store& store, const std::vector<std::string>& codes);

/// Adds the option --accept.
void add_accept_option(Command& command, std::vector<std::string>& accepted);

/// --date-order as typed; nothing if it wasn't. Throws Error.
std::optional<DateOrder> date_order_named(const std::string& name);

} // namespace inkturn
