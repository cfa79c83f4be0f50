#pragma once

#include "cli/context.hpp"
#include "exchange/class/doubts.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace inkturn {

/// Lists the open doubts about a file and what to type to settle each. Returns how many kinds there are.
std::size_t list_doubts(const Context& context, const std::string& file, const FileDoubts& doubts);

/// --date-order as typed; nothing if it wasn't. Throws Error.
std::optional<DateOrder> date_order_named(const std::string& name);

} // namespace inkturn
