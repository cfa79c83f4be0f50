#pragma once

#include "inkturn/base/time.hpp"
#include "inkturn/paper/paper.hpp"

#include <vector>

namespace inkturn {

/// The working time that one mark buys where the paper states no duration: 1.2 minutes. Common practice.
constexpr Seconds time_per_mark{72};

/// Papers have half a minute to three minutes a mark: a time that is far from it is likely a slip.
bool is_usual_time(Seconds time, Marks marks);

/// Extra time as a percentage of the allowance, 0 to 100. Who gets it is for the awarding body and the centre
/// to decide.
class ExtraTime {
  public:
    static constexpr int max_percent = 100;
    constexpr ExtraTime() = default;
    /// Throws Error outside 0 to max_percent.
    explicit ExtraTime(int percent);
    constexpr int percent() const { return percent_; }

  private:
    int percent_ = 0;
};

/// The allowance of the whole paper, to the nearest second (a half rounds up).
Seconds allowance(const Paper& paper, ExtraTime extra = {});
/// What so many of its marks buy.
Seconds allowance(const Paper& paper, Marks counted, ExtraTime extra);

/// For each part the working time at which it should be done, counted from the start. The exact share of
/// the marks up to there, or of the allowances that drawn parts bring along, is rounded once, so the last one
/// is the allowance of the paper, or beyond it where the paper has a choice.
std::vector<Seconds> checkpoints(const Paper& paper, ExtraTime extra = {});

/// The same where only some parts are worked, `is_set` for each: the others take no time.
std::vector<Seconds> checkpoints(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra);

/// For each part the distance between its checkpoint and the one before: they sum to the paper's allowance,
/// or to more where a choice leaves some of them out.
std::vector<Seconds> part_allowances(const Paper& paper, ExtraTime extra = {});
std::vector<Seconds> part_allowances(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra);

/// The allowances of a question's parts together, out of those of all the paper's parts. Throws Error where
/// one of them is missing.
Seconds question_allowance(const Question& question, const std::vector<Seconds>& part_allowances);

} // namespace inkturn
