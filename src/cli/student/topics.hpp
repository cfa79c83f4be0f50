#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "cli/outlooks.hpp"

#include <string>

namespace inkturn {

/// `--gain`: what an hour on a topic is taken to teach.
struct GainOption {
    std::string percent;

    void add_to(Command& command);
    Gain read() const; ///< throws Error
};

struct TopicsShown {
    bool all;   ///< not only the eight at the top, and what was lost by reason and code
    bool plain; ///< shares of each topic's own marks
    bool of_class;
    std::string command; ///< shows them all
};

/// Prints topics, at least one: what to do first, the table and how to read it.
void print_topics(const Context& context, const std::string& whose, TopicsFound found,
                  const TopicsShown& shown);

/// `topics add`, `topics list`, `topics of`.
void add_topics_add(Command& topics);
void add_topics_list(Command& topics);
void add_topics_of(Command& topics);

/// `topics relearned` and `topics rate`.
void add_topics_relearned(Command& topics);
void add_topics_rate(Command& topics);

} // namespace inkturn
