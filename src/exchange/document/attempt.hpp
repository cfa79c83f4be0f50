#pragma once

#include "exchange/document/strict_json.hpp"
#include "inkturn/clock/clock.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

// What a sitting, a re-attempt and a script have in common. `positions` are those of the parts that were
// tried, ascending. All throw Error.

std::vector<PartMarks> read_marks(const JsonValue& value, const Paper& paper,
                                  const std::vector<std::size_t>& positions);

/// Null: not marked yet.
std::vector<std::optional<PartMarks>> read_script_marks(const JsonValue& value, const Paper& paper,
                                                        const std::vector<std::size_t>& positions);

std::vector<ClockEvent> read_clock(const JsonValue& value, const Paper& paper,
                                   const std::vector<std::size_t>& positions, Day today);

/// The clock of a sitting or re-attempt, if it has one.
std::vector<ClockEvent> read_whole_clock(const JsonValue& owner, const Paper& paper,
                                         const std::vector<std::size_t>& positions, Day today);

Notes read_notes(const JsonValue& owner, const Paper& paper, const std::vector<std::size_t>& positions);

ExtraTime read_extra_time(const JsonValue& value);

/// The position of the question with this label.
std::size_t read_question(const JsonValue& value, const std::string& label, const Paper& paper);

} // namespace inkturn
