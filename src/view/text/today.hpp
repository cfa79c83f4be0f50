#pragma once

#include "inkturn/plan/plan.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What to do first, and why: `start with 1q2: its window is the first to close, on 28 Nov.`
std::string opening_text(const FirstToDo& first, const TodaysWork& work, const std::vector<Script>& on_desk);

/// That it is late, and what of today's work can wait; empty where nothing is open.
std::string late_evening_text(const OpenTonight& open);

} // namespace inkturn
