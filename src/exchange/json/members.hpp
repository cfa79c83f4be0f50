#pragma once

#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<CandidateOnFile>& candidates);
std::string json_of(const std::vector<ClassOnFile>& classes);
std::string json_of_members(const std::string& class_name, const std::vector<CandidateOnFile>& members);

} // namespace inkturn
