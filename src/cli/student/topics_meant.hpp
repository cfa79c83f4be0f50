#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/store/store.hpp"

#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// Topics typed to choose questions by, with the topics of the subject's list that are pieces of them, in the
/// order of that list. Without a subject the lists of all count. Throws Error for a topic that neither a part
/// of the papers nor a list has.
std::vector<std::string> topics_meant(const Store& store,
                                      const std::vector<std::shared_ptr<const Paper>>& papers,
                                      const std::string& subject, std::vector<std::string> typed);

} // namespace inkturn
