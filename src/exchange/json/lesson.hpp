#pragma once

#include "inkturn/lesson/lesson.hpp"
#include "inkturn/lesson/run_sheet.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<Lesson>& lessons);
/// With those who wait in the order in which they come next.
std::string json_of(const Lesson& lesson, const LostByCandidate& lost, const Elsewhere& elsewhere = {});
std::string json_of(const RunSheet& sheet);

} // namespace inkturn
