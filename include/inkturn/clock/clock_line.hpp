#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// `start`, `go`, `rest`, `work`, `hand in`.
std::string_view name(ClockEventKind kind) noexcept;
std::optional<ClockEventKind> clock_event_named(std::string_view name) noexcept;
bool names_part(ClockEventKind kind) noexcept; ///< start and go

/// A clock of the parts at `positions`, without allowances: it takes the same events as any clock of these
/// parts.
Clock untimed_clock(const Paper& paper, const std::vector<std::size_t>& positions);

/// The place among `positions` of the part with this label. Throws Error where none of them has it.
std::size_t place_of(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view label);

/// One event as `1764061590 go 2a`, the moment in seconds since 1970; with its reading
/// `1764061590/48231/9f3a01bc go 2a`, and with what the wall clock was ahead of the moment
/// `1764061590/48231/9f3a01bc/1200 go 2a`. `positions` are those of the paper's parts that the clock covers.
/// Throws Error where the event's part is none of them.
std::string to_text(const ClockEvent& event, const Paper& paper, const std::vector<std::size_t>& positions);

/// Throws Error where a clock of the parts at `positions` would not take the events.
void check_events(const Paper& paper, const std::vector<std::size_t>& positions,
                  const std::vector<ClockEvent>& events);

/// Events as one line, separated by commas, and back. Throws Error where the line does not fit the paper, or
/// a Clock would not take its events.
std::string to_line(const std::vector<ClockEvent>& events, const Paper& paper,
                    const std::vector<std::size_t>& positions);
std::vector<ClockEvent> parse_clock_line(const Paper& paper, const std::vector<std::size_t>& positions,
                                         std::string_view line);

} // namespace inkturn
