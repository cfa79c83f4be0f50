#pragma once

#include "inkturn/lesson/lesson.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Codes of those whose plans are touched where a lesson changes, or is taken off file (no `after`): who
/// comes in one of the two alone, or by another state; and who comes in both, where its time or its topics
/// differ. Ascending.
std::vector<std::string> touched_by(const Lesson& before, const std::optional<Lesson>& after);

} // namespace inkturn
