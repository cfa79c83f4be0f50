#include "inkturn/statistics/analysis.hpp"

#include "catch.hpp"
#include "core/statistics/analyses.hpp"

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

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

/// How many an only candidate counts for of those who went back: 0 or 1.
std::size_t went_back(const std::string& line) {
    const Paper paper = paper_of({5, 5, 5, 5});
    return analyse(paper, {parse_line(paper, line)}).went_back;
}

/// The remarks on the first part.
std::vector<Remark> remarks_on(const std::vector<int>& maxima, const std::vector<std::string>& lines) {
    return analysed(maxima, lines).parts[0].remarks;
}

} // namespace

TEST_CASE("a class of nobody has no figure at all") {
    for (const Figure& figure : figures(analysed({2, 3}, {}))) {
        REQUIRE_FALSE(figure.has_value());
        CHECK(figure.why() == NoFigure::no_candidate);
    }
}

TEST_CASE("a single candidate has marks and shares, but no figure that takes two") {
    const PaperAnalysis analysis = analysed({2, 3, 4}, {"2 1+1 -"});
    CHECK(analysis.mean.value() == 4);
    CHECK(analysis.median.value() == 4);
    CHECK(analysis.lower_quartile.value() == 4);
    CHECK(analysis.upper_quartile.value() == 4);
    CHECK(analysis.deviation.why() == NoFigure::one_candidate);
    CHECK(analysis.variance.why() == NoFigure::one_candidate);
    for (const Figure& figure : correlations(analysis))
        CHECK(figure.why() == NoFigure::few_candidates);
    CHECK(analysis.parts[1].overtime.value() == 0.5);
    CHECK(analysis.parts[2].not_attempted.value() == 1);
    CHECK(analysis.parts[2].overtime.why() == NoFigure::nothing_earned);
}

TEST_CASE("a paper of one part has no rest and no alpha, one of two parts no alpha without a part") {
    const PaperAnalysis one = analysed({5}, repeated(3, {"1", "4"}));
    CHECK(one.alpha.why() == NoFigure::one_question);
    CHECK(one.standard_error.why() == NoFigure::one_question);
    CHECK(one.deviation.has_value());
    CHECK(one.parts[0].rest_correlation.why() == NoFigure::one_part);
    CHECK(one.parts[0].alpha_without.why() == NoFigure::one_question);
    CHECK(one.parts[0].discrimination.value() == 0.6);

    const PaperAnalysis two = analysed({5, 5}, repeated(3, {"1 0", "4 2"}));
    CHECK(two.alpha.has_value());
    CHECK(two.parts[0].rest_correlation.value() == 1);
    CHECK(two.parts[0].alpha_without.why() == NoFigure::two_questions);
}

TEST_CASE("alpha is over questions: parts of one question are taken together") {
    const std::vector<std::string> lines{"1 1 0 2", "2 2 1 3", "0 1 3 4", "3 3 3 1", "1 0 2 5"};
    const std::vector<std::string> whole{"2 2", "4 4", "1 7", "6 4", "1 7"};
    const Paper parts({"made-up", "", "", {}, RetryBy::part}, // which doesn't make questions of them
                      {{"1a", Marks(3), "", ""},
                       {"1b", Marks(3), "", ""},
                       {"2a", Marks(3), "", ""},
                       {"2b", Marks(5), "", ""}});
    const PaperAnalysis by_part = analyse(parts, class_of(parts, lines));
    const PaperAnalysis by_question = analysed({6, 8}, whole);
    CHECK(by_part.alpha == by_question.alpha);
    CHECK(by_part.standard_error == by_question.standard_error);

    const PaperAnalysis without = analysed({3, 8}, {"1 2", "2 4", "1 7", "3 4", "0 7"});
    CHECK(by_part.parts[0].alpha_without == without.alpha);

    const Paper alone({"made-up", "", "", {}, RetryBy::question},
                      {{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}});
    const PaperAnalysis one = analyse(alone, class_of(alone, repeated(3, {"1 1", "2 2"})));
    CHECK(one.alpha.why() == NoFigure::one_question);
    CHECK(one.parts[0].alpha_without.why() == NoFigure::one_question);
    CHECK(one.parts[0].rest_correlation.value() == 1);
}

TEST_CASE("how parts and totals go together takes five candidates") {
    const std::vector<std::string> five{"1 2 0", "3 3 1", "5 4 5", "2 2 2", "4 5 1"};
    for (const Figure& figure : correlations(analysed({5, 5, 5}, five)))
        CHECK(figure.has_value());
    const PaperAnalysis four = analysed({5, 5, 5}, {five.begin(), five.end() - 1});
    CHECK(four.deviation.has_value());
    for (const Figure& figure : correlations(four))
        CHECK(figure.why() == NoFigure::few_candidates);
}

TEST_CASE("a standard error takes an alpha that isn't below 0") {
    const PaperAnalysis analysis = analysed({5, 5}, {"1 2", "3 3", "5 4", "2 2", "4 5"});
    CHECK(analysis.standard_error.value() ==
          analysis.deviation.value() * std::sqrt(1 - analysis.alpha.value()));
    const PaperAnalysis none = analysed({5, 5}, {"1 4", "2 3", "3 3", "4 1", "5 0"});
    CHECK(none.alpha.value() < 0);
    CHECK(none.standard_error.why() == NoFigure::alpha_below_zero);
    const PaperAnalysis zero = analysed({2, 2}, {"0 0", "0 2", "2 0", "2 2", "0 0", "0 2", "2 0", "2 2"});
    CHECK(zero.alpha.value() == 0);
    CHECK(zero.standard_error == zero.deviation);
}

TEST_CASE("a part that everybody got has no spread, and so no correlation with the rest") {
    const PaperAnalysis analysis = analysed({2, 5, 5}, repeated(2, {"2 1 0", "2 4 3", "2 3 3"}));
    CHECK(analysis.parts[0].rest_correlation.why() == NoFigure::no_spread_in_part);
    CHECK(analysis.parts[0].discrimination.value() == 0);
    CHECK(analysis.parts[0].alpha_without.has_value());
    CHECK(analysis.parts[1].rest_correlation.has_value());
}

TEST_CASE("a part beside which everybody has the same has no correlation with the rest") {
    const PaperAnalysis analysis = analysed({2, 5, 5}, repeated(2, {"2 1 3", "0 2 2", "1 1 3"}));
    CHECK(analysis.parts[0].rest_correlation.why() == NoFigure::no_spread_in_rest);
    CHECK(analysis.parts[0].alpha_without.why() == NoFigure::no_spread_in_rest);
    CHECK(analysis.parts[0].discrimination.value() == 1);
}

TEST_CASE("a class in which all totals are the same has a deviation of nothing, no alpha and no groups") {
    const PaperAnalysis analysis = analysed({5, 5}, repeated(2, {"1 4", "2 3", "5 0"}));
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
    const PaperAnalysis analysis = analysed({10, 10}, {"4 3", "1 6", "3 2", "2 3", "0 2"});
    CHECK(analysis.parts[0].discrimination.value() == 0.25);
    CHECK(analysis.parts[1].discrimination.value() == 0.25);
}

TEST_CASE("marks earned in overtime are unaided, corrected ones are not") {
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

TEST_CASE("a candidate who finished the last part in overtime ran out in it") {
    CHECK(ran_out("5 2+1 3 3+1") == "4");
    CHECK(ran_out("5 5 5 3+1") == "4");
}

TEST_CASE("a candidate who finished the last part in time and an earlier one later went back to it") {
    CHECK(ran_out("5 0+1 5 5") == "");
    CHECK(ran_out("5 2+1 3 3") == "");
    CHECK(went_back("5 0+1 5 5") == 1);
    CHECK(went_back("5 2+1 0 3") == 1);
    CHECK(went_back("5 2+1 3 -") == 0);
    CHECK(went_back("5 2+1 3 3+1") == 0);
    CHECK(went_back("5 5 5 5") == 0);
    CHECK(went_back("- - - 0+0+5") == 0);
}

TEST_CASE("a candidate who tried the last part in time and earned nothing later did not run out") {
    CHECK(ran_out("5 5 5 5") == "");
    CHECK(ran_out("5 - 0 0") == "");
    CHECK(ran_out("- - - 0+0+5") == "");
}

TEST_CASE("a part is hard below a facility of 0.4, and easy above 0.9") {
    // The second part tells apart, so that the first one's marks, the same for all, do not.
    const auto all_have = [](int marks) {
        return remarks_on({500, 10}, lines_of(5, [&](int i) { return text(marks) + " " + text(i); }));
    };
    CHECK(all_have(199) == std::vector{Remark::hard_for_the_strong});
    CHECK(all_have(200).empty());
    CHECK(all_have(450).empty());
    CHECK(all_have(451) == std::vector{Remark::easy});
}

TEST_CASE("a hard part is lost by the strong too where discrimination is below 0.2") {
    // Groups of one: the best has `best` of 500, the others nothing.
    const auto best_has = [](int best) {
        return remarks_on({500, 500},
                          lines_of(5, [&](int i) { return text(i == 4 ? best : 0) + " " + text(100 * i); }));
    };
    CHECK(best_has(99) == std::vector{Remark::hard_for_the_strong});
    CHECK(best_has(100) == std::vector{Remark::hard});
    CHECK(best_has(199) == std::vector{Remark::hard});
    CHECK(best_has(200) == std::vector{Remark::hard, Remark::tells_apart});
}

TEST_CASE("a part tells apart from a discrimination of 0.4") {
    const auto best_has = [](int best) {
        return remarks_on(
            {500, 500}, lines_of(5, [&](int i) { return text(i == 4 ? best : 250) + " " + text(100 * i); }));
    };
    CHECK(best_has(449).empty());
    CHECK(best_has(450) == std::vector{Remark::tells_apart});
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

TEST_CASE("the marking is not in doubt where a part's marks go with those elsewhere, or have nothing to do "
          "with them") {
    const auto last_has = [](int last) {
        // Without the last candidate the part has nothing to do with the rest.
        return analysed({100, 20}, lines_of(11,
                                            [&](int i) {
                                                return text(i == 10      ? last
                                                            : i % 2 == 0 ? 60
                                                                         : 50) +
                                                       " " + text(i == 10 ? 10 : i / 2);
                                            }))
            .parts[0];
    };
    CHECK(last_has(54).rest_correlation.value() < 0);
    CHECK(last_has(54).remarks.empty()); // one mark is no reason
    CHECK(last_has(55).rest_correlation.value() == 0);
    CHECK(last_has(55).remarks.empty());
    CHECK(last_has(56).rest_correlation.value() > 0);
    CHECK(last_has(56).remarks.empty());
}

TEST_CASE("the marking is in doubt only where that doesn't hang on one candidate") {
    const auto lost_by = [](int who) {
        return remarks_on({5, 50},
                          lines_of(12, [&](int i) { return (i >= 12 - who ? "4 " : "5 ") + text(4 * i); }));
    };
    CHECK(lost_by(1) == std::vector{Remark::easy});
    CHECK(lost_by(2) == std::vector{Remark::check_marking, Remark::easy});
}

TEST_CASE("a part is often left out where a fifth did not attempt it") {
    // By those in the middle of the class, who are in neither group.
    const auto left_out_by = [](int who, int n) {
        return remarks_on({10, 500}, lines_of(n, [&](int i) {
                              const int middle = (n - who) / 2;
                              return (i >= middle && i < middle + who ? "- " : "7 ") + text(500 / n * i);
                          }));
    };
    CHECK(left_out_by(1, 6).empty());
    CHECK(left_out_by(1, 5) == std::vector{Remark::often_left_out});
    CHECK(left_out_by(19, 100).empty());
    CHECK(left_out_by(20, 100) == std::vector{Remark::often_left_out});
}

TEST_CASE("a part is a time trap where a quarter of its marks came in overtime") {
    const auto with_overtime = [](const std::string& marks) {
        return remarks_on({500, 10}, lines_of(5, [&](int i) { return marks + " " + text(i); }));
    };
    CHECK(with_overtime("226+75").empty());
    CHECK(with_overtime("225+75") == std::vector{Remark::time_trap});
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

TEST_CASE("a figure that isn't there can't be taken, nor a reason why one that is there is not") {
    CHECK(Figure(0.5).value() == 0.5);
    CHECK(Figure(NoFigure::one_part).why() == NoFigure::one_part);
    CHECK_THROWS_AS(Figure(NoFigure::one_part).value(), Error);
    CHECK_THROWS_AS(Figure(0.5).why(), Error);
}
