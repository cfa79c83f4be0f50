#include "inkturn/statistics/topic.hpp"

#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace inkturn {
namespace {

bool any_counts(const std::vector<PartMarks>& parts) {
    return std::any_of(parts.begin(), parts.end(), [](const PartMarks& marks) { return marks.counts(); });
}

/// Which parts were seen, by the first of a question's copies.
class Seen {
  public:
    explicit Seen(const std::vector<Copies>& copies) {
        for (const Copies& same : copies)
            for (const QuestionName& copy : same)
                first_of_.emplace(copy, same.front());
    }

    /// The marks of the parts not seen before. Those that were tried or counted are seen from now on.
    std::vector<PartMarks> take_unseen(const SittingRecord& record) {
        std::vector<PartMarks> parts = record.sitting.parts;
        for (const Question& question : record.paper->questions()) {
            const auto copy = first_of_.find({record.paper->id(), question.label});
            for (std::size_t i = 0; i < question.parts.size(); ++i) {
                PartMarks& marks = parts[question.parts[i]];
                if (!marks.counts() && !marks.attempted())
                    continue;
                const bool is_new = copy == first_of_.end()
                                        ? seen_.insert({{record.paper->id(), ""}, question.parts[i]}).second
                                        : seen_.insert({copy->second, i}).second;
                if (!is_new)
                    marks = PartMarks::not_set();
            }
        }
        return parts;
    }

  private:
    std::map<QuestionName, QuestionName> first_of_;
    /// A question with copies and a position among its parts, or a paper and one among its.
    std::set<std::pair<QuestionName, std::size_t>> seen_;
};

/// Turns ascend within a question, so the last one stays.
std::vector<PartMarks> last_reattempts(const SittingRecord& record) {
    std::vector<PartMarks> parts(record.sitting.parts.size(), PartMarks::not_set());
    for (const Reattempt& reattempt : record.reattempts) {
        const Question& question = question_of(*record.paper, reattempt);
        for (std::size_t i = 0; i < question.parts.size(); ++i)
            if (reattempt.parts[i].counts())
                parts[question.parts[i]] = reattempt.parts[i];
    }
    return parts;
}

void add(std::vector<PaperMarks>& all, const SittingRecord& record, std::vector<PartMarks> parts) {
    if (any_counts(parts))
        all.push_back({record.paper, std::move(parts), record.sitting.extra_time, record.sitting.day});
}

} // namespace

std::vector<PaperMarks> unseen_marks(const Candidate& candidate, const std::vector<Copies>& copies) {
    check_whole(candidate);
    Seen seen(copies);
    std::vector<PaperMarks> unseen;
    for (const SittingRecord& record : candidate.sittings)
        add(unseen, record, seen.take_unseen(record));
    return unseen;
}

std::vector<PaperMarks> reattempted_marks(const Candidate& candidate) {
    check_whole(candidate);
    std::vector<PaperMarks> again;
    for (const SittingRecord& record : candidate.sittings) {
        std::vector<PartMarks> parts = last_reattempts(record);
        for (std::size_t part = 0; part < parts.size(); ++part)
            if (counted_later(candidate, record, part))
                parts[part] = PartMarks::not_set();
        add(again, record, std::move(parts));
    }
    return again;
}

} // namespace inkturn
