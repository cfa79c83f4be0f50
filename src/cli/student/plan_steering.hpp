#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include <string>

namespace inkturn {

/// What `plan` changes of single pieces of work.
struct PlanSteering {
    std::string paper;
    std::string topic;
    std::string on;
    std::string drop;
    bool undo = false;
    bool restart = false;
    bool drop_least = false;
    bool yes = false;

    bool is_any() const;
    bool names_topic() const { return !topic.empty(); }
};

void add_steering_options(Command& plan, PlanSteering& steering);

/// Throws UsageError where what was typed doesn't say one thing. `subject`: of the topic; empty: not typed.
void check_steering_options(const PlanSteering& steering, const std::string& subject);

/// Stores what was decided with the plan that follows. Returns what was done, in whole lines, which end with
/// how to take it back.
std::string steer_plan(const Context& context, const PlanSteering& steering, const std::string& subject);

} // namespace inkturn
