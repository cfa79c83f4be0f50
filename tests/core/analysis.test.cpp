#include "inkturn/analysis.hpp"

#include "inkturn/sitting.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <random>
#include <regex>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

using Class = std::vector<std::vector<PartMarks>>;
using Real = long double;

int pick(std::mt19937& dice, int least, int most) {
    return least + static_cast<int>(dice() % static_cast<unsigned>(most - least + 1));
}

Paper paper_of(const std::vector<int>& maxima) {
    std::vector<Part> parts;
    for (const int max : maxima)
        parts.push_back({std::to_string(parts.size() + 1), Marks(max), "", ""});
    return Paper({"made-up", "", "", {}, RetryBy::question}, parts);
}

Class class_of(const Paper& paper, const std::vector<std::string>& lines) {
    Class sittings;
    for (const std::string& line : lines)
        sittings.push_back(parse_line(paper, line));
    return sittings;
}

PaperAnalysis analysed(const std::vector<int>& maxima, const std::vector<std::string>& lines) {
    const Paper paper = paper_of(maxima);
    return analyse(paper, class_of(paper, lines));
}

PartMarks random_marks(std::mt19937& dice, int max) {
    PartMarks marks;
    marks.attempted = pick(dice, 0, 5) > 0;
    if (!marks.attempted)
        return marks;
    if (pick(dice, 0, 3) > 0)
        marks.in_time = Marks(pick(dice, 0, max));
    if (pick(dice, 0, 3) == 0)
        marks.overtime = Marks(pick(dice, 0, max - marks.in_time.count()));
    if (pick(dice, 0, 3) == 0)
        marks.corrected = Marks(pick(dice, 0, max - marks.own().count()));
    return marks;
}

struct RandomClass {
    Paper paper;
    Class sittings;
};

RandomClass random_class(std::mt19937& dice) {
    std::vector<int> maxima;
    const int most = pick(dice, 0, 1) == 0 ? 2 : 20; // small ones tie often
    for (int parts = pick(dice, 1, 12); parts > 0; --parts)
        maxima.push_back(pick(dice, 1, most));
    RandomClass made{paper_of(maxima), {}};
    for (int candidates = pick(dice, 2, 60); candidates > 0; --candidates) {
        std::vector<PartMarks> marks;
        for (const int max : maxima)
            marks.push_back(random_marks(dice, max));
        made.sittings.push_back(marks);
    }
    return made;
}

// The same figures once more, from their definitions: two passes over columns of marks, in long double.

using Column = std::vector<Real>;

Column column_of(const Class& sittings, std::size_t part) {
    Column column;
    for (const auto& sitting : sittings)
        column.push_back(sitting[part].own().count());
    return column;
}

Column totals_of(const Class& sittings) {
    Column column;
    for (const auto& sitting : sittings) {
        Real sum = 0;
        for (const PartMarks& marks : sitting)
            sum += marks.own().count();
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
    if (is_flat(a) || is_flat(b))
        return std::nullopt;
    return covariance(a, b) / std::sqrt(covariance(a, a) * covariance(b, b));
}

/// Of the parts but `without`, or of all.
std::optional<Real> alpha_of(const Class& sittings, std::optional<std::size_t> without) {
    Column total(sittings.size(), 0);
    Real variances = 0;
    Real k = 0;
    for (std::size_t part = 0; part < sittings[0].size(); ++part) {
        if (part == without)
            continue;
        const Column column = column_of(sittings, part);
        for (std::size_t i = 0; i < column.size(); ++i)
            total[i] += column[i];
        variances += covariance(column, column);
        ++k;
    }
    if (k < 2 || is_flat(total))
        return std::nullopt;
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
    if (is_flat(total))
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
/// not attempted, and the rule as a pattern.
std::optional<std::size_t> ran_out_of(const std::vector<PartMarks>& sitting) {
    std::string letters;
    for (const PartMarks& marks : sitting) {
        const bool late = marks.overtime > Marks(0);
        letters += !marks.attempted ? '-' : !late ? 'i' : marks.in_time > Marks(0) ? 'b' : 'o';
    }
    static const std::regex unreached("b?[o-]+$");
    std::smatch match;
    if (std::regex_search(letters, match, unreached))
        return static_cast<std::size_t>(match.position(0));
    const std::size_t first = letters.find_first_of("bo");
    return first == std::string::npos ? std::nullopt : std::optional(first);
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
        overtime += sitting[i].overtime.count();
        absent += sitting[i].attempted ? 0 : 1;
        if (ran_out_of(sitting) == i)
            ++ran_out;
    }
    const auto n = static_cast<Real>(made.sittings.size());
    const Real earned = mean_of(marks) * n;
    return part.max == Marks(max) && agrees(part.mean, mean_of(marks)) &&
           agrees(part.facility, mean_of(marks) / max) &&
           agrees(part.rest_correlation, correlation(marks, rest)) &&
           agrees(part.alpha_without, alpha_of(made.sittings, i)) &&
           agrees(part.discrimination, discrimination_of(made.sittings, i, max)) &&
           agrees(part.not_attempted, absent / n) &&
           agrees(part.overtime, earned > 0 ? std::optional<Real>(overtime / earned) : std::nullopt) &&
           part.ran_out == ran_out;
}

bool agrees(const PaperAnalysis& analysis, const RandomClass& made) {
    const Column total = totals_of(made.sittings);
    const Real variance = covariance(total, total);
    const auto alpha = alpha_of(made.sittings, {});
    const auto ran_out = std::count_if(made.sittings.begin(), made.sittings.end(),
                                       [](const auto& sitting) { return ran_out_of(sitting).has_value(); });
    return analysis.candidates == made.sittings.size() && analysis.max == made.paper.marks() &&
           agrees(analysis.mean, mean_of(total)) && agrees(analysis.variance, variance) &&
           agrees(analysis.deviation, std::sqrt(variance)) &&
           agrees(analysis.lower_quartile, quantile(total, .25L)) &&
           agrees(analysis.median, quantile(total, .5L)) &&
           agrees(analysis.upper_quartile, quantile(total, .75L)) && agrees(analysis.alpha, alpha) &&
           agrees(analysis.standard_error,
                  alpha ? std::optional<Real>(std::sqrt(variance * (1 - *alpha))) : std::nullopt) &&
           analysis.ran_out == static_cast<std::size_t>(ran_out);
}

std::vector<Figure> figures(const PaperAnalysis& analysis) {
    std::vector<Figure> all{analysis.mean,           analysis.variance,      analysis.deviation,
                            analysis.lower_quartile, analysis.median,        analysis.upper_quartile,
                            analysis.alpha,          analysis.standard_error};
    for (const PartAnalysis& part : analysis.parts)
        all.insert(all.end(), {part.mean, part.facility, part.rest_correlation, part.alpha_without,
                               part.discrimination, part.not_attempted, part.overtime});
    return all;
}

/// The figures that say how marks vary, which do not depend on where they lie.
std::vector<Figure> variation(const PaperAnalysis& analysis) {
    std::vector<Figure> all{analysis.variance, analysis.deviation, analysis.alpha, analysis.standard_error};
    for (const PartAnalysis& part : analysis.parts)
        all.insert(all.end(), {part.rest_correlation, part.alpha_without, part.discrimination});
    return all;
}

/// The label of the part at which an only candidate's time ran out; empty where it didn't.
std::string ran_out(const std::string& line) {
    const Paper paper = paper_of({5, 5, 5, 5});
    const PaperAnalysis analysis = analyse(paper, {parse_line(paper, line)});
    std::string label;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (analysis.parts[i].ran_out == 1)
            label += paper.parts()[i].label;
    CHECK(analysis.ran_out == label.size());
    return label;
}

/// The remarks on the first part.
std::vector<Remark> remarks_on(const std::vector<int>& maxima, const std::vector<std::string>& lines) {
    return analysed(maxima, lines).parts[0].remarks;
}

/// A class of `count`, the candidate at `i` with the line that `line(i)` gives.
template <typename Line>
std::vector<std::string> lines_of(int count, Line line) {
    std::vector<std::string> lines;
    for (int i = 0; i < count; ++i)
        lines.push_back(line(i));
    return lines;
}

std::string text(int number) {
    return std::to_string(number);
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
                marks.in_time += Marks(480);
        if (variation(analyse(paper, high)) != variation(analyse(paper, low)))
            FAIL("round " << round);
    }
    SUCCEED();
}

TEST_CASE("of a million candidates with the most marks that parts can have not a digit is lost") {
    constexpr int candidates = 1'000'000;
    const Paper paper = paper_of(std::vector<int>(3, most_marks_of_a_part.count()));
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
    const std::vector<int> maxima(Paper::most_parts, most_marks_of_a_part.count());
    const std::vector<PartMarks> full(Paper::most_parts, full_marks(most_marks_of_a_part));
    const std::vector<PartMarks> nothing(Paper::most_parts, full_marks(Marks(0)));
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

TEST_CASE("a class of nobody has no figure at all") {
    for (const Figure& figure : figures(analysed({2, 3}, {}))) {
        REQUIRE_FALSE(figure.has_value());
        CHECK(figure.why() == NoFigure::no_candidate);
    }
}

TEST_CASE("one candidate alone has marks and shares, and no figure that takes two") {
    const PaperAnalysis analysis = analysed({2, 3, 4}, {"2 1+1 -"});
    CHECK(analysis.mean.value() == 4);
    CHECK(analysis.median.value() == 4);
    CHECK(analysis.lower_quartile.value() == 4);
    CHECK(analysis.upper_quartile.value() == 4);
    for (const Figure& figure : variation(analysis)) {
        REQUIRE_FALSE(figure.has_value());
        CHECK(figure.why() == NoFigure::one_candidate);
    }
    CHECK(analysis.parts[1].overtime.value() == 0.5);
    CHECK(analysis.parts[2].not_attempted.value() == 1);
    CHECK(analysis.parts[2].overtime.why() == NoFigure::nothing_earned);
}

TEST_CASE("a paper of one part has no rest and no alpha, one of two parts no alpha without a part") {
    const PaperAnalysis one = analysed({5}, {"1", "4"});
    CHECK(one.alpha.why() == NoFigure::one_part);
    CHECK(one.standard_error.why() == NoFigure::one_part);
    CHECK(one.deviation.has_value());
    CHECK(one.parts[0].rest_correlation.why() == NoFigure::one_part);
    CHECK(one.parts[0].alpha_without.why() == NoFigure::one_part);
    CHECK(one.parts[0].discrimination.value() == 0.6);

    const PaperAnalysis two = analysed({5, 5}, {"1 0", "4 2"});
    CHECK(two.alpha.has_value());
    CHECK(two.parts[0].rest_correlation.value() == 1);
    CHECK(two.parts[0].alpha_without.why() == NoFigure::two_parts);
}

TEST_CASE("a part that everybody got has no spread, and so no correlation with the rest") {
    const PaperAnalysis analysis = analysed({2, 5, 5}, {"2 1 0", "2 4 3", "2 3 3"});
    CHECK(analysis.parts[0].rest_correlation.why() == NoFigure::no_spread_in_part);
    CHECK(analysis.parts[0].discrimination.value() == 0);
    CHECK(analysis.parts[0].alpha_without.has_value());
    CHECK(analysis.parts[1].rest_correlation.has_value());
}

TEST_CASE("a part beside which everybody has the same has no correlation with the rest") {
    const PaperAnalysis analysis = analysed({2, 5, 5}, {"2 1 3", "0 2 2", "1 1 3"});
    CHECK(analysis.parts[0].rest_correlation.why() == NoFigure::no_spread_in_rest);
    CHECK(analysis.parts[0].alpha_without.why() == NoFigure::no_spread_in_rest);
    CHECK(analysis.parts[0].discrimination.value() == 1);
}

TEST_CASE("a class in which all totals are the same has a deviation of nothing, no alpha and no groups") {
    const PaperAnalysis analysis = analysed({5, 5}, {"1 4", "2 3", "5 0"});
    CHECK(analysis.deviation.value() == 0);
    CHECK(analysis.alpha.why() == NoFigure::no_spread_in_total);
    CHECK(analysis.standard_error.why() == NoFigure::no_spread_in_total);
    CHECK(analysis.parts[0].discrimination.why() == NoFigure::no_spread_in_total);
    CHECK(analysis.parts[0].rest_correlation.value() == -1);
}

TEST_CASE("the upper and the lower group are 27% each, to the nearest, a half up, and at least one") {
    // One part, marks 1 to n: the groups' means lie n - size apart.
    const auto size = [](int n) {
        const Figure figure =
            analysed({100}, lines_of(n, [](int i) { return text(i + 1); })).parts[0].discrimination;
        return n - static_cast<int>(std::lround(100 * figure.value()));
    };
    CHECK(size(2) == 1);
    CHECK(size(5) == 1);
    CHECK(size(6) == 2);   // 1.62
    CHECK(size(9) == 2);   // 2.43
    CHECK(size(10) == 3);  // 2.7
    CHECK(size(50) == 14); // 13.5
    CHECK(size(87) == 23); // 23.49
    CHECK(size(100) == 27);
}

TEST_CASE("candidates who tie at a group's edge share the places left in it") {
    // Groups of one. Above, 7 in all: the part has 4 or 1, for 2.5. Below, 2 in all: 0.
    const PaperAnalysis analysis = analysed({10, 10}, {"4 3", "1 6", "3 2", "0 2"});
    CHECK(analysis.parts[0].discrimination.value() == 0.25);
    CHECK(analysis.parts[1].discrimination.value() == 0.25);
}

TEST_CASE("marks earned in overtime are own marks, corrected ones are not") {
    const PaperAnalysis analysis = analysed({5, 5}, {"2+1+2 0+0+5", "4+1 0+3+1"});
    CHECK(analysis.parts[0].mean.value() == 4);
    CHECK(analysis.parts[0].facility.value() == 0.8);
    CHECK(analysis.parts[0].overtime.value() == 0.25);
    CHECK(analysis.parts[1].overtime.value() == 1);
    CHECK(analysis.mean.value() == 5.5);
}

TEST_CASE("a candidate whose last parts were not tried in time ran out at the first of them") {
    CHECK(ran_out("5 5 - -") == "3");
    CHECK(ran_out("5 5 0+3 -") == "3");
    CHECK(ran_out("5 5 - 0+3") == "3");
    CHECK(ran_out("5 5 2 0+2+1") == "4");
    CHECK(ran_out("5 2+1 5 -") == "4");
    CHECK(ran_out("- - - -") == "1");
    CHECK(ran_out("0+5 - - 0+1") == "1");
}

TEST_CASE("a candidate who finished the last part begun in time in overtime ran out in it") {
    CHECK(ran_out("5 5 2+1 -") == "3");
    CHECK(ran_out("2+1 - - 0+3") == "1");
    CHECK(ran_out("5 1+4 2+1 -") == "3");
}

TEST_CASE("a candidate who tried the last part in time ran out at the first part with overtime marks") {
    CHECK(ran_out("5 2+1 3 3+1") == "2");
    CHECK(ran_out("5 5 5 3+1") == "4");
    CHECK(ran_out("5 0+1 5 5") == "2");
}

TEST_CASE("a candidate who tried the last part in time and earned nothing later did not run out") {
    CHECK(ran_out("5 5 5 5") == "");
    CHECK(ran_out("5 - 0 0") == "");
    CHECK(ran_out("- - - 0+0+5") == "");
}

TEST_CASE("a part is hard below a facility of 0.4, and easy above 0.9") {
    // The second part tells apart, so that the first one's marks, the same for all, do not.
    const auto all_have = [](int marks) {
        return remarks_on({10, 10}, lines_of(5, [&](int i) { return text(marks) + " " + text(i); }));
    };
    CHECK(all_have(3) == std::vector{Remark::hard_for_the_strong});
    CHECK(all_have(4).empty());
    CHECK(all_have(9).empty());
    CHECK(all_have(10) == std::vector{Remark::easy});
}

TEST_CASE("a hard part is lost by the strong too where discrimination is below 0.2") {
    // Groups of one: the best has `best` of 10, the others nothing.
    const auto best_has = [](int best) {
        return remarks_on({10, 50},
                          lines_of(5, [&](int i) { return text(i == 4 ? best : 0) + " " + text(10 * i); }));
    };
    CHECK(best_has(1) == std::vector{Remark::hard_for_the_strong});
    CHECK(best_has(2) == std::vector{Remark::hard});
    CHECK(best_has(3) == std::vector{Remark::hard});
    CHECK(best_has(4) == std::vector{Remark::hard, Remark::tells_apart});
}

TEST_CASE("a part tells apart from a discrimination of 0.4") {
    const auto best_has = [](int best) {
        return remarks_on({10, 50},
                          lines_of(5, [&](int i) { return text(i == 4 ? best : 5) + " " + text(10 * i); }));
    };
    CHECK(best_has(8).empty());
    CHECK(best_has(9) == std::vector{Remark::tells_apart});
}

TEST_CASE("the marking is in doubt where ten candidates or more do worse the better they do elsewhere") {
    const auto class_of_size = [](int n) {
        return remarks_on({20, 50}, lines_of(n, [&](int i) { return text(13 - i / 4) + " " + text(2 * i); }));
    };
    CHECK(class_of_size(9).empty());
    CHECK(class_of_size(10) == std::vector{Remark::check_marking});
    const auto same_for_all = remarks_on({20, 50}, lines_of(10, [](int i) { return "13 " + text(i); }));
    CHECK(same_for_all.empty());
}

TEST_CASE("a part is often left out where a fifth did not attempt it") {
    // By one in the middle of the class, who is in neither group.
    const auto left_out_by_one_of = [](int n) {
        return remarks_on({10, 50}, lines_of(n, [](int i) { return (i == 2 ? "- " : "7 ") + text(10 * i); }));
    };
    CHECK(left_out_by_one_of(6).empty());
    CHECK(left_out_by_one_of(5) == std::vector{Remark::often_left_out});
}

TEST_CASE("a part is a time trap where a quarter of its marks came in overtime") {
    const auto with_overtime = [](const std::string& marks) {
        return remarks_on({10, 10}, lines_of(5, [&](int i) { return marks + " " + text(i); }));
    };
    CHECK(with_overtime("6+1").empty());
    CHECK(with_overtime("6+2") == std::vector{Remark::time_trap});
}

TEST_CASE("a part has two remarks at most, the most important ones") {
    // Hard, worse for the better ones, left out, and in overtime.
    const auto lines = lines_of(10, [](int i) { return (i < 5 ? "0+2 " : "- ") + text(i); });
    CHECK(remarks_on({10, 10}, lines) == std::vector{Remark::check_marking, Remark::hard_for_the_strong});
}

TEST_CASE("fewer than five candidates are too few for a remark") {
    const auto of_size = [](int n) {
        return remarks_on({10, 10}, lines_of(n, [](int i) { return "0 " + text(i); }));
    };
    CHECK(of_size(4).empty());
    CHECK(of_size(5) == std::vector{Remark::hard_for_the_strong});
}
