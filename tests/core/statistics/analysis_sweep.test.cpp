#include "inkturn/statistics/analysis.hpp"

#include "catch.hpp"
#include "core/statistics/analyses.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <random>
#include <regex>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

using Real = long double;

PartMarks random_marks(std::mt19937& dice, int max) {
    if (pick(dice, 0, 5) == 0)
        return {};
    MarksByPhase earned;
    if (pick(dice, 0, 3) > 0)
        earned.in_time = Marks(pick(dice, 0, max));
    if (pick(dice, 0, 3) == 0)
        earned.overtime = Marks(pick(dice, 0, max - earned.in_time.count()));
    if (pick(dice, 0, 3) == 0)
        earned.corrected = Marks(pick(dice, 0, max - (earned.in_time + earned.overtime).count()));
    return PartMarks(earned, Marks(max));
}

struct RandomClass {
    Paper paper;
    Class sittings;
};

RandomClass random_class(std::mt19937& dice) {
    std::vector<Part> parts;
    const int most = pick(dice, 0, 1) == 0 ? 2 : 20; // small ones tie often
    const int a_question = pick(dice, 1, 3);         // parts at most
    const int questions = pick(dice, 1, 6);
    for (int question = 1; question <= questions; ++question)
        for (int part = 0, last = pick(dice, 1, a_question); part < last; ++part)
            parts.push_back(
                {text(question) + static_cast<char>('a' + part), Marks(pick(dice, 1, most)), "", ""});
    RandomClass made{Paper({"made-up", "", "", {}, RetryBy::question}, parts), {}};
    for (int candidates = pick(dice, 2, 60); candidates > 0; --candidates) {
        std::vector<PartMarks> marks;
        for (const Part& part : parts)
            marks.push_back(random_marks(dice, part.max.count()));
        made.sittings.push_back(marks);
    }
    return made;
}

// The same figures once more, from their definitions: two passes over columns of marks, in long double.

using Column = std::vector<Real>;

Column column_of(const Class& sittings, std::size_t part) {
    Column column;
    for (const auto& sitting : sittings)
        column.push_back(sitting[part].unaided().count());
    return column;
}

Column totals_of(const Class& sittings) {
    Column column;
    for (const auto& sitting : sittings) {
        Real sum = 0;
        for (const PartMarks& marks : sitting)
            sum += marks.unaided().count();
        column.push_back(sum);
    }
    return column;
}

Column less(const Column& a, const Column& b) {
    Column column;
    for (std::size_t i = 0; i < a.size(); ++i)
        column.push_back(a[i] - b[i]);
    return column;
}

Real mean_of(const Column& column) {
    Real sum = 0;
    for (const Real value : column)
        sum += value;
    return sum / static_cast<Real>(column.size());
}

Real covariance(const Column& a, const Column& b) {
    const Real mean_a = mean_of(a);
    const Real mean_b = mean_of(b);
    Real sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += (a[i] - mean_a) * (b[i] - mean_b);
    return sum / static_cast<Real>(a.size() - 1);
}

bool is_flat(const Column& column) {
    return std::all_of(column.begin(), column.end(), [&](Real value) { return value == column[0]; });
}

std::optional<Real> correlation(const Column& a, const Column& b) {
    if (a.size() < PaperAnalysis::min_candidates_to_correlate || is_flat(a) || is_flat(b))
        return std::nullopt;
    return covariance(a, b) / std::sqrt(covariance(a, a) * covariance(b, b));
}

/// Over questions, of the parts but `without`, or of all.
std::optional<Real> alpha_of(const RandomClass& made, std::optional<std::size_t> without) {
    std::map<char, Column> questions; // their number is one digit
    Column total(made.sittings.size(), 0);
    for (std::size_t part = 0; part < made.paper.parts().size(); ++part) {
        if (part == without)
            continue;
        const Column column = column_of(made.sittings, part);
        Column& question =
            questions.try_emplace(made.paper.parts()[part].label.front(), column.size()).first->second;
        for (std::size_t i = 0; i < column.size(); ++i) {
            total[i] += column[i];
            question[i] += column[i];
        }
    }
    if (total.size() < PaperAnalysis::min_candidates_to_correlate || questions.size() < 2 || is_flat(total))
        return std::nullopt;
    Real variances = 0;
    for (const auto& [number, question] : questions)
        variances += covariance(question, question);
    const auto k = static_cast<Real>(questions.size());
    return k / (k - 1) * (1 - variances / covariance(total, total));
}

/// The mean of the `size` candidates with the greatest values of `by`, where every order of those who tie is
/// as likely: each weighs with the share of the places of those who tie that lie among the first `size`.
Real mean_of_first(const Column& marks, const Column& by, std::size_t size) {
    Real sum = 0;
    for (std::size_t i = 0; i < by.size(); ++i) {
        const auto greater = std::count_if(by.begin(), by.end(), [&](Real other) { return other > by[i]; });
        const auto same = std::count(by.begin(), by.end(), by[i]);
        Real places = 0;
        for (auto place = greater; place < greater + same; ++place)
            places += static_cast<std::size_t>(place) < size ? 1 : 0;
        sum += marks[i] * places / static_cast<Real>(same);
    }
    return sum / static_cast<Real>(size);
}

std::optional<Real> discrimination_of(const Class& sittings, std::size_t part, int max) {
    const Column total = totals_of(sittings);
    if (total.size() < PaperAnalysis::min_candidates_to_correlate || is_flat(total))
        return std::nullopt;
    const auto size = static_cast<std::size_t>(
        std::max(1.0, std::floor(0.27 * static_cast<double>(sittings.size()) + 0.5 + 1e-9)));
    const Column marks = column_of(sittings, part);
    const Column from_below = less(Column(total.size(), 0), total);
    return (mean_of_first(marks, total, size) - mean_of_first(marks, from_below, size)) / max;
}

Real quantile(Column column, Real p) {
    std::sort(column.begin(), column.end());
    const Real place = static_cast<Real>(column.size() - 1) * p;
    const auto below = static_cast<std::size_t>(std::floor(place));
    const std::size_t above = std::min(below + 1, column.size() - 1);
    return column[below] + (place - std::floor(place)) * (column[above] - column[below]);
}

/// A letter a part, `i` with marks or effort in time alone, `b` in both own inks, `o` in overtime alone, `-`
/// not attempted.
std::string letters_of(const std::vector<PartMarks>& sitting) {
    std::string letters;
    for (const PartMarks& marks : sitting) {
        const bool late = marks.overtime() > Marks(0);
        letters += !marks.attempted() ? '-' : !late ? 'i' : marks.in_time() > Marks(0) ? 'b' : 'o';
    }
    return letters;
}

/// The rule as a pattern.
std::optional<std::size_t> ran_out_of(const std::vector<PartMarks>& sitting) {
    static const std::regex unfinished("(b?[o-]+|b)$");
    const std::string letters = letters_of(sitting);
    std::smatch match;
    if (std::regex_search(letters, match, unfinished))
        return static_cast<std::size_t>(match.position(0));
    return std::nullopt;
}

bool went_back(const std::vector<PartMarks>& sitting) {
    return std::regex_match(letters_of(sitting), std::regex(".*[bo].*i"));
}

bool agrees(const Figure& figure, std::optional<Real> expected) {
    if (!figure.has_value() || !expected)
        return figure.has_value() == expected.has_value();
    return std::fabs(figure.value() - *expected) <= 1e-9L * std::max<Real>(1, std::fabs(*expected));
}

bool agrees(const PartAnalysis& part, const RandomClass& made, std::size_t i) {
    const Column marks = column_of(made.sittings, i);
    const Column rest = less(totals_of(made.sittings), marks);
    const int max = made.paper.parts()[i].max.count();
    Real overtime = 0;
    Real absent = 0;
    std::size_t ran_out = 0;
    for (const auto& sitting : made.sittings) {
        overtime += sitting[i].overtime().count();
        absent += sitting[i].attempted() ? 0 : 1;
        if (ran_out_of(sitting) == i)
            ++ran_out;
    }
    const auto n = static_cast<Real>(made.sittings.size());
    const Real earned = mean_of(marks) * n;
    return part.max == Marks(max) && agrees(part.mean, mean_of(marks)) &&
           agrees(part.facility, mean_of(marks) / max) &&
           agrees(part.rest_correlation, correlation(marks, rest)) &&
           agrees(part.alpha_without, alpha_of(made, i)) &&
           agrees(part.discrimination, discrimination_of(made.sittings, i, max)) &&
           agrees(part.not_attempted, absent / n) &&
           agrees(part.overtime, earned > 0 ? std::optional<Real>(overtime / earned) : std::nullopt) &&
           part.ran_out == ran_out;
}

bool agrees(const PaperAnalysis& analysis, const RandomClass& made) {
    const Column total = totals_of(made.sittings);
    const Real variance = covariance(total, total);
    const auto alpha = alpha_of(made, {});
    const bool has_error = alpha && *alpha >= -1e-15L;
    const auto ran_out = std::count_if(made.sittings.begin(), made.sittings.end(),
                                       [](const auto& sitting) { return ran_out_of(sitting).has_value(); });
    return analysis.candidates == made.sittings.size() && analysis.max == made.paper.marks() &&
           agrees(analysis.mean, mean_of(total)) && agrees(analysis.variance, variance) &&
           agrees(analysis.deviation, std::sqrt(variance)) &&
           agrees(analysis.lower_quartile, quantile(total, .25L)) &&
           agrees(analysis.median, quantile(total, .5L)) &&
           agrees(analysis.upper_quartile, quantile(total, .75L)) && agrees(analysis.alpha, alpha) &&
           agrees(analysis.standard_error,
                  has_error ? std::optional<Real>(std::sqrt(variance * (1 - *alpha))) : std::nullopt) &&
           analysis.ran_out == static_cast<std::size_t>(ran_out) &&
           analysis.went_back ==
               static_cast<std::size_t>(std::count_if(made.sittings.begin(), made.sittings.end(), went_back));
}

} // namespace

TEST_CASE("the figures of any class are those that two passes over its marks give by their definitions") {
    std::mt19937 dice(19);
    for (int round = 0; round < 500; ++round) {
        const RandomClass made = random_class(dice);
        const PaperAnalysis analysis = analyse(made.paper, made.sittings);
        CAPTURE(round);
        if (!agrees(analysis, made))
            FAIL("the paper's figures");
        for (std::size_t i = 0; i < analysis.parts.size(); ++i)
            if (!agrees(analysis.parts[i], made, i))
                FAIL("the figures of part " << i + 1);
    }
    SUCCEED();
}

TEST_CASE("the order of candidates makes no difference to any figure") {
    std::mt19937 dice(23);
    for (int round = 0; round < 200; ++round) {
        RandomClass made = random_class(dice);
        const std::vector<Figure> before = figures(analyse(made.paper, made.sittings));
        for (std::size_t i = made.sittings.size() - 1; i > 0; --i)
            std::swap(made.sittings[i],
                      made.sittings[static_cast<std::size_t>(pick(dice, 0, static_cast<int>(i)))]);
        if (figures(analyse(made.paper, made.sittings)) != before)
            FAIL("round " << round);
    }
    SUCCEED();
}

TEST_CASE("a class whose marks all lie higher by the same amount varies to the last digit as it did") {
    std::mt19937 dice(29);
    const Paper paper = paper_of({500, 500, 500});
    for (int round = 0; round < 50; ++round) {
        Class low;
        for (int candidates = pick(dice, 2, 40); candidates > 0; --candidates)
            low.push_back({full_marks(Marks(pick(dice, 0, 3))), full_marks(Marks(pick(dice, 0, 7))),
                           full_marks(Marks(pick(dice, 0, 20)))});
        Class high = low;
        for (auto& sitting : high)
            for (PartMarks& marks : sitting)
                marks = full_marks(marks.in_time() + Marks(480));
        if (variation(analyse(paper, high)) != variation(analyse(paper, low)))
            FAIL("round " << round);
    }
    SUCCEED();
}

TEST_CASE("of a million candidates with the most marks that parts can have not a digit is lost") {
    constexpr int candidates = 1'000'000;
    const Paper paper = paper_of(std::vector<int>(3, max_part_marks.count()));
    ClassMarks marks(paper);
    ClassMarks low(paper);
    const std::vector<std::vector<PartMarks>> high_lines = class_of(paper, {"500 500 500", "499 499 500"});
    const std::vector<std::vector<PartMarks>> low_lines = class_of(paper, {"1 1 1", "0 0 1"});
    for (int i = 0; i < candidates; ++i) {
        marks.add(high_lines[i % 4 == 0 ? 0 : 1]);
        low.add(low_lines[i % 4 == 0 ? 0 : 1]);
    }
    const PaperAnalysis analysis = marks.analysis();
    CHECK(variation(analysis) == variation(low.analysis()));

    // Totals of 1500 and 1498, a quarter and three: variance 4 · 3/16 · n/(n - 1).
    CHECK(analysis.variance.value() == 750000.0 / 999999);
    CHECK(analysis.mean.value() == 1498.5);
    CHECK(analysis.parts[0].rest_correlation.value() == 1);
    CHECK_THAT(analysis.parts[0].discrimination.value(), WithinAbs(1.0 / 540, 1e-17)); // 25/27 of 1/500
    CHECK(analysis.alpha.value() == 0.75);
}

TEST_CASE("a class in which half have a total of 250,000 and half nothing varies by what it should") {
    constexpr int candidates = 25000; // n² times the variance is above what 64 bits hold
    const std::vector<int> maxima(Paper::max_parts, max_part_marks.count());
    const std::vector<PartMarks> full(Paper::max_parts, full_marks(max_part_marks));
    const std::vector<PartMarks> nothing(Paper::max_parts, full_marks(Marks(0)));
    ClassMarks marks(paper_of(maxima));
    for (int i = 0; i < candidates; ++i)
        marks.add(i % 2 == 0 ? full : nothing);
    const PaperAnalysis analysis = marks.analysis();
    CHECK_THAT(analysis.variance.value(),
               WithinRel(125000.0 * 125000 * candidates / (candidates - 1), 1e-15));
    CHECK(analysis.alpha.value() == 1);
    CHECK(analysis.standard_error.value() == 0);
    CHECK(analysis.parts[499].rest_correlation.value() == 1);
    CHECK(analysis.parts[0].discrimination.value() == 1);
}

TEST_CASE("a part in proportion to the rest correlates with it at 1, and never above") {
    std::mt19937 dice(31);
    for (int round = 0; round < 500; ++round) {
        const int factor = pick(dice, 1, 20);
        const auto lines = lines_of(12, [&](int i) {
            const int marks = i == 0 ? 0 : pick(dice, 1, 20);
            return text(marks) + " " + text(factor * marks);
        });
        const double r = analysed({20, 400}, lines).parts[0].rest_correlation.value();
        if (r > 1 || r < 1 - 1e-15)
            FAIL("round " << round);
    }
    SUCCEED();
}
