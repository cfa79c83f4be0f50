#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/interval.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/analysis.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A sitting of a paper that is known.
struct SittingOfPaper {
    std::string candidate;
    Day day;
    std::vector<PartMarks> parts; ///< in the paper's order
};

enum class WhichSitting : std::uint8_t { first, latest };

std::string_view name(WhichSitting which) noexcept;

/// Of each candidate the first or the latest sitting, one of the whole paper if there is any. `sittings` are
/// by candidate, then by day.
std::vector<SittingOfPaper> one_each(const Paper& paper, const std::vector<SittingOfPaper>& sittings,
                                     WhichSitting which);

/// Those of the sittings of a paper, `all`, that don't count for a class: of a candidate with a sitting among
/// the class's `own`, those on days other than these.
std::vector<SittingOfPaper> sat_elsewhere(const std::vector<SittingOfPaper>& own,
                                          std::vector<SittingOfPaper> all);

/// Numbers of one side.
struct Sample {
    std::size_t size = 0;
    double mean = 0;
    double variance = 0; ///< over size - 1
};

Sample sample_of(const std::vector<double>& values);

/// The mean of one side less that of the other.
struct Difference {
    double difference = 0;
    std::optional<Interval> interval{}; ///< nothing: a side is too small, or neither side varies
    double degrees_of_freedom = 0;      ///< where there is an interval
    double p = 1;                       ///< of a difference as large by chance; where there is an interval
};

/// B. L. Welch 1947, Biometrika 34, 28-35: the sides may vary differently. The confidence lies between 0
/// and 1.
Difference welch(const Sample& a, const Sample& b, double confidence = 0.95);

/// The probabilities allowed for as many looks as there are: S. Holm 1979, Scandinavian Journal of Statistics
/// 6, 65-70. In the order given.
std::vector<double> holm_adjusted(const std::vector<double>& p);

/// One side of a comparison.
struct Side {
    std::shared_ptr<const Paper> paper;
    std::vector<SittingOfPaper> sittings; ///< one a candidate
};

/// Of the side's paper.
PaperAnalysis analyse(const Side& side);

/// A part that both sides were set.
struct PartCompared {
    std::string label;
    std::string topic; ///< of the first side
    Marks max;
    Sample a; ///< of the shares of its marks earned unaided, 0 to 1, by those for whom it counted
    Sample b;
    Difference difference;
    double adjusted_p = 1; ///< by holm_adjusted(), of the parts with an interval

    /// At most this chance; never where a side has fewer than PaperAnalysis::min_candidates_to_remark.
    static constexpr double chance = 0.05;
    bool is_beyond_chance() const { return difference.interval && adjusted_p <= chance; }
};

struct Comparison {
    bool closed = false;     ///< the second side is of a closed class, of which there are no totals
    std::size_t on_both = 0; ///< candidates on both sides
    Marks max;               ///< of the totals compared
    Sample a;                ///< of the unaided totals
    Sample b;
    std::size_t without_total = 0; ///< candidates of both sides who were not set all of that
    Difference total;              ///< in marks
    std::vector<PartCompared>
        parts; ///< those that differ most first, by facility; if tied in the paper's order
    std::vector<std::string> unlike; ///< labels that only one paper has, or that have other maxima
    std::vector<std::string>
        other_topics; ///< labels of parts that are about another topic in the other paper

    std::size_t parts_tested() const; ///< those with an interval

    static constexpr std::size_t most = 5; ///< parts that a page shows
};

/// Compares parts of the same label, maximum and topic (where both have one), and the totals of these by
/// those who were set all of them. Throws Error where marks are not those of their paper.
Comparison compare(const Side& a, const Side& b);

} // namespace inkturn
