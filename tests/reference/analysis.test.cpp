#include "inkturn/statistics/analysis.hpp"

#include "catch.hpp"
#include "papers.hpp"
#include "reference/lsat6.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

PartMarks in_time(int marks) {
    return PartMarks({Marks(marks)}, max_part_marks);
}

std::vector<PartMarks> answers(const std::string& pattern) {
    std::vector<PartMarks> marks;
    for (const char answer : pattern)
        marks.push_back(in_time(answer - '0'));
    return marks;
}

int score(const Pattern& pattern) {
    const std::string text = pattern.answers;
    return static_cast<int>(std::count(text.begin(), text.end(), '1'));
}

PaperAnalysis analysis_of_lsat6() {
    ClassMarks marks(paper_of({1, 1, 1, 1, 1}));
    for (const Pattern& pattern : lsat6)
        for (int i = 0; i < pattern.candidates; ++i)
            marks.add(answers(pattern.answers));
    return marks.analysis();
}

} // namespace

TEST_CASE(
    "LSAT section 6, Bock & Lieberman 1970, Psychometrika 35, 179-197; R 4.2.2 with psych 2.2.9, alpha(): "
    "facility, part-rest correlation and alpha without each part",
    "[reference]") {
    const PaperAnalysis analysis = analysis_of_lsat6();
    constexpr std::array<double, 5> facility{.924, .709, .553, .763, .870};
    constexpr std::array<double, 5> rest{.1128327, .1531781, .1727789, .1444281, .1215964};
    constexpr std::array<double, 5> alpha_without{.2753562, .2375839, .2167995, .2459327, .2662944};
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        CHECK(analysis.parts[i].facility.value() == facility[i]);
        CHECK_THAT(analysis.parts[i].rest_correlation.value(), WithinAbs(rest[i], 5e-8));
        CHECK_THAT(analysis.parts[i].alpha_without.value(), WithinAbs(alpha_without[i], 5e-8));
    }
}

TEST_CASE("the same data and software: alpha, mean, variance and standard error of measurement",
          "[reference]") {
    const PaperAnalysis analysis = analysis_of_lsat6();
    CHECK(analysis.candidates == 1000);
    CHECK(analysis.mean.value() == 3.819);
    CHECK_THAT(analysis.alpha.value(), WithinAbs(.2949972, 5e-8));
    CHECK_THAT(analysis.variance.value(), WithinAbs(1.0713103, 5e-8));
    CHECK_THAT(analysis.standard_error.value(), WithinAbs(.8690666, 5e-8));
}

TEST_CASE(
    "the same data and software: the part-total correlation is that of the part in a paper of two parts, "
    "it and the total",
    "[reference]") {
    constexpr std::array<double, 5> total{.3620104, .5667721, .6184398, .5344183, .4353664};
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        ClassMarks marks(paper_of({1, 5}));
        for (const Pattern& pattern : lsat6)
            for (int candidate = 0; candidate < pattern.candidates; ++candidate)
                marks.add({in_time(pattern.answers[i] - '0'), in_time(score(pattern))});
        CHECK_THAT(marks.analysis().parts[0].rest_correlation.value(), WithinAbs(total[i], 5e-8));
    }
}

TEST_CASE("the same data: 3, 20, 85, 237, 357 and 298 candidates score 0 to 5, which sets the quartiles",
          "[reference]") {
    constexpr std::array<int, 6> counts{3, 20, 85, 237, 357, 298};
    std::array<int, 6> scored{};
    for (const Pattern& pattern : lsat6)
        scored[static_cast<std::size_t>(score(pattern))] += pattern.candidates;
    REQUIRE(scored == counts);

    // The candidates 250 and 251, 500 and 501, 750 and 751 from below score 3, 4 and 5.
    const PaperAnalysis analysis = analysis_of_lsat6();
    CHECK(analysis.lower_quartile.value() == 3);
    CHECK(analysis.median.value() == 4);
    CHECK(analysis.upper_quartile.value() == 5);
}

TEST_CASE(
    "K. Wuensch, East Carolina University, StatHelp, KR-20 handout: ten candidates, ten parts of a mark",
    "[reference]") {
    std::vector<std::vector<PartMarks>> sittings;
    for (const char* const pattern : {"1111110110", "1011011101", "1111011001", "0010001000", "0000010010",
                                      "1110111111", "1101110111", "1111111101", "0101111101", "1101101110"})
        sittings.push_back(answers(pattern));
    const PaperAnalysis analysis = analyse(paper_of(std::vector<int>(10, 1)), sittings);

    // The handout divides the total's variance by n: 5.84.
    CHECK_THAT(analysis.variance.value() * 9 / 10, WithinAbs(5.84, 1e-12));
    double pq = 0;
    for (const PartAnalysis& part : analysis.parts)
        pq += part.facility.value() * (1 - part.facility.value());
    CHECK_THAT(pq, WithinAbs(2.18, 1e-12));
    CHECK_THAT(analysis.alpha.value(), WithinAbs(.6963470, 5e-8)); // computed

    // Computed with R's package psych.
    constexpr std::array<double, 10> rest{.705889, .705889,  0,       .473589,  .583874,
                                          .286147, -.027445, .705889, -.123613, .475867};
    for (std::size_t i = 0; i < 10; ++i) {
        CAPTURE(i);
        CHECK_THAT(analysis.parts[i].rest_correlation.value(), WithinAbs(rest[i], 5e-7));
    }
}

TEST_CASE(
    "Hyndman & Fan 1996, Sample quantiles in statistical packages, type 7, the definition: the quantile p "
    "of n lies (n - 1)p places above the least",
    "[reference]") {
    // Ten candidates with 1, 2, 4, 7, 11, 16, 22, 29, 37, 46: 2.25, 4.5 and 6.75 places above.
    std::vector<std::vector<PartMarks>> sittings;
    for (const int marks : {46, 1, 37, 2, 29, 4, 22, 7, 16, 11})
        sittings.push_back({in_time(marks)});
    const PaperAnalysis analysis = analyse(paper_of({50}), sittings);
    CHECK(analysis.lower_quartile.value() == 4 + .25 * 3);
    CHECK(analysis.median.value() == 11 + .5 * 5);
    CHECK(analysis.upper_quartile.value() == 22 + .75 * 7);
}
