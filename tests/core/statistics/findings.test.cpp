#include "inkturn/statistics/findings.hpp"

#include "catch.hpp"
#include "core/statistics/analyses.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Positions = std::vector<std::size_t>;

/// Parts 1, 2 and so on, of these maxima and topics.
Paper on_topics(const std::vector<int>& maxima, const std::vector<std::string>& topics) {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < maxima.size(); ++i)
        parts.push_back({std::to_string(i + 1), Marks(maxima[i]), topics[i], ""});
    return Paper({"made-up", "", "", std::nullopt, RetryBy::part}, parts);
}

Findings found(const Paper& paper, const std::vector<std::string>& lines) {
    const auto findings = find_findings(paper, analyse(paper, class_of(paper, lines)));
    REQUIRE(findings);
    return *findings;
}

/// Of ten candidates of whom the strong ones, by the second part, earn `strong` of 10 in the first, the weak
/// ones `weak`.
CostFinding::Decision decided(int strong, int weak) {
    const Paper paper = on_topics({10, 90}, {"vectors", "proof"});
    return found(
               paper,
               lines_of(10, [&](int i) { return text(i < 5 ? weak : strong) + " " + text(i < 5 ? 84 : 90); }))
        .cost.decision;
}

} // namespace

TEST_CASE("a class of five has findings, one of four has none") {
    const Paper paper = on_topics({4, 6}, {"", ""});
    const auto findings_of = [&](int n) {
        return find_findings(
            paper, analyse(paper, class_of(paper, lines_of(n, [](int i) { return text(i % 5) + " 3"; }))));
    };
    CHECK(findings_of(5));
    CHECK_FALSE(findings_of(4));
    CHECK_FALSE(findings_of(0));
}

TEST_CASE("the costliest topic is that of the most marks lost over all of its parts") {
    const Paper paper = on_topics({4, 5, 6}, {"vectors", "proof", "vectors"});
    const Findings all = found(paper, {"2 1 4", "2 1 4", "2 1 4", "2 1 4", "2 2 3"});
    CHECK(all.cost.topic == "vectors");
    CHECK(all.cost.parts == Positions{0, 2});
    CHECK(all.cost.lost == 4.2); // (4 · 4 + 5) / 5, against 19 / 5
    CHECK(all.cost.max == Marks(10));
    CHECK(all.cost.compared == 2);
}

TEST_CASE("a part without a topic stands for itself, and the first in the paper comes first if tied") {
    const Paper paper = on_topics({4, 4, 4}, {"", "", ""});
    const Findings all = found(paper, {"4 2 2", "4 2 2", "4 1 2", "4 2 1", "4 2 2"});
    CHECK(all.cost.topic.empty());
    CHECK(all.cost.parts == Positions{1});
    CHECK(all.cost.compared == 3);
}

TEST_CASE("marks lost by those for whom a part did not count are nobody's") {
    const Paper paper = on_topics({10, 4}, {"vectors", "proof"});
    const Findings all = found(paper, {"5 1", "5 1", "5 1", "5 1", "5 1", "not-set 1"});
    CHECK(all.cost.topic == "vectors");
    CHECK_FALSE(all.cost.max);
    CHECK(all.cost.lost == 25.0 / 6);
}

TEST_CASE("what to do about the costliest topic goes by how the strongest fared") {
    using Decision = CostFinding::Decision;
    CHECK(decided(1, 1) == Decision::teach_all);
    CHECK(decided(2, 1) == Decision::teach_all);
    CHECK(decided(3, 1) == Decision::go_over);    // 0.2 apart
    CHECK(decided(4, 1) == Decision::go_over);    // 0.3
    CHECK(decided(5, 1) == Decision::teach_some); // 0.4
}

TEST_CASE("a topic of which less than a tenth was lost is left") {
    const auto lost = [](int marks) {
        const Paper paper = on_topics({100}, {"vectors"});
        return found(paper, lines_of(5, [&](int) { return text(100 - marks); })).cost.decision;
    };
    CHECK(lost(9) == CostFinding::Decision::leave);
    CHECK(lost(10) == CostFinding::Decision::go_over); // all have one total, so there are no groups
}

TEST_CASE("a topic mostly lost because it was not tried asks why first") {
    const Paper paper = on_topics({4, 20}, {"vectors", "proof"});
    // Of 20 marks lost 8 were not tried, or 12.
    const auto decision = [&](int untried) {
        return found(paper, lines_of(5, [&](int i) { return i < untried ? "- 20" : "0 20"; })).cost.decision;
    };
    CHECK(decision(2) != CostFinding::Decision::find_out_why);
    CHECK(decision(3) == CostFinding::Decision::find_out_why);
}

TEST_CASE("from a fifth of the class on, running out of time is for all to practise") {
    using Decision = TimeFinding::Decision;
    const Paper paper = on_topics({4, 4}, {"", ""});
    const auto time = [&](int late) {
        return found(paper, lines_of(10, [&](int i) { return i < late ? "2 -" : "2 3"; })).time;
    };
    CHECK(time(0).decision == Decision::leave);
    CHECK_FALSE(time(0).most_at);
    CHECK(time(1).decision == Decision::speak_to_some);
    CHECK(time(2).decision == Decision::practise_pace);
    CHECK(time(2).most_at == std::size_t{1});
    CHECK(time(2).ran_out_there == 2);
    CHECK(time(2).candidates == 10);
}

TEST_CASE("doubtful marking comes before what the totals are good for") {
    using Decision = TrustFinding::Decision;
    const Paper paper = on_topics({9, 20, 20}, {"", "", ""});
    const auto trust = [&](auto line) { return found(paper, lines_of(10, line)).trust; };
    const auto against = trust([](int i) { return text(9 - i) + " " + text(2 * i) + " " + text(2 * i); });
    CHECK(against.decision == Decision::check_marking);
    CHECK(against.parts == Positions{0});
    CHECK(trust([](int i) { return text(i) + " " + text(i) + " " + text(2 * i); }).decision ==
          Decision::set_another);
    CHECK(trust([](int) { return std::string("3 3 3"); }).decision == Decision::judge_nobody);
}

TEST_CASE("parts to look at come by what is wrong with them, then by marks lost, and never for being easy") {
    // 1 is easy, 2 and 3 hard, 4 not tried by many.
    const Paper paper = on_topics({10, 10, 20, 10}, {"", "", "", ""});
    const PaperAnalysis analysis = analyse(paper, class_of(paper, lines_of(5, [](int i) {
                                                               return "10 " + text(i / 2) + " " + text(i) +
                                                                      (i == 0 ? " -" : " " + text(5 + i));
                                                           })));
    CHECK(parts_to_look_at(analysis) == Positions{2, 1, 3});
    CHECK(parts_to_look_at(analysed({4, 4}, {"1 1", "0 0"})).empty());
}

TEST_CASE("the topic over all papers comes after the paper's own, unless that lost little or has no topic") {
    const Paper paper = on_topics({10, 10}, {"vectors", "proof"});
    CostFinding cost{"vectors", {0}, 2, 5.0, Marks(10), CostFinding::Decision::teach_all};
    CHECK(beside_paper(paper, cost, "vectors") == BesidePaper::same);
    CHECK(beside_paper(paper, cost, "proof") == BesidePaper::less_in_paper);
    CHECK(beside_paper(paper, cost, "modelling") == BesidePaper::not_in_paper);
    cost.decision = CostFinding::Decision::leave;
    CHECK(beside_paper(paper, cost, "proof") == BesidePaper::instead);
    CHECK(beside_paper(paper, cost, "vectors") == BesidePaper::same);
    cost = {"", {0}, 2, 5.0, Marks(10), CostFinding::Decision::teach_all};
    CHECK(beside_paper(paper, cost, "proof") == BesidePaper::instead);
}
