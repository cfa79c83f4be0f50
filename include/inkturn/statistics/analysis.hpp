#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/figure.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

namespace inkturn {

/// What the figures of a part say, the most important first. Where the bounds lie is in remarks.cpp.
enum class Remark : std::uint8_t {
    check_marking,       ///< those who did well elsewhere did worse here
    hard_for_the_strong, ///< hard, and the upper group loses it as well as the lower
    hard,                ///< a low facility
    time_trap,           ///< much of what it earned came in overtime
    often_left_out,      ///< many did not attempt it
    easy,                ///< a facility so high that it tells little
    tells_apart          ///< the upper group earns much more of it than the lower
};

/// One part's statistics over a class. Marks are unaided marks. Correlation, alpha and discrimination go by
/// totals: those whose totals the paper's figures are of. All others go by everyone for whom the part
/// counted.
struct PartAnalysis {
    Marks max;
    std::size_t candidates;  ///< for whom it counted
    std::size_t compared;    ///< of these, whose totals the paper's figures are of
    Figure mean;             ///< marks
    Figure facility;         ///< mean ÷ max, 0 to 1
    Figure rest_correlation; ///< Pearson's r of the part with the total less the part, -1 to 1
    Figure alpha_without;    ///< alpha of the questions without the part, at most 1
    Figure discrimination;   ///< (mean of the upper group - mean of the lower) ÷ max, -1 to 1
    Figure not_attempted;    ///< share of these candidates, 0 to 1
    Figure overtime;         ///< share of the part's unaided marks, 0 to 1
    std::size_t ran_out;     ///< candidates whose time ran out at this part

    std::vector<Remark> remarks{}; ///< at most two, in the order of Remark; none if the class is too small
    bool against_rest = false;     ///< rest_correlation is below 0, whichever one candidate is left out
};

/// A paper's statistics over a class. Marks are unaided marks. Totals are compared between candidates who
/// were set the same parts: those that most were set; if tied, the more marks.
struct PaperAnalysis {
    // With fewer candidates:
    static constexpr std::size_t min_candidates_to_remark = 5;    ///< no part gets a remark
    static constexpr std::size_t min_candidates_to_rely_on = 20;  ///< remarks say how few they come from
    static constexpr std::size_t min_candidates_to_correlate = 5; ///< no alpha, correlation, groups or error
    static constexpr std::size_t min_candidates_unnamed = 5; ///< figures give marks away, though of nobody

    std::size_t candidates; ///< whose totals the figures are of
    std::size_t others;     ///< who were set other parts
    Marks max;              ///< of what those were set
    Figure mean;
    Figure variance;       ///< over n - 1, in squared marks
    Figure deviation;      ///< its root, in marks
    Figure lower_quartile; ///< linear between two candidates: type 7 of Hyndman & Fan 1996
    Figure median;
    Figure upper_quartile;
    Figure alpha; ///< Cronbach's, over questions, at most 1; below 0 where they pull against each other
    Figure standard_error; ///< of measurement: deviation · √(1 - alpha), in marks
    std::size_t ran_out;   ///< candidates who ran out of time: the sum over the parts
    std::size_t went_back; ///< who finished the last part in time, and an earlier one in overtime

    std::vector<PartAnalysis> parts; ///< in the paper's order
};

/// Whether figures over so many candidates would give their marks away though they name nobody.
constexpr bool gives_marks_away(std::size_t candidates) {
    return candidates > 0 && candidates < PaperAnalysis::min_candidates_unnamed;
}

/// Takes the marks of a class one candidate at a time. Holds sums by the parts set and by total, so its size
/// depends on the paper and not on how many candidates there are. Their order makes no difference.
class ClassMarks {
  public:
    explicit ClassMarks(Paper paper);

    /// One candidate's marks, one per part in the paper's order.
    void add(const std::vector<PartMarks>& parts);

    PaperAnalysis analysis() const;

    /// The candidates with one and the same total; for each part, those for whom it counted and the sum of
    /// their unaided marks.
    struct SameTotal {
        std::int64_t candidates = 0;
        std::vector<std::int64_t> counted;
        std::vector<std::int64_t> sums;
        std::vector<std::map<int, std::int64_t>> by_mark; ///< of a part, candidates by unaided marks
    };
    /// Those who were set the same parts.
    struct SameSet {
        Marks max; ///< of their totals
        std::int64_t candidates = 0;
        std::map<int, SameTotal> by_total;          ///< ascending
        std::vector<std::int64_t> question_squares; ///< of a question's, one per question
        std::vector<std::int64_t> other_squares;    ///< of those of the part's question less the part
    };
    /// What is added up for one part over all candidates.
    struct PartSums {
        std::int64_t counted = 0; ///< candidates
        std::int64_t sum = 0;     ///< of unaided marks
        std::int64_t overtime = 0;
        std::int64_t attempted = 0;
        std::size_t ran_out = 0;
    };

  private:
    void add_questions(const std::vector<PartMarks>& parts, SameSet& set) const;

    Paper paper_;
    std::vector<std::vector<std::size_t>> questions_; ///< positions of their parts
    std::map<std::vector<bool>, SameSet> by_set_;     ///< by whether each part was set
    std::vector<PartSums> parts_;
    std::size_t went_back_ = 0;
};

PaperAnalysis analyse(const Paper& paper, const std::vector<std::vector<PartMarks>>& sittings);

} // namespace inkturn
