#pragma once

#include "inkturn/base/day.hpp"

#include <string>

namespace inkturn {

/// Whether the day is more than a calendar year before today: then it is more likely a slip than meant, and
/// is questioned wherever something is recorded as done on it.
bool is_long_ago(Day day, Day today);

/// `Mon 3 Nov 2025 is more than a year back`.
std::string long_ago_text(Day day);

/// Whether the day is more than a calendar year after today: further than a school year plans, so it is
/// more likely a slip, and is questioned where a lesson or work to hand in is to be on it.
bool is_far_ahead(Day day, Day today);

/// `Sat 4 Dec 2027 is more than a year ahead`.
std::string far_ahead_text(Day day);

/// Whether the day is more than three calendar years after today: no plan looks so far, and it is more likely
/// a slip.
bool is_far_off(Day day, Day today);

/// `Fri 1 Jun 2040 is more than three years off`.
std::string far_off_text(Day day);

} // namespace inkturn
