#pragma once

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The first of `set-vectors-1`, `set-vectors-2` and so on that no paper on file has: of the topic letters
/// and digits, the others as hyphens; `questions` where none is left. `papers`: their ids, ascending.
std::string free_paper_id(const std::string& start, const std::string& topic,
                          const std::vector<std::string>& papers);

/// The same for a paper that needs another id: its own with the next number that no paper has. `ids`: of all
/// papers.
std::string next_free_id(const std::string& id, const std::set<std::string>& ids);

} // namespace inkturn
