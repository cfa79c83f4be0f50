#include "analyses.hpp"
#include "catch.hpp"
#include "choices.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

} // namespace

TEST_CASE("a part's figures are of those for whom it counted") {
    const PaperAnalysis analysis = analysed({4, 6}, {"4 6", "2 3", "0 0", "not-set 6", "3 not-set"});
    CHECK(analysis.candidates == 3);
    CHECK(analysis.others == 2);
    CHECK(analysis.max == Marks(10));
    CHECK(analysis.mean.value() == 5.0);
    CHECK(analysis.parts[0].candidates == 4);
    CHECK(analysis.parts[0].compared == 3);
    CHECK(analysis.parts[0].mean.value() == 9.0 / 4);
    CHECK(analysis.parts[1].candidates == 4);
    CHECK(analysis.parts[1].facility.value() == 15.0 / 24);
    CHECK(analysis.parts[1].not_attempted.value() == 0.0);
}

TEST_CASE("figures by total leave out those who were set other parts") {
    const std::vector<std::string> whole{"4 6", "2 3", "0 1", "3 0", "2 2"};
    std::vector<std::string> with_others = whole;
    with_others.emplace_back("not-set 6");
    const PaperAnalysis before = analysed({4, 6}, whole);
    const PaperAnalysis after = analysed({4, 6}, with_others);
    CHECK(after.alpha == before.alpha);
    CHECK(after.variance == before.variance);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(after.parts[i].rest_correlation == before.parts[i].rest_correlation);
        CHECK(after.parts[i].discrimination == before.parts[i].discrimination);
    }
}

TEST_CASE("where most were set some parts, totals are of these") {
    const PaperAnalysis analysis = analysed(
        {4, 6, 5}, {"4 6 not-set", "2 3 not-set", "4 6 not-set", "2 3 not-set", "1 0 not-set", "1 1 5"});
    CHECK(analysis.candidates == 5);
    CHECK(analysis.max == Marks(10));
    const PaperAnalysis of_five = analysed({4, 6}, {"4 6", "2 3", "4 6", "2 3", "1 0"});
    CHECK(analysis.alpha.has_value());
    CHECK(analysis.alpha == of_five.alpha);
    CHECK(analysis.parts[0].rest_correlation == of_five.parts[0].rest_correlation);
    CHECK(analysis.parts[2].candidates == 1);
    CHECK(analysis.parts[2].rest_correlation.why() == NoFigure::no_candidate);
}

TEST_CASE("if tied, totals are of those who were set more marks") {
    CHECK(analysed({4, 6}, {"4 not-set", "2 3"}).max == Marks(10));
    CHECK(analysed({4, 6}, {"2 3", "not-set 3"}).max == Marks(10));
}

TEST_CASE("a choice leaves no alpha, and every other figure") {
    const Paper paper = paper_with_choice();
    const PaperAnalysis analysis = analyse(
        paper,
        class_of(paper, repeated(2, {"4 3 5 4 6 10 -", "2 1 3 - - 4 5", "1 0 2 2 1 - 3", "3 3 1 - - 6 2"})));
    CHECK(analysis.candidates == 8);
    CHECK(analysis.others == 0);
    CHECK(analysis.max == Marks(32));
    CHECK(analysis.mean.value() == (32 + 15 + 9 + 15) / 4.0);
    CHECK(analysis.alpha.why() == NoFigure::choice);
    CHECK(analysis.parts[0].alpha_without.why() == NoFigure::choice);
    CHECK(analysis.parts[3].candidates == 4);
    CHECK(analysis.parts[3].rest_correlation.why() == NoFigure::few_candidates);
    CHECK(analysis.parts[5].candidates == 6);
    CHECK(analysis.parts[5].mean.value() == 20.0 / 3);
    CHECK(analysis.parts[5].rest_correlation.has_value());
    CHECK(analysis.parts[3].not_attempted.value() == 0.0);

    const PaperAnalysis none_to_make = analyse(
        paper, class_of(paper, repeated(3, {"4 3 5 not-set not-set 10 9", "2 1 3 not-set not-set 4 5"})));
    CHECK(none_to_make.alpha.has_value());
}

TEST_CASE("time runs out among the parts that count") {
    const PaperAnalysis analysis = analysed({4, 6, 5}, {"4 - not-set", "4 2 not-set"});
    CHECK(analysis.ran_out == 1);
    CHECK(analysis.parts[1].ran_out == 1);
}
