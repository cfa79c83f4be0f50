#include "inkturn/grades/prediction.hpp"

#include "inkturn/base/error.hpp"

#include <cmath>
#include <set>
#include <vector>

namespace inkturn {
namespace {

Prediction::Range marks_within(const Interval& share, Marks total) {
    return {Marks(static_cast<int>(std::floor(share.low * total.count()))),
            Marks(static_cast<int>(std::ceil(share.high * total.count())))};
}

/// Each paper once.
std::vector<const Paper*> papers_sat_whole(const Candidate& candidate, std::string_view subject) {
    check_whole(candidate);
    std::set<std::string_view> ids;
    std::vector<const Paper*> papers;
    for (const SittingRecord& record : candidate.sittings) {
        const Paper& paper = *record.paper;
        if ((subject.empty() || subject == paper.subject()) && is_whole(paper, record.sitting.parts) &&
            ids.insert(paper.id()).second)
            papers.push_back(&paper);
    }
    return papers;
}

} // namespace

Prediction prediction(const UncertainShare& share, Marks total) {
    if (total == Marks(0))
        throw Error("a prediction is of marks above 0", Error::Kind::misused);
    return {total, Marks(static_cast<int>(std::lround(share.mean() * total.count()))),
            marks_within(share.range(0.5), total), marks_within(share.range(0.9), total)};
}

std::set<std::string> subjects_sat_whole(const Candidate& candidate, std::string_view subject) {
    std::set<std::string> subjects;
    for (const Paper* paper : papers_sat_whole(candidate, subject))
        subjects.insert(paper->subject());
    return subjects;
}

std::optional<std::string> predictable_subject(const Candidate& candidate, std::string_view subject) {
    const std::set<std::string> subjects = subjects_sat_whole(candidate, subject);
    if (papers_sat_whole(candidate, subject).size() < Prediction::min_papers || subjects.size() != 1)
        return std::nullopt;
    return *subjects.begin();
}

} // namespace inkturn
