#pragma once

#include "inkturn/plan/choices.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/timetable.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The days shown of a timetable, what is said of the whole of it, and what changed.
std::string json_of(const Plan& plan, const Timetable& timetable, const std::vector<Remedy>& remedies,
                    const std::vector<PlanChange>& changes, const std::vector<Choice>& choices);

} // namespace inkturn
