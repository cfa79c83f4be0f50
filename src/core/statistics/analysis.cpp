#include "inkturn/statistics/analysis.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace inkturn {
namespace {

// Marks are whole numbers, so every variance, covariance and difference of groups is formed as a whole number
// and turned into a double by one division at the end: no cancellation, the same to the last digit wherever
// the marks lie. 64 bits hold the sums, but not n times a sum of squares (6e22 for a million candidates with
// totals of 250,000): hence the compiler's 128-bit integer, an extension of GCC and clang.
__extension__ typedef __int128 Exact;

/// Common practice in the trade.
constexpr double hard_below = 0.4;
constexpr double easy_above = 0.9;
constexpr double often_left_out_from = 0.2;
constexpr double time_trap_from = 0.25;
/// Of fewer candidates a correlation below 0 is no ground to look at the marking again. Common practice.
constexpr std::size_t min_candidates_to_doubt_marking = 10;
/// R. L. Ebel's rule of thumb for discrimination, from memory: below 0.2 poor, from 0.4 very good.
constexpr double poor_discrimination_below = 0.2;
constexpr double good_discrimination_from = 0.4;
constexpr std::size_t max_remarks = 2;

/// The upper and the lower 27%: T. L. Kelley 1939, from memory.
constexpr std::int64_t group_percent = 27;

using SameTotal = ClassMarks::SameTotal;
using ByTotal = std::map<int, SameTotal>;

double ratio(Exact part, Exact whole) {
    return static_cast<double>(part) / static_cast<double>(whole);
}

/// n² times a covariance over n, or a variance where both are the same: whole where marks are.
Exact scatter(std::int64_t n, Exact products, Exact sum, Exact other_sum) {
    return n * products - sum * other_sum;
}

bool has_overtime(const PartMarks& marks) {
    return marks.overtime() > Marks(0);
}

/// The part at which time ran out. The parts at the paper's end that were not tried in time were not reached:
/// it ran out at the first of them, or at the part before where that was begun in time and finished in
/// overtime. Where the last part was tried in time, it ran out at the first part with overtime marks.
std::optional<std::size_t> ran_out_at(const std::vector<PartMarks>& parts) {
    const auto tried = std::find_if(parts.rbegin(), parts.rend(),
                                    [](const PartMarks& marks) { return marks.tried_in_time(); });
    const auto unreached = static_cast<std::size_t>(parts.rend() - tried);
    if (unreached < parts.size())
        return unreached > 0 && has_overtime(parts[unreached - 1]) ? unreached - 1 : unreached;
    const auto late = std::find_if(parts.begin(), parts.end(), has_overtime);
    if (late == parts.end())
        return std::nullopt;
    return static_cast<std::size_t>(late - parts.begin());
}

/// A part's marks and the totals, over the class.
struct Moments {
    Exact sum = 0;        ///< of the part's marks
    Exact part = 0;       ///< n² · variance of the part
    Exact with_total = 0; ///< n² · covariance of part and total
};

/// The totals, over the class.
struct TotalMoments {
    std::int64_t candidates = 0;
    Exact sum = 0;
    Exact total = 0; ///< n² · variance of the totals
    Exact parts = 0; ///< n² · sum of the parts' variances
};

TotalMoments total_moments(const ByTotal& by_total) {
    TotalMoments moments;
    Exact squares = 0;
    for (const auto& [total, same] : by_total) {
        moments.candidates += same.candidates;
        moments.sum += Exact(total) * same.candidates;
        squares += Exact(total) * total * same.candidates;
    }
    moments.total = scatter(moments.candidates, squares, moments.sum, moments.sum);
    return moments;
}

Moments part_moments(const ByTotal& by_total, std::size_t part, std::int64_t squares,
                     const TotalMoments& all) {
    Moments moments;
    Exact with_total = 0;
    for (const auto& [total, same] : by_total) {
        moments.sum += same.sums[part];
        with_total += Exact(total) * same.sums[part];
    }
    moments.part = scatter(all.candidates, squares, moments.sum, moments.sum);
    moments.with_total = scatter(all.candidates, with_total, moments.sum, all.sum);
    return moments;
}

/// What a figure that takes two candidates lacks.
std::optional<NoFigure> too_few(std::int64_t candidates) {
    if (candidates == 0)
        return NoFigure::no_candidate;
    if (candidates == 1)
        return NoFigure::one_candidate;
    return std::nullopt;
}

/// Cronbach's alpha of k parts, 2 or more, from n² times the variance of their sum, above 0, and n² times the
/// sum of their variances.
Figure alpha(std::size_t k, Exact total, Exact parts) {
    return Figure(ratio(static_cast<Exact>(k) * (total - parts), static_cast<Exact>(k - 1) * total));
}

Figure alpha_of_paper(std::size_t parts, const TotalMoments& all) {
    if (const auto why = too_few(all.candidates))
        return Figure(*why);
    if (parts == 1)
        return Figure(NoFigure::one_part);
    if (all.total == 0)
        return Figure(NoFigure::no_spread_in_total);
    return alpha(parts, all.total, all.parts);
}

Exact rest_scatter(const Moments& part, const TotalMoments& all) {
    return all.total - 2 * part.with_total + part.part;
}

Figure alpha_without(std::size_t parts, const Moments& part, const TotalMoments& all) {
    if (const auto why = too_few(all.candidates))
        return Figure(*why);
    if (parts <= 2)
        return Figure(parts == 1 ? NoFigure::one_part : NoFigure::two_parts);
    const Exact rest = rest_scatter(part, all);
    if (rest == 0)
        return Figure(NoFigure::no_spread_in_rest);
    return alpha(parts - 1, rest, all.parts - part.part);
}

Figure rest_correlation(std::size_t parts, const Moments& part, const TotalMoments& all) {
    if (const auto why = too_few(all.candidates))
        return Figure(*why);
    if (parts == 1)
        return Figure(NoFigure::one_part);
    if (part.part == 0)
        return Figure(NoFigure::no_spread_in_part);
    const Exact rest = rest_scatter(part, all);
    if (rest == 0)
        return Figure(NoFigure::no_spread_in_rest);
    const double product = static_cast<double>(part.part) * static_cast<double>(rest);
    const double r = static_cast<double>(part.with_total - part.part) / std::sqrt(product);
    return Figure(std::clamp(r, -1.0, 1.0)); // the roundings of sums above 2^53 may add up
}

/// One end of the class by total. Those who tie at its edge share the places left: each weighs left ÷ tied.
struct Group {
    std::vector<std::int64_t> within; ///< sums of marks of those wholly in it, a part each
    std::int64_t left = 0;            ///< places for those at the edge, 1 to tied
    const SameTotal* edge = nullptr;

    /// The sum of the group's marks in the part, times those tied.
    Exact sum_times_tied(std::size_t part) const {
        return Exact(within[part]) * edge->candidates + Exact(left) * edge->sums[part];
    }
};

/// The group of `size` candidates, at most as many as there are, met first on the way from `total`.
template <typename Iterator>
Group group_from(Iterator total, std::int64_t size) {
    Group group;
    group.within.resize(total->second.sums.size());
    group.left = size;
    for (; total->second.candidates < group.left; ++total) {
        const SameTotal& same = total->second;
        group.left -= same.candidates;
        for (std::size_t part = 0; part < same.sums.size(); ++part)
            group.within[part] += same.sums[part];
    }
    group.edge = &total->second;
    return group;
}

/// The upper and the lower group, and what they make of each part.
class Discrimination {
  public:
    Discrimination(const ByTotal& by_total, const TotalMoments& all)
        : why_(too_few(all.candidates)), size_(size_of_group(all.candidates)) {
        if (!why_ && all.total == 0)
            why_ = NoFigure::no_spread_in_total;
        if (why_)
            return;
        upper_ = group_from(by_total.rbegin(), size_);
        lower_ = group_from(by_total.begin(), size_);
    }

    Figure of(std::size_t part, Marks max) const {
        if (why_)
            return Figure(*why_);
        const Exact tied_above = upper_.edge->candidates;
        const Exact tied_below = lower_.edge->candidates;
        const Exact difference =
            upper_.sum_times_tied(part) * tied_below - lower_.sum_times_tied(part) * tied_above;
        return Figure(ratio(difference, tied_above * tied_below * size_ * max.count()));
    }

  private:
    /// Rounded to the nearest, a half up: one of two candidates, and never more than half of them.
    static std::int64_t size_of_group(std::int64_t candidates) {
        return (group_percent * candidates + 50) / 100;
    }

    std::optional<NoFigure> why_;
    std::int64_t size_;
    Group upper_;
    Group lower_;
};

/// The total of the candidate at this place, from 0, by ascending total.
int total_at(const ByTotal& by_total, std::int64_t place) {
    auto total = by_total.begin();
    for (; total->second.candidates <= place; ++total)
        place -= total->second.candidates;
    return total->first;
}

/// R. J. Hyndman & Y. Fan 1996, "Sample quantiles in statistical packages", type 7.
Figure quartile(const ByTotal& by_total, std::int64_t candidates, int quarters) {
    if (candidates == 0)
        return Figure(NoFigure::no_candidate);
    const std::int64_t distance = (candidates - 1) * quarters; // in quarters of a place
    const int below = total_at(by_total, distance / 4);
    const int above = total_at(by_total, (distance + 3) / 4);
    return Figure(below + static_cast<double>(distance % 4) * (above - below) / 4);
}

Figure variance(const TotalMoments& all) {
    if (const auto why = too_few(all.candidates))
        return Figure(*why);
    return Figure(ratio(all.total, Exact(all.candidates) * (all.candidates - 1)));
}

Figure root(const Figure& figure) {
    return figure.has_value() ? Figure(std::sqrt(figure.value())) : figure;
}

Figure standard_error(const Figure& deviation, const Figure& alpha) {
    return alpha.has_value() ? Figure(deviation.value() * std::sqrt(1 - alpha.value())) : alpha;
}

Figure share(Exact part, Exact whole, NoFigure otherwise) {
    return whole == 0 ? Figure(otherwise) : Figure(ratio(part, whole));
}

bool below(const Figure& figure, double bound) {
    return figure.has_value() && figure.value() < bound;
}

bool from(const Figure& figure, double bound) {
    return figure.has_value() && figure.value() >= bound;
}

/// All that hold, in the order of Remark, cut to the most important ones. Each figure is the double nearest
/// to its fraction, as each bound is, so a figure right on a bound is seen to be on it (in classes of any
/// real size).
std::vector<Remark> remarks(const PartAnalysis& part, std::size_t candidates) {
    std::vector<Remark> found;
    if (candidates < PaperAnalysis::min_candidates_to_remark)
        return found;
    if (candidates >= min_candidates_to_doubt_marking && below(part.rest_correlation, 0))
        found.push_back(Remark::check_marking);
    if (below(part.facility, hard_below))
        found.push_back(below(part.discrimination, poor_discrimination_below) ? Remark::hard_for_the_strong
                                                                              : Remark::hard);
    if (from(part.overtime, time_trap_from))
        found.push_back(Remark::time_trap);
    if (from(part.not_attempted, often_left_out_from))
        found.push_back(Remark::often_left_out);
    if (part.facility.value() > easy_above)
        found.push_back(Remark::easy);
    if (from(part.discrimination, good_discrimination_from))
        found.push_back(Remark::tells_apart);
    if (found.size() > max_remarks)
        found.resize(max_remarks);
    return found;
}

PartAnalysis part_analysis(const Moments& part, const ClassMarks::PartSums& sums, Marks max,
                           std::size_t parts, const TotalMoments& all, const Figure& discrimination) {
    const std::int64_t n = all.candidates;
    PartAnalysis analysis{max,
                          share(part.sum, n, NoFigure::no_candidate),
                          share(part.sum, Exact(n) * max.count(), NoFigure::no_candidate),
                          rest_correlation(parts, part, all),
                          alpha_without(parts, part, all),
                          discrimination,
                          share(n - static_cast<std::int64_t>(sums.attempted), n, NoFigure::no_candidate),
                          n == 0 ? Figure(NoFigure::no_candidate)
                                 : share(sums.overtime, part.sum, NoFigure::nothing_earned),
                          sums.ran_out,
                          {}};
    analysis.remarks = remarks(analysis, static_cast<std::size_t>(n));
    return analysis;
}

PaperAnalysis paper_analysis(const ByTotal& by_total, const std::vector<Marks>& max,
                             const TotalMoments& all) {
    Marks marks;
    for (const Marks of_part : max)
        marks += of_part;
    const Figure deviation = root(variance(all));
    const Figure reliability = alpha_of_paper(max.size(), all);
    return {static_cast<std::size_t>(all.candidates),
            marks,
            share(all.sum, all.candidates, NoFigure::no_candidate),
            variance(all),
            deviation,
            quartile(by_total, all.candidates, 1),
            quartile(by_total, all.candidates, 2),
            quartile(by_total, all.candidates, 3),
            reliability,
            standard_error(deviation, reliability),
            0,
            {}};
}

} // namespace

ClassMarks::ClassMarks(const Paper& paper) : parts_(paper.parts().size()) {
    for (const Part& part : paper.parts())
        max_.push_back(part.max);
}

void ClassMarks::add(const std::vector<PartMarks>& parts) {
    if (parts.size() != parts_.size())
        throw Error("the paper has " + std::to_string(parts_.size()) + " parts, not " +
                        std::to_string(parts.size()),
                    Error::Kind::misused);
    Marks total;
    for (const PartMarks& marks : parts)
        total += marks.unaided();

    SameTotal& same = by_total_[total.count()];
    ++same.candidates;
    same.sums.resize(parts.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::int64_t unaided = parts[i].unaided().count();
        same.sums[i] += unaided;
        parts_[i].squares += unaided * unaided;
        parts_[i].overtime += parts[i].overtime().count();
        if (parts[i].attempted())
            ++parts_[i].attempted;
    }
    if (const auto part = ran_out_at(parts))
        ++parts_[*part].ran_out;
}

PaperAnalysis ClassMarks::analysis() const {
    TotalMoments all = total_moments(by_total_);
    std::vector<Moments> moments;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        moments.push_back(part_moments(by_total_, i, parts_[i].squares, all));
        all.parts += moments[i].part;
    }

    PaperAnalysis analysis = paper_analysis(by_total_, max_, all);
    const Discrimination discrimination(by_total_, all);
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        analysis.parts.push_back(
            part_analysis(moments[i], parts_[i], max_[i], parts_.size(), all, discrimination.of(i, max_[i])));
        analysis.ran_out += parts_[i].ran_out;
    }
    return analysis;
}

PaperAnalysis analyse(const Paper& paper, const std::vector<std::vector<PartMarks>>& sittings) {
    ClassMarks marks(paper);
    for (const std::vector<PartMarks>& sitting : sittings)
        marks.add(sitting);
    return marks.analysis();
}

} // namespace inkturn
