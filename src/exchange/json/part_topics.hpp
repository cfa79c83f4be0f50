#pragma once

#include "exchange/csv/part_topics.hpp"
#include "inkturn/paper/topic_words.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<PartTopicRow>& rows, const HeldOutTopics& fared);
std::string json_of_topics_stored(std::size_t changed, std::size_t unchanged, std::size_t papers);

} // namespace inkturn
