#pragma once

#include "inkturn/paper/topic_list.hpp"

#include <map>
#include <string>

namespace inkturn {

std::string json_of(const std::string& subject, const TopicList& list);
std::string json_of(const std::map<std::string, TopicList>& lists); ///< by subject

} // namespace inkturn
