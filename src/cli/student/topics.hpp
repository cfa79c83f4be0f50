#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Prints topics, at least one: whose they are, the tables and how to read them. Unless all are wanted, the
/// eight at the top; `command` shows the rest.
void print_topics(const Context& context, const std::string& whose, std::vector<TopicDiagnosis> topics,
                  bool all, const std::string& command);

/// `topics relearned`.
void add_topics_relearned(Command& topics);

} // namespace inkturn
