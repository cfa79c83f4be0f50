#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/retry/availability.hpp"

#include <string>

namespace inkturn {

/// --date, or --from and --to, as typed.
struct SpanOptions {
    std::string date;
    std::string from;
    std::string to;

    void add_to(Command& command);
    /// A week from today where nothing was typed. Throws Error.
    DaySpan read(const Context& context) const;
};

} // namespace inkturn
