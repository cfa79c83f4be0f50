#include "inkturn/statistics/topic.hpp"

#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <map>
#include <string>
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
        std::vector<bool>& of_paper = of_paper_[record.paper->id()];
        of_paper.resize(parts.size());
        for (const Question& question : record.paper->questions()) {
            std::vector<bool>* of_copies = seen_in_copies(*record.paper, question);
            for (std::size_t i = 0; i < question.parts.size(); ++i) {
                const std::size_t part = question.parts[i];
                PartMarks& marks = parts[part];
                if (!marks.counts() && !marks.attempted())
                    continue;
                auto seen = of_copies ? (*of_copies)[i] : of_paper[part];
                if (seen)
                    marks = PartMarks::not_set();
                seen = true;
            }
        }
        return parts;
    }

  private:
    /// By the position among the question's parts; null where it has no copies.
    std::vector<bool>* seen_in_copies(const Paper& paper, const Question& question) {
        if (first_of_.empty())
            return nullptr;
        const auto copy = first_of_.find({paper.id(), question.label});
        if (copy == first_of_.end())
            return nullptr;
        std::vector<bool>& seen = of_question_[copy->second];
        seen.resize(std::max(seen.size(), question.parts.size()));
        return &seen;
    }

    std::map<QuestionName, QuestionName> first_of_;
    std::map<QuestionName, std::vector<bool>> of_question_; ///< of those with copies, by the first of them
    std::map<std::string, std::vector<bool>> of_paper_;     ///< of the others, by the paper's id
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
