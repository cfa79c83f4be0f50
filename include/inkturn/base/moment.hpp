#pragma once

#include <date/date.h>

#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// An instant in whole seconds since 1970-01-01 00:00:00 UTC, leap seconds left out.
using Moment = date::sys_seconds;

/// ISO 8601 in UTC: `2026-11-25T09:00:30Z`.
std::string iso(Moment at);

/// Reads that form; nothing where the text is anything else or lies outside the accepted days (see day.hpp).
std::optional<Moment> read_iso_moment(std::string_view text);

} // namespace inkturn
