#pragma once

#include "inkturn/statistics/diagnosis.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// In their order.
std::string json_of(const std::vector<TopicDiagnosis>& topics, std::size_t candidates, Gain gain);

} // namespace inkturn
