#pragma once

#include "cli/context.hpp"
#include "inkturn/retry/availability.hpp"

#include <CLI/CLI.hpp>

#include <string>

namespace inkturn {

/// --date, or --from and --to, as typed.
struct SpanOptions {
    std::string date;
    std::string from;
    std::string to;

    void add_to(CLI::App& command);
    /// A week from today where nothing was typed. Throws Error.
    DaySpan read(const Context& context) const;
};

} // namespace inkturn
