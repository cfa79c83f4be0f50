#include "inkturn/statistics/comparison.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/class_figures.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace inkturn {
namespace {

double square(double value) {
    return value * value;
}

bool comes_instead(const Paper& paper, const SittingOfPaper& next, const SittingOfPaper& kept,
                   WhichSitting which) {
    const bool next_is_whole = is_whole(paper, next.parts);
    const bool kept_is_whole = is_whole(paper, kept.parts);
    return next_is_whole != kept_is_whole ? next_is_whole : which == WhichSitting::latest;
}

/// Positions of one part in the two papers.
struct Pair {
    std::size_t a;
    std::size_t b;
};

struct Matched {
    std::vector<Pair> parts;
    std::vector<std::string> unlike;
    std::vector<std::string> other_topics;
};

/// Whether both are stated, and not the same.
bool differ(const std::string& topic, const std::string& other) {
    return !topic.empty() && !other.empty() && topic != other;
}

Matched matched_parts(const std::vector<Part>& a, const std::vector<Part>& b) {
    std::map<std::string, std::size_t> left; // of the second
    for (std::size_t i = 0; i < b.size(); ++i)
        left.emplace(b[i].label, i);
    Matched matched;
    for (std::size_t i = 0; i < a.size(); ++i) {
        const auto found = left.find(a[i].label);
        if (found == left.end() || b[found->second].max != a[i].max)
            matched.unlike.push_back(a[i].label);
        else if (differ(a[i].topic, b[found->second].topic))
            matched.other_topics.push_back(a[i].label);
        else
            matched.parts.push_back({i, found->second});
        if (found != left.end())
            left.erase(found);
    }
    for (const Part& part : b)
        if (left.count(part.label) > 0)
            matched.unlike.push_back(part.label);
    return matched;
}

std::vector<std::size_t> positions(const Matched& matched, std::size_t Pair::*side) {
    std::vector<std::size_t> all;
    for (const Pair& pair : matched.parts)
        all.push_back(pair.*side);
    return all;
}

/// The shares of a part's marks that were earned, by those for whom it counted.
Sample shares(const Side& side, std::size_t part) {
    const double max = side.paper->part(part).max.count();
    std::vector<double> values;
    for (const SittingOfPaper& sitting : side.sittings)
        if (sitting.parts[part].counts())
            values.push_back(sitting.parts[part].unaided().count() / max);
    return sample_of(values);
}

struct Total {
    Marks max;
    Marks unaided;
};

Total total_of(const SittingOfPaper& sitting, const Paper& paper, const std::vector<std::size_t>& parts) {
    Total total;
    for (const std::size_t part : parts)
        if (sitting.parts[part].counts()) {
            total.max += paper.part(part).max;
            total.unaided += sitting.parts[part].unaided();
        }
    return total;
}

std::vector<Total> totals_of(const Side& side, const std::vector<std::size_t>& parts) {
    std::vector<Total> all;
    for (const SittingOfPaper& sitting : side.sittings)
        all.push_back(total_of(sitting, *side.paper, parts));
    return all;
}

Sample sample_of_totals(const std::vector<Total>& totals, Marks max) {
    std::vector<double> values;
    for (const Total& total : totals)
        if (total.max == max)
            values.push_back(total.unaided.count());
    return sample_of(values);
}

Marks most_marks(const std::vector<Total>& totals) {
    Marks most;
    for (const Total& total : totals)
        most = std::max(most, total.max);
    return most;
}

/// Of fewer candidates only the difference is known.
bool are_enough(const Sample& a, const Sample& b) {
    return std::min(a.size, b.size) >= PaperAnalysis::min_candidates_to_remark;
}

Difference unproven(const Sample& a, const Sample& b) {
    Difference found;
    found.difference = a.mean - b.mean;
    return found;
}

void compare_totals(const Side& a, const Side& b, const Matched& matched, Comparison& comparison) {
    const std::vector<Total> of_a = totals_of(a, positions(matched, &Pair::a));
    const std::vector<Total> of_b = totals_of(b, positions(matched, &Pair::b));
    comparison.max = std::max(most_marks(of_a), most_marks(of_b));
    comparison.a = sample_of_totals(of_a, comparison.max);
    comparison.b = sample_of_totals(of_b, comparison.max);
    comparison.without_total = of_a.size() - comparison.a.size + of_b.size() - comparison.b.size;
    comparison.total = are_enough(comparison.a, comparison.b) ? welch(comparison.a, comparison.b)
                                                              : unproven(comparison.a, comparison.b);
}

void allow_for_looks(std::vector<PartCompared>& parts) {
    std::vector<double> p;
    for (const PartCompared& part : parts)
        if (part.difference.interval)
            p.push_back(part.difference.p);
    const std::vector<double> adjusted = holm_adjusted(p);
    auto next = adjusted.begin();
    for (PartCompared& part : parts)
        if (part.difference.interval)
            part.adjusted_p = *next++;
}

/// Shares can't differ by more than all.
Difference of_shares(Difference difference) {
    if (difference.interval)
        difference.interval =
            Interval{std::max(difference.interval->low, -1.0), std::min(difference.interval->high, 1.0)};
    return difference;
}

/// Where all have the same share, others might still have another: it counts as if one had a mark more.
Sample with_some_spread(Sample sample, Marks max) {
    if (sample.variance == 0)
        sample.variance = square(1.0 / max.count()) / static_cast<double>(sample.size);
    return sample;
}

Difference part_difference(const Part& part, const Sample& a, const Sample& b) {
    if (!are_enough(a, b))
        return unproven(a, b);
    if (a.variance == 0 && b.variance == 0)
        return welch(a, b);
    return of_shares(welch(with_some_spread(a, part.max), with_some_spread(b, part.max)));
}

void add(Comparison& comparison, const Part& part, const Sample& a, const Sample& b) {
    if (a.size > 0 && b.size > 0)
        comparison.parts.push_back({part.label, part.topic, part.max, a, b, part_difference(part, a, b)});
}

void finish(Comparison& comparison, Matched matched) {
    comparison.unlike = std::move(matched.unlike);
    comparison.other_topics = std::move(matched.other_topics);
    allow_for_looks(comparison.parts);
    std::stable_sort(comparison.parts.begin(), comparison.parts.end(),
                     [](const PartCompared& x, const PartCompared& y) {
                         return std::fabs(x.difference.difference) > std::fabs(y.difference.difference);
                     });
}

/// What the closed class was set, with the topics that the paper has now.
std::vector<Part> parts_of(const ClosedClassFigures& closed, const Paper& paper) {
    std::vector<Part> parts;
    for (const PartFigures& figures : closed.parts) {
        const auto position = paper.find_part(figures.part);
        parts.push_back({figures.part, figures.max, position ? paper.part(*position).topic : "", ""});
    }
    return parts;
}

/// Shares whose mean is known alone, varying as much as they can: each candidate has all or nothing.
Sample widest_sample(const PartFigures& figures) {
    const auto n = static_cast<double>(figures.candidates);
    const double mean = figures.facility();
    return {figures.candidates, mean, mean * (1 - mean) * n / (n - 1)};
}

std::size_t on_both(const Side& a, const Side& b) {
    std::set<std::string> codes;
    for (const SittingOfPaper& sitting : a.sittings)
        codes.insert(sitting.candidate);
    return static_cast<std::size_t>(
        std::count_if(b.sittings.begin(), b.sittings.end(),
                      [&](const SittingOfPaper& sitting) { return codes.count(sitting.candidate) > 0; }));
}

} // namespace

std::string_view name(WhichSitting which) noexcept {
    return which == WhichSitting::first ? "first" : "latest";
}

std::vector<SittingOfPaper> sat_elsewhere(const std::vector<SittingOfPaper>& own,
                                          std::vector<SittingOfPaper> all) {
    std::set<std::pair<std::string, Day>> days;
    std::set<std::string> candidates;
    for (const SittingOfPaper& sitting : own) {
        days.emplace(sitting.candidate, sitting.day);
        candidates.insert(sitting.candidate);
    }
    all.erase(std::remove_if(all.begin(), all.end(),
                             [&](const SittingOfPaper& sitting) {
                                 return candidates.count(sitting.candidate) == 0 ||
                                        days.count({sitting.candidate, sitting.day}) > 0;
                             }),
              all.end());
    return all;
}

std::vector<SittingOfPaper> one_each(const Paper& paper, const std::vector<SittingOfPaper>& sittings,
                                     WhichSitting which) {
    std::vector<SittingOfPaper> chosen;
    for (const SittingOfPaper& sitting : sittings) {
        if (chosen.empty() || chosen.back().candidate != sitting.candidate)
            chosen.push_back(sitting);
        else if (comes_instead(paper, sitting, chosen.back(), which))
            chosen.back() = sitting;
    }
    return chosen;
}

PaperAnalysis analyse(const Side& side) {
    ClassMarks marks(*side.paper);
    for (const SittingOfPaper& sitting : side.sittings)
        marks.add(sitting.parts);
    return marks.analysis();
}

Sample sample_of(const std::vector<double>& values) {
    Sample sample;
    sample.size = values.size();
    if (values.empty())
        return sample;
    const auto n = static_cast<double>(values.size());
    sample.mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
    if (std::all_of(values.begin(), values.end(), [&](double value) { return value == values.front(); }))
        return sample; // the mean may have been rounded
    double squares = 0;
    for (const double value : values)
        squares += square(value - sample.mean);
    sample.variance = squares / (n - 1);
    return sample;
}

Difference welch(const Sample& a, const Sample& b, double confidence) {
    Difference found;
    found.difference = a.mean - b.mean;
    if (a.size < 2 || b.size < 2 || (a.variance == 0 && b.variance == 0))
        return found;
    const double of_a = a.variance / static_cast<double>(a.size);
    const double of_b = b.variance / static_cast<double>(b.size);
    const double error = std::sqrt(of_a + of_b);
    found.degrees_of_freedom = square(of_a + of_b) / (square(of_a) / static_cast<double>(a.size - 1) +
                                                      square(of_b) / static_cast<double>(b.size - 1));
    const double reach = student_t_quantile((1 + confidence) / 2, found.degrees_of_freedom) * error;
    found.interval = Interval{found.difference - reach, found.difference + reach};
    found.p = student_t_tails(found.difference / error, found.degrees_of_freedom);
    return found;
}

std::vector<double> holm_adjusted(const std::vector<double>& p) {
    std::vector<std::size_t> order(p.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return p[i] < p[j]; });
    std::vector<double> adjusted(p.size());
    double least = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        least = std::max(least, std::min(1.0, static_cast<double>(order.size() - i) * p[order[i]]));
        adjusted[order[i]] = least;
    }
    return adjusted;
}

std::size_t Comparison::parts_tested() const {
    return static_cast<std::size_t>(std::count_if(parts.begin(), parts.end(), [](const PartCompared& part) {
        return part.difference.interval.has_value();
    }));
}

Comparison compare(const Side& a, const Side& b) {
    for (const Side* side : {&a, &b})
        for (const SittingOfPaper& sitting : side->sittings)
            check_covers(*side->paper, sitting.parts);
    Matched matched = matched_parts(a.paper->parts(), b.paper->parts());
    Comparison comparison;
    comparison.on_both = on_both(a, b);
    compare_totals(a, b, matched, comparison);
    for (const Pair& pair : matched.parts)
        add(comparison, a.paper->part(pair.a), shares(a, pair.a), shares(b, pair.b));
    finish(comparison, std::move(matched));
    return comparison;
}

Comparison compare(const Side& a, const ClosedClassFigures& b, const Paper& paper) {
    for (const SittingOfPaper& sitting : a.sittings)
        check_covers(*a.paper, sitting.parts);
    Matched matched = matched_parts(a.paper->parts(), parts_of(b, paper));
    Comparison comparison;
    comparison.closed = true;
    for (const Pair& pair : matched.parts)
        add(comparison, a.paper->part(pair.a), shares(a, pair.a), widest_sample(b.parts[pair.b]));
    finish(comparison, std::move(matched));
    return comparison;
}

} // namespace inkturn
