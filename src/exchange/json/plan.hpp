#pragma once

#include "inkturn/plan/choices.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/timetable.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What the candidate decided about the plan.
struct Steered {
    RetryRule rule;
    std::vector<Choice> choices;
};

/// The days shown of a timetable, what is said of the whole of it, what changed, and which misses make a
/// retry.
std::string json_of(const Plan& plan, const Timetable& timetable, const std::vector<Remedy>& remedies,
                    const std::vector<PlanChange>& changes, const Steered& steered);

} // namespace inkturn
