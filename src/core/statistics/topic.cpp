#include "inkturn/statistics/topic.hpp"

namespace inkturn {
namespace {

/// Turns ascend within a question, so the last one stays.
std::vector<PartMarks> with_reattempts(const SittingRecord& record) {
    std::vector<PartMarks> parts = record.sitting.parts;
    for (const Reattempt& reattempt : record.reattempts) {
        const Question& question = question_of(*record.paper, reattempt);
        for (std::size_t i = 0; i < question.parts.size(); ++i)
            parts[question.parts[i]] = reattempt.parts[i];
    }
    return parts;
}

} // namespace

std::vector<LatestMarks> latest_marks(const Candidate& candidate) {
    std::vector<LatestMarks> latest;
    for (const SittingRecord& record : candidate.sittings)
        if (is_latest(candidate, record))
            latest.push_back({record.paper, with_reattempts(record), record.sitting.extra_time});
    return latest;
}

} // namespace inkturn
