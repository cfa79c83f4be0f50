#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Prints topics, of which there are some: whose they are, the tables and how to read them.
void print_topics(const Context& context, const std::string& whose,
                  const std::vector<TopicDiagnosis>& topics);

/// `topics relearned`.
void add_topics_relearned(Command& topics);

} // namespace inkturn
