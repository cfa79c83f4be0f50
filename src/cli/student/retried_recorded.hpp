#pragma once

#include "cli/context.hpp"
#include "exchange/class/retried_import.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// All that a file or standard input holds.
std::string whole_text(const InputFile& file);

/// The turn after each re-attempt; nothing where none is open.
using NextTurns = std::vector<std::optional<Retry>>;

/// Puts re-attempts on file, those of one candidate after the other, and plans anew.
NextTurns record_retried(Store::Change& change, const ClassRetried& retried, Day today);

/// A re-attempt a row: what it came to, and when it comes round.
Table recorded_table(const ClassRetried& retried, const NextTurns& next);

/// That lines were given more than once; empty where none was.
std::string repeated_line(const ClassRetried& retried);

/// Lists what stands in the way, and throws an Error that says that nothing was stored.
void refuse_retried(const Context& context, const std::string& file, const ClassRetried& retried);

} // namespace inkturn
