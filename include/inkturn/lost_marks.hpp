#pragma once

#include "inkturn/marks.hpp"
#include "inkturn/seats.hpp"

#include <map>
#include <string>
#include <vector>

namespace inkturn {

/// What candidates have lost, topic by topic.
struct LostMarks {
    std::vector<std::string> candidates;   ///< codes, in the order given
    std::vector<std::string> topics;       ///< ascending
    std::vector<std::vector<Marks>> marks; ///< a row a candidate, a mark a topic; 0 where nothing was lost
};

/// One candidate's, as lost_by_topic() gives them.
struct CandidateLost {
    std::string candidate;
    std::map<std::string, Marks> by_topic;
};

LostMarks lost_marks(const std::vector<CandidateLost>& candidates);

/// A candidate who asks for a place in a revision class.
struct Wish {
    std::string candidate;
    std::string topic; ///< empty: any
};

/// Leaves of the marks those that were asked for: of a candidate without a wish nothing, of one who named
/// topics what was lost on these.
void keep_wished(LostMarks& lost, const std::vector<Wish>& wishes);

/// Codes of those who have lost marks and sit in no class of the plan.
std::vector<std::string> left_out_of(const SeatPlan& plan, const LostMarks& lost);

} // namespace inkturn
