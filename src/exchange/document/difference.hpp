#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/facts/fact.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/planned_work.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// The first difference between what is on file and what a file says, such as
/// `part 7b is 2+1 here, 3 in the file`; nothing if they are equal. Marks are of one paper. A sitting or
/// re-attempt without a clock does not differ by its clock.
std::optional<std::string> difference(const Paper& here, const Paper& in_file);
std::optional<std::string> difference(const Paper& paper, const Sitting& here, const Sitting& in_file);
std::optional<std::string> difference(const Paper& paper, const Question& question, const Reattempt& here,
                                      const Reattempt& in_file);
std::optional<std::string> difference(const Script& here, const Script& in_file);
std::optional<std::string> difference(const StatedTimes& here, const StatedTimes& in_file);
std::optional<std::string> difference(const PlanWishes& here, const PlanWishes& in_file);
/// Of facts with the same prompt and subject.
std::optional<std::string> difference(const Fact& here, const Fact& in_file);

bool is_same(const ClockEvent& a, const ClockEvent& b);

} // namespace inkturn
