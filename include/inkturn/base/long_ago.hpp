#pragma once

#include "inkturn/base/day.hpp"

#include <string>

namespace inkturn {

/// Whether the day is more than a calendar year before today: then it is more likely a slip than meant, and
/// is questioned wherever something is recorded as done on it.
bool is_long_ago(Day day, Day today);

/// `Mon 3 Nov 2025 is more than a year back`.
std::string long_ago_text(Day day);

/// Whether the day is more than three calendar years after today: no plan looks so far, and it is more likely
/// a slip.
bool is_far_off(Day day, Day today);

/// `Fri 1 Jun 2040 is more than three years off`.
std::string far_off_text(Day day);

} // namespace inkturn
