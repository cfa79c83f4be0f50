#include "inkturn/statistics/comparison.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "papers.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

Side side_of(const std::shared_ptr<const Paper>& paper, const std::string& code,
             const std::vector<std::string>& lines) {
    Side side{paper, {}};
    for (const std::string& line : lines)
        side.sittings.push_back(
            {code + std::to_string(side.sittings.size()), monday, parse_line(*paper, line)});
    return side;
}

std::string labels(const std::vector<PartCompared>& parts) {
    std::string text;
    for (const PartCompared& part : parts)
        text += (text.empty() ? "" : " ") + part.label;
    return text;
}

} // namespace

TEST_CASE(
    "of each candidate the first or the latest sitting is taken, a whole one before one of some parts") {
    const Paper paper = paper_of({4, 6});
    std::vector<SittingOfPaper> all;
    const auto add = [&](const std::string& code, int on, const std::string& line) {
        all.push_back({code, day(on), parse_line(paper, line)});
    };
    add("K01", 1, "1 1");
    add("K01", 2, "2 2");
    add("K02", 1, "1 not-set");
    add("K02", 2, "2 2");
    add("K02", 3, "3 3");
    add("K02", 4, "not-set 4");
    add("K03", 1, "1 not-set");
    add("K03", 2, "2 not-set");
    const auto days = [&](WhichSitting which) {
        std::string text;
        for (const SittingOfPaper& sitting : one_each(paper, all, which))
            text += sitting.candidate + ":" + std::to_string((sitting.day - day(0)).count()) + " ";
        return text;
    };
    CHECK(days(WhichSitting::first) == "K01:1 K02:2 K03:1 ");
    CHECK(days(WhichSitting::latest) == "K01:2 K02:3 K03:2 ");
}

TEST_CASE("a sitting counts for a class only where the candidate has none of its own for it") {
    const Day monday = date::year{2026} / 11 / 2;
    const std::vector<SittingOfPaper> own{{"K01", monday, {}}, {"K02", monday, {}}};
    const std::vector<SittingOfPaper> elsewhere = sat_elsewhere(
        own, {{"K01", monday - Days{7}, {}}, {"K01", monday, {}}, {"K02", monday, {}}, {"K03", monday, {}}});
    REQUIRE(elsewhere.size() == 1);
    CHECK((elsewhere[0].candidate == "K01" && elsewhere[0].day == monday - Days{7}));
    CHECK(sat_elsewhere({}, own).empty());
}

TEST_CASE("totals and facilities of two classes are compared, the part that differs most first") {
    const auto paper = paper_of("p", {4, 5, 10});
    const Comparison found = compare(
        side_of(paper, "A", {"4 5 2", "3 5 4", "4 5 6", "4 5 2", "3 5 4", "4 5 6"}),
        side_of(paper, "B", {"1 5 5", "0 5 4", "1 5 6", "2 5 5", "1 5 5", "0 5 4", "1 5 6", "2 5 5"}));
    CHECK(found.max == Marks(19));
    CHECK(found.a.size == 6);
    CHECK(found.b.size == 8);
    CHECK(found.a.mean == (11 + 12 + 15) / 3.0);
    CHECK_THAT(found.total.difference, WithinAbs(38 / 3.0 - 11, 1e-12));
    CHECK(labels(found.parts) == "1 3 2");
    CHECK_THAT(found.parts[0].difference.difference, WithinAbs(11 / 12.0 - 0.25, 1e-12));
    CHECK(found.parts[0].is_beyond_chance());
    CHECK_FALSE(found.parts[1].is_beyond_chance());
    CHECK_FALSE(found.parts[2].difference.interval); // all have it in full
    CHECK(found.parts_tested() == 2);
    CHECK(found.on_both == 0);
    CHECK(found.unlike.empty());
}

TEST_CASE(
    "of fewer than five candidates nothing is beyond chance, and a side without spread is no certainty") {
    const auto paper = paper_of("p", {4});
    const std::vector<std::string> high{"4", "4", "4", "4"};
    const std::vector<std::string> low{"0", "1", "0", "1", "0", "1"};
    const Comparison few = compare(side_of(paper, "A", high), side_of(paper, "B", low));
    CHECK_FALSE(few.parts[0].difference.interval);
    CHECK_FALSE(few.parts[0].is_beyond_chance());
    CHECK_FALSE(few.total.interval);
    CHECK_THAT(few.total.difference, WithinAbs(3.5, 1e-12));
    const Comparison alike = compare(side_of(paper, "A", {"4", "4", "4", "4", "4"}),
                                     side_of(paper, "B", {"4", "3", "4", "4", "4"}));
    CHECK(alike.parts[0].difference.interval->high > 0.05);
    CHECK_FALSE(alike.parts[0].is_beyond_chance());
}

TEST_CASE("a part's facility is of those for whom it counted, totals of those who were set all of it") {
    const auto paper = paper_of("p", {4, 6});
    const Comparison found = compare(side_of(paper, "A", {"4 6", "2 3", "not-set 0"}),
                                     side_of(paper, "B", {"0 6", "1 not-set", "1 2"}));
    CHECK(found.a.size == 2);
    CHECK(found.b.size == 2);
    CHECK(found.without_total == 2);
    for (const PartCompared& part : found.parts) {
        CHECK(part.a.size == (part.label == "1" ? 2U : 3U));
        CHECK(part.b.size == (part.label == "1" ? 3U : 2U));
    }
}

TEST_CASE("papers are compared by the labels of parts that have the same maximum") {
    const auto now = paper_of("now", {4, 6, 5});
    const auto before = paper_of("before", {4, 7, 5, 2});
    const Comparison found =
        compare(side_of(now, "A", {"4 6 1", "2 3 2"}), side_of(before, "B", {"0 7 5 2", "1 2 4 2"}));
    CHECK(labels(found.parts) == "1 3");
    CHECK(found.unlike == std::vector<std::string>{"2", "4"});
    CHECK(found.max == Marks(9));
    CHECK(found.a.mean == (5 + 4) / 2.0);
    CHECK(found.b.mean == 5);
}

TEST_CASE("parts about another topic are no counterparts") {
    const auto on = [](const std::string& one, const std::string& two) {
        return std::make_shared<const Paper>(
            PaperHead{"p", "", "", std::nullopt, RetryBy::question},
            std::vector<Part>{{"1", Marks(4), one, ""}, {"2", Marks(6), two, ""}});
    };
    const auto now = on("vectors", "series");
    const Comparison found =
        compare(side_of(now, "A", {"4 6", "2 3"}), side_of(on("surds", ""), "B", {"0 6", "1 2"}));
    CHECK(labels(found.parts) == "2");
    CHECK(found.other_topics == std::vector<std::string>{"1"});
    CHECK(found.unlike.empty());
    CHECK(found.max == Marks(6));
}

TEST_CASE("candidates on both sides are counted, and a side of nobody compares nothing") {
    const auto paper = paper_of("p", {4, 6});
    const Side side = side_of(paper, "A", {"4 6", "2 3"});
    CHECK(compare(side, side).on_both == 2);
    CHECK(compare(side, side).total.difference == 0);
    const Comparison none = compare(side, {paper, {}});
    CHECK(none.parts.empty());
    CHECK_FALSE(none.total.interval);
    CHECK_THROWS_AS(compare(side, {paper_of("q", {4}), side.sittings}), Error);
}

TEST_CASE("a difference has no interval where a side has one candidate, or neither varies") {
    CHECK_FALSE(welch(sample_of({1}), sample_of({1, 2})).interval);
    CHECK_FALSE(welch(sample_of({1, 1}), sample_of({2, 2})).interval);
    CHECK(welch(sample_of({1, 1}), sample_of({1, 2})).interval);
    CHECK(welch(sample_of({1, 1}), sample_of({1, 2})).difference == -0.5);
    CHECK(sample_of({0.1, 0.1, 0.1}).variance == 0);
}

TEST_CASE("of classes that are alike hardly one page in twenty shows a part beyond chance") {
    std::mt19937 dice(17);
    const auto paper = paper_of("p", std::vector<int>(12, 4));
    const auto class_of = [&] {
        std::vector<std::string> lines;
        for (int i = 0; i < 20; ++i) {
            std::string line;
            for (int part = 0; part < 12; ++part)
                line += (part > 0 ? " " : "") + std::to_string(pick(dice, 0, 4));
            lines.push_back(line);
        }
        return lines;
    };
    constexpr int rounds = 2000;
    int any = 0;
    int without_allowing = 0;
    for (int round = 0; round < rounds; ++round) {
        const Comparison found = compare(side_of(paper, "A", class_of()), side_of(paper, "B", class_of()));
        any += std::any_of(found.parts.begin(), found.parts.end(),
                           [](const PartCompared& part) { return part.is_beyond_chance(); });
        without_allowing += std::any_of(found.parts.begin(), found.parts.end(), [](const PartCompared& part) {
            return part.difference.p <= PartCompared::chance;
        });
    }
    CHECK(any <= rounds * 6 / 100);
    CHECK(without_allowing > rounds * 30 / 100);
}
