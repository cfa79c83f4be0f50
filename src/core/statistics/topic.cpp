#include "inkturn/statistics/topic.hpp"

#include "inkturn/retry/latest.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Turns ascend within a question, so the last one stays.
std::vector<PartMarks> with_reattempts(const SittingRecord& record) {
    std::vector<PartMarks> parts = record.sitting.parts;
    for (const Reattempt& reattempt : record.reattempts) {
        const Question& question = question_of(*record.paper, reattempt);
        for (std::size_t i = 0; i < question.parts.size(); ++i)
            if (reattempt.parts[i].counts())
                parts[question.parts[i]] = reattempt.parts[i];
    }
    return parts;
}

/// Those of the parts that did not count in a later sitting of the same paper.
std::vector<PartMarks> still_latest(const Candidate& candidate, const SittingRecord& record) {
    std::vector<PartMarks> parts = with_reattempts(record);
    for (std::size_t part = 0; part < parts.size(); ++part)
        if (counted_later(candidate, record, part))
            parts[part] = PartMarks::not_set();
    return parts;
}

} // namespace

std::vector<LatestMarks> latest_marks(const Candidate& candidate) {
    check_whole(candidate);
    std::vector<LatestMarks> latest;
    for (const SittingRecord& record : candidate.sittings) {
        std::vector<PartMarks> parts = still_latest(candidate, record);
        if (std::any_of(parts.begin(), parts.end(), [](const PartMarks& marks) { return marks.counts(); }))
            latest.push_back({record.paper, std::move(parts), record.sitting.extra_time});
    }
    return latest;
}

} // namespace inkturn
