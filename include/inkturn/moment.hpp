#pragma once

#include <date/date.h>

namespace inkturn {

/// An instant in whole seconds since 1970-01-01 00:00:00 UTC, leap seconds left out.
using Moment = date::sys_seconds;

} // namespace inkturn
