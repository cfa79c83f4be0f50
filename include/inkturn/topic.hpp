#pragma once

#include "inkturn/allowance.hpp"
#include "inkturn/candidate.hpp"
#include "inkturn/marks.hpp"
#include "inkturn/paper.hpp"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// How a candidate stands in a paper now.
struct LatestMarks {
    std::shared_ptr<const Paper> paper;
    std::vector<PartMarks> parts; ///< in the paper's order, one a part
    ExtraTime extra_time;         ///< of the sitting
};

/// The marks of the latest attempt at each part: those of each paper's latest sitting, replaced question by
/// question by the last re-attempt recorded for it. In the order of Candidate::sittings.
std::vector<LatestMarks> latest_marks(const Candidate& candidate);

/// Own marks short of the maximum in the latest attempts, by topic, over all papers sat; 0 where a topic was
/// tried and nothing is missed. Parts that state no topic are left out.
std::map<std::string, Marks> lost_by_topic(const Candidate& candidate);

} // namespace inkturn
