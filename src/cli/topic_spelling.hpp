#pragma once

#include "cli/context.hpp"
#include "inkturn/facts/fact.hpp"
#include "inkturn/paper/paper.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Asks on a terminal, and notes elsewhere, that a new topic is nearly one of the subject's other papers or
/// of the parts before it; not those that parts had before, in `was`. Throws Error where it was a slip.
void question_topics(const Context& context, const Store& store, const Paper& paper, const Paper* was);

/// The paper with its topics as the list of its subject spells them; as it is where there is no list, after
/// question_topics(). Asks on
/// a terminal whether a topic that is nearly one of the list is that. Throws Error for the topics that the
/// list doesn't have, after naming each on standard error. Topics that a part had before, in `was`, stay.
Paper with_listed_topics(const Context& context, const Store& store, const Paper& paper,
                         const Paper* was = nullptr);

/// Facts of one subject, likewise; those of `on_file` keep their topics.
std::vector<Fact> with_listed_topics(const Context& context, const Store& store, std::vector<Fact> facts,
                                     const std::vector<Fact>& on_file);

/// On a terminal whether this topic is that of the list; without one no.
bool is_meant(const Context& context, const std::string& topic, const std::string& listed);

} // namespace inkturn
