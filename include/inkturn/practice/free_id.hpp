#pragma once

#include <string>
#include <vector>

namespace inkturn {

/// The first of `set-vectors-1`, `set-vectors-2` and so on that no paper on file has: of the topic letters
/// and digits, the others as hyphens; `questions` where none is left. `papers`: their ids, ascending.
std::string free_paper_id(const std::string& start, const std::string& topic,
                          const std::vector<std::string>& papers);

} // namespace inkturn
