#pragma once

#include "inkturn/plan/rating.hpp"
#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The topics that there are to rate, of a subject, or of all if it is empty: by subject, those of its list,
/// then those of the papers on file that it lacks, in the order of papers and parts.
std::vector<TopicName> topics_on_file(const Store& store, const std::string& subject = {});

/// The same with what the candidate said and tried of them, but for headings: those of a list that others are
/// pieces of, and no part has, unless they are rated.
std::vector<RatedTopic> rated_topics_on_file(const Store& store, const Candidate& candidate,
                                             const std::string& subject = {});

/// What a candidate without a sitting and without work begins with: `topics rate` while there are topics not
/// rated, else logging a sitting.
std::string first_command(const Store& store, const Candidate& candidate);

/// A topic as it is spelled on file, where it is typed in another case or with other blanks; itself where no
/// topic, or several, look like it.
std::string spelled_on_file(const std::vector<TopicName>& topics, const std::string& topic);

/// Of several subjects the one that is meant by a topic's name, or a beginning that no other has, in any
/// case. Throws Error where there is none, or several are.
TopicName topic_named(const std::vector<TopicName>& topics, const std::string& typed);

} // namespace inkturn
