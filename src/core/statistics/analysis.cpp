#include "inkturn/statistics/analysis.hpp"

#include "core/statistics/remarks.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string_view>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

// Marks are whole numbers, so every variance, covariance and difference of groups is formed as a whole number
// and turned into a double by one division at the end: no cancellation, the same to the last digit wherever
// the marks lie. 64 bits hold the sums, but not n times a sum of squares (6e22 for a million candidates with
// totals of 250,000): hence the compiler's 128-bit integer, an extension of GCC and clang.
__extension__ typedef __int128 Exact;

/// The upper and the lower 27%: T. L. Kelley 1939, from memory.
constexpr std::int64_t group_percent = 27;

using SameTotal = ClassMarks::SameTotal;
using SameSet = ClassMarks::SameSet;
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

/// The positions of the parts that count.
std::vector<std::size_t> counted_positions(const std::vector<PartMarks>& parts) {
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (parts[i].counts())
            positions.push_back(i);
    return positions;
}

/// The part at which time ran out, of those that count. The parts at the paper's end that were not tried in
/// time were not reached: it ran out at the first of them, or at the part before where that was begun in time
/// and finished in overtime. Nothing where the last part was finished in time.
std::optional<std::size_t> ran_out_at(const std::vector<PartMarks>& parts) {
    const std::vector<std::size_t> order = counted_positions(parts);
    const auto tried = std::find_if(order.rbegin(), order.rend(),
                                    [&](std::size_t part) { return parts[part].tried_in_time(); });
    const auto unreached = static_cast<std::size_t>(order.rend() - tried);
    if (unreached < order.size())
        return order[unreached > 0 && has_overtime(parts[order[unreached - 1]]) ? unreached - 1 : unreached];
    if (!order.empty() && has_overtime(parts[order.back()]))
        return order.back();
    return std::nullopt;
}

/// Whether any part that counts was finished in overtime.
bool finished_late(const std::vector<PartMarks>& parts) {
    return std::any_of(parts.begin(), parts.end(),
                       [](const PartMarks& marks) { return marks.counts() && has_overtime(marks); });
}

/// A part's marks and the totals, over those for whom it counted.
struct Moments {
    std::int64_t candidates = 0; ///< n
    Exact part = 0;              ///< n² · variance of the part
    Exact with_total = 0;        ///< n² · covariance of part and total
    Exact total = 0;             ///< n² · variance of the totals
};

/// The totals, over the class.
struct TotalMoments {
    std::int64_t candidates = 0;
    Exact sum = 0;
    Exact total = 0;     ///< n² · variance of the totals
    Exact questions = 0; ///< n² · sum of the questions' variances
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

/// Sums over those for whom a part counted.
struct SumsWithTotal {
    std::int64_t candidates = 0;
    Exact part = 0;
    Exact totals = 0;
    Exact part_squares = 0;
    Exact products = 0; ///< of part and total
    Exact total_squares = 0;
    void add(int marks, int total, std::int64_t times) {
        candidates += times;
        part += Exact(marks) * times;
        totals += Exact(total) * times;
        part_squares += Exact(marks) * marks * times;
        products += Exact(marks) * total * times;
        total_squares += Exact(total) * total * times;
    }
    Moments moments() const {
        return {candidates, scatter(candidates, part_squares, part, part),
                scatter(candidates, products, part, totals),
                scatter(candidates, total_squares, totals, totals)};
    }
    bool is_against_rest() const { return moments().with_total < moments().part; }
};

SumsWithTotal sums_with_total(const SameSet& set, std::size_t part) {
    SumsWithTotal sums;
    for (const auto& [total, same] : set.by_total)
        for (const auto& [marks, candidates] : same.by_mark[part])
            sums.add(marks, total, candidates);
    return sums;
}

/// Whether those with more of a part have less of the rest, whichever one of them is left out.
bool is_against_rest(const SameSet& set, std::size_t part, const SumsWithTotal& all) {
    for (const auto& [total, same] : set.by_total)
        for (const auto& [marks, candidates] : same.by_mark[part]) {
            SumsWithTotal others = all;
            others.add(marks, total, -1);
            if (!others.is_against_rest())
                return false;
        }
    return all.is_against_rest();
}

bool are_few(std::int64_t candidates) {
    return static_cast<std::size_t>(candidates) < PaperAnalysis::min_candidates_to_correlate;
}

/// Cronbach's alpha of k questions, 2 or more, from n² times the variance of their sum, above 0, and n² times
/// the sum of their variances.
Figure alpha(std::size_t k, Exact total, Exact questions) {
    return Figure(ratio(static_cast<Exact>(k) * (total - questions), static_cast<Exact>(k - 1) * total));
}

/// A question as the paper's alpha takes it.
struct QuestionMoments {
    std::vector<std::size_t> parts; ///< that were set
    Exact question = 0;             ///< n² · variance
};

/// What a paper's figures rest on.
struct Compared {
    const SameSet& set;
    std::size_t parts; ///< that were set
    bool has_choice;   ///< between some of them
    TotalMoments totals;
    std::vector<QuestionMoments> questions; ///< that were set
};

/// The sum over the class of what the parts earned.
Exact sum_of(const SameSet& set, const std::vector<std::size_t>& parts) {
    Exact sum = 0;
    for (const auto& [total, same] : set.by_total)
        for (const std::size_t part : parts)
            sum += same.sums[part];
    return sum;
}

Figure alpha_of_paper(const Compared& compared) {
    const TotalMoments& all = compared.totals;
    if (all.candidates == 0)
        return Figure(NoFigure::no_candidate);
    if (compared.has_choice)
        return Figure(NoFigure::choice);
    if (compared.questions.size() == 1)
        return Figure(NoFigure::one_question);
    if (are_few(all.candidates))
        return Figure(NoFigure::few_candidates);
    if (all.total == 0)
        return Figure(NoFigure::no_spread_in_total);
    return alpha(compared.questions.size(), all.total, all.questions);
}

Exact rest_scatter(const Moments& part) {
    return part.total - 2 * part.with_total + part.part;
}

/// n² times the sum of the variances of what is left of the questions without one part.
Exact questions_without(const Compared& compared, const QuestionMoments& of_part, std::size_t part) {
    std::vector<std::size_t> others = of_part.parts;
    others.erase(std::find(others.begin(), others.end(), part));
    const Exact sum = sum_of(compared.set, others);
    return compared.totals.questions - of_part.question +
           scatter(compared.totals.candidates, compared.set.other_squares[part], sum, sum);
}

Figure alpha_without(const Moments& moments, std::size_t part, const Compared& compared) {
    if (moments.candidates == 0)
        return Figure(NoFigure::no_candidate);
    if (compared.has_choice)
        return Figure(NoFigure::choice);
    const auto question =
        std::find_if(compared.questions.begin(), compared.questions.end(), [&](const QuestionMoments& one) {
            return std::find(one.parts.begin(), one.parts.end(), part) != one.parts.end();
        });
    const std::size_t left = compared.questions.size() - (question->parts.size() == 1 ? 1 : 0);
    if (left < 2)
        return Figure(compared.questions.size() == 1 ? NoFigure::one_question : NoFigure::two_questions);
    if (are_few(moments.candidates))
        return Figure(NoFigure::few_candidates);
    const Exact rest = rest_scatter(moments);
    if (rest == 0)
        return Figure(NoFigure::no_spread_in_rest);
    return alpha(left, rest, questions_without(compared, *question, part));
}

Figure rest_correlation(const Moments& part, std::size_t parts) {
    if (part.candidates == 0)
        return Figure(NoFigure::no_candidate);
    if (parts == 1)
        return Figure(NoFigure::one_part);
    if (are_few(part.candidates))
        return Figure(NoFigure::few_candidates);
    if (part.part == 0)
        return Figure(NoFigure::no_spread_in_part);
    const Exact rest = rest_scatter(part);
    if (rest == 0)
        return Figure(NoFigure::no_spread_in_rest);
    const double product = static_cast<double>(part.part) * static_cast<double>(rest);
    const double r = static_cast<double>(part.with_total - part.part) / std::sqrt(product);
    return Figure(std::clamp(r, -1.0, 1.0)); // the roundings of sums above 2^53 may add up
}

/// One end, by total, of those for whom a part counted. Those who tie at its edge share the places left: each
/// weighs left ÷ tied.
struct Group {
    std::int64_t within = 0; ///< sum of the part's marks of those wholly in it
    std::int64_t left = 0;   ///< places for those at the edge, 1 to tied
    std::int64_t tied = 0;
    std::int64_t at_edge = 0; ///< sum of the part's marks of those at the edge

    /// The sum of the group's marks, times those tied.
    Exact sum_times_tied() const { return Exact(within) * tied + Exact(left) * at_edge; }
};

/// The group of `size` candidates, at most as many as there are, met first on the way from `total`.
template <typename Iterator>
Group group_from(Iterator total, std::size_t part, std::int64_t size) {
    Group group;
    group.left = size;
    for (; total->second.counted[part] < group.left; ++total) {
        group.left -= total->second.counted[part];
        group.within += total->second.sums[part];
    }
    group.tied = total->second.counted[part];
    group.at_edge = total->second.sums[part];
    return group;
}

/// Rounded to the nearest, a half up: one of two candidates, and never more than half of them.
std::int64_t size_of_group(std::int64_t candidates) {
    return (group_percent * candidates + 50) / 100;
}

Figure discrimination(const SameSet& set, std::size_t part, const Moments& moments, Marks max) {
    if (moments.candidates == 0)
        return Figure(NoFigure::no_candidate);
    if (are_few(moments.candidates))
        return Figure(NoFigure::few_candidates);
    if (moments.total == 0)
        return Figure(NoFigure::no_spread_in_total);
    const std::int64_t size = size_of_group(moments.candidates);
    const Group upper = group_from(set.by_total.rbegin(), part, size);
    const Group lower = group_from(set.by_total.begin(), part, size);
    const Exact tied = Exact(upper.tied) * lower.tied;
    const Exact difference = upper.sum_times_tied() * lower.tied - lower.sum_times_tied() * upper.tied;
    return Figure(ratio(difference, tied * size * max.count()));
}

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
    if (all.candidates < 2)
        return Figure(all.candidates == 0 ? NoFigure::no_candidate : NoFigure::one_candidate);
    return Figure(ratio(all.total, Exact(all.candidates) * (all.candidates - 1)));
}

Figure root(const Figure& figure) {
    return figure.has_value() ? Figure(std::sqrt(figure.value())) : figure;
}

Figure standard_error(const Figure& deviation, const Figure& alpha) {
    if (!alpha.has_value())
        return alpha;
    if (alpha.value() < 0)
        return Figure(NoFigure::alpha_below_zero);
    return Figure(deviation.value() * std::sqrt(1 - alpha.value()));
}

Figure share(Exact part, Exact whole, NoFigure otherwise) {
    return whole == 0 ? Figure(otherwise) : Figure(ratio(part, whole));
}

PartAnalysis part_analysis(const Compared& compared, std::size_t part, const ClassMarks::PartSums& sums,
                           Marks max) {
    const SumsWithTotal with_total = sums_with_total(compared.set, part);
    const Moments moments = with_total.moments();
    const std::int64_t n = sums.counted;
    PartAnalysis analysis{max,
                          static_cast<std::size_t>(n),
                          static_cast<std::size_t>(moments.candidates),
                          share(sums.sum, n, NoFigure::no_candidate),
                          share(sums.sum, Exact(n) * max.count(), NoFigure::no_candidate),
                          rest_correlation(moments, compared.parts),
                          alpha_without(moments, part, compared),
                          discrimination(compared.set, part, moments, max),
                          share(n - sums.attempted, n, NoFigure::no_candidate),
                          n == 0 ? Figure(NoFigure::no_candidate)
                                 : share(sums.overtime, sums.sum, NoFigure::nothing_earned),
                          sums.ran_out,
                          {},
                          is_against_rest(compared.set, part, with_total)};
    analysis.remarks = remarks(analysis);
    return analysis;
}

PaperAnalysis paper_analysis(const Compared& compared, std::size_t others) {
    const TotalMoments& all = compared.totals;
    const ByTotal& by_total = compared.set.by_total;
    const Figure deviation = root(variance(all));
    const Figure reliability = alpha_of_paper(compared);
    return {static_cast<std::size_t>(all.candidates),
            others,
            compared.set.max,
            share(all.sum, all.candidates, NoFigure::no_candidate),
            variance(all),
            deviation,
            quartile(by_total, all.candidates, 1),
            quartile(by_total, all.candidates, 2),
            quartile(by_total, all.candidates, 3),
            reliability,
            standard_error(deviation, reliability),
            0,
            0,
            {}};
}

/// Whether more of a choice's questions were set than count.
bool chose(const Paper& paper, const std::vector<bool>& is_set) {
    return std::any_of(paper.choices().begin(), paper.choices().end(), [&](const ChoiceOfQuestions& choice) {
        return std::count_if(choice.questions.begin(), choice.questions.end(), [&](const Question& question) {
                   return is_set[question.parts.front()];
               }) > choice.choice.count;
    });
}

std::vector<std::vector<std::size_t>> by_question(const Paper& paper) {
    std::map<std::string_view, std::vector<std::size_t>> questions;
    for (std::size_t i = 0; i < paper.parts().size(); ++i)
        questions[question_of(paper.parts()[i].label)].push_back(i);
    std::vector<std::vector<std::size_t>> parts;
    for (auto& [label, of_question] : questions)
        parts.push_back(std::move(of_question));
    return parts;
}

/// Those of which a part was set.
std::vector<QuestionMoments> question_moments(const SameSet& set, const std::vector<bool>& is_set,
                                              const std::vector<std::vector<std::size_t>>& questions) {
    std::vector<QuestionMoments> all;
    for (std::size_t i = 0; i < questions.size(); ++i) {
        QuestionMoments moments;
        std::copy_if(questions[i].begin(), questions[i].end(), std::back_inserter(moments.parts),
                     [&](std::size_t part) { return is_set[part]; });
        const Exact sum = sum_of(set, moments.parts);
        moments.question = scatter(set.candidates, set.question_squares[i], sum, sum);
        if (!moments.parts.empty())
            all.push_back(std::move(moments));
    }
    return all;
}

} // namespace

ClassMarks::ClassMarks(Paper paper)
    : paper_(std::move(paper)), questions_(by_question(paper_)), parts_(paper_.parts().size()) {}

void ClassMarks::add_questions(const std::vector<PartMarks>& parts, SameSet& set) const {
    set.question_squares.resize(questions_.size());
    set.other_squares.resize(parts.size());
    for (std::size_t i = 0; i < questions_.size(); ++i) {
        std::int64_t sum = 0;
        for (const std::size_t part : questions_[i])
            sum += parts[part].counts() ? parts[part].unaided().count() : 0;
        set.question_squares[i] += sum * sum;
        for (const std::size_t part : questions_[i]) {
            const std::int64_t others = sum - (parts[part].counts() ? parts[part].unaided().count() : 0);
            set.other_squares[part] += others * others;
        }
    }
}

void ClassMarks::add(const std::vector<PartMarks>& parts) {
    const Totals sum = totals(paper_, parts);
    std::vector<bool> is_set;
    for (const PartMarks& marks : parts)
        is_set.push_back(marks.is_set());
    SameSet& set = by_set_[std::move(is_set)];
    set.max = sum.max;
    ++set.candidates;
    add_questions(parts, set);
    SameTotal& same = set.by_total[sum.unaided().count()];
    ++same.candidates;
    same.counted.resize(parts.size());
    same.sums.resize(parts.size());
    same.by_mark.resize(parts.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!parts[i].counts())
            continue;
        const std::int64_t unaided = parts[i].unaided().count();
        ++same.counted[i];
        same.sums[i] += unaided;
        ++same.by_mark[i][parts[i].unaided().count()];
        ++parts_[i].counted;
        parts_[i].sum += unaided;
        parts_[i].overtime += parts[i].overtime().count();
        parts_[i].attempted += parts[i].attempted();
    }
    if (const auto part = ran_out_at(parts))
        ++parts_[*part].ran_out;
    else if (finished_late(parts))
        ++went_back_;
}

PaperAnalysis ClassMarks::analysis() const {
    const std::vector<std::int64_t> nothing(parts_.size());
    SameSet nobody{paper_.marks(), 0, {}, nothing, nothing};
    std::vector<bool> is_set(parts_.size(), true);
    const SameSet* most = &nobody;
    std::int64_t everyone = 0;
    for (const auto& [of_set, set] : by_set_) {
        everyone += set.candidates;
        if (std::tie(set.candidates, set.max) > std::tie(most->candidates, most->max)) {
            most = &set;
            is_set = of_set;
        }
    }

    const auto parts = static_cast<std::size_t>(std::count(is_set.begin(), is_set.end(), true));
    Compared compared{*most, parts, chose(paper_, is_set), total_moments(most->by_total),
                      question_moments(*most, is_set, questions_)};
    for (const QuestionMoments& question : compared.questions)
        compared.totals.questions += question.question;
    PaperAnalysis analysis = paper_analysis(compared, static_cast<std::size_t>(everyone - most->candidates));
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        analysis.parts.push_back(part_analysis(compared, i, parts_[i], paper_.parts()[i].max));
        analysis.ran_out += parts_[i].ran_out;
    }
    analysis.went_back = went_back_;
    return analysis;
}

PaperAnalysis analyse(const Paper& paper, const std::vector<std::vector<PartMarks>>& sittings) {
    ClassMarks marks(paper);
    for (const std::vector<PartMarks>& sitting : sittings)
        marks.add(sitting);
    return marks.analysis();
}

} // namespace inkturn
