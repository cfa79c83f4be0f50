#include "inkturn/grades/class_award.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

bool sat_a_component(const AwardStanding& standing) {
    return std::any_of(standing.components.begin(), standing.components.end(),
                       [](const ComponentBasis& basis) { return basis.sitting.has_value(); });
}

} // namespace

std::vector<ClassAward> class_awards(const std::vector<Award>& awards, const std::string& subject,
                                     const std::vector<Candidate>& candidates,
                                     const std::vector<BoundarySet>& sets) {
    std::vector<ClassAward> all;
    for (const Award& award : awards) {
        if (!subject.empty() && !covers(award, subject))
            continue;
        all.push_back({award, {}, 0});
        for (const Candidate& candidate : candidates) {
            AwardStanding standing = award_standing(award, candidate, sets);
            if (sat_a_component(standing))
                all.back().candidates.push_back({candidate.code, std::move(standing)});
            else
                ++all.back().without;
        }
    }
    return all;
}

} // namespace inkturn
