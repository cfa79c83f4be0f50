#include "view/text/analysis.hpp"

#include "catch.hpp"
#include "choices.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "papers.hpp"
#include "view/text/lines.hpp"
#include "view/text/text.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct Analysed {
    Paper paper;
    PaperAnalysis analysis;
};

Analysed analysed(const std::vector<Part>& parts, const std::vector<std::string>& lines) {
    const Paper paper({"made-up", "", "", {}, RetryBy::question}, parts);
    ClassMarks marks(paper);
    for (const std::string& line : lines)
        marks.add(parse_line(paper, line));
    return {paper, marks.analysis()};
}

const std::string few = "-: at least 5 candidates are needed\n";

/// Ten candidates; everybody has 3a in full.
Analysed example() {
    return analysed({{"1", Marks(4), "surds", ""},
                     {"2a", Marks(5), "vectors", ""},
                     {"3a", Marks(3), "", ""},
                     {"7b", Marks(6), "integration", ""}},
                    {"4 1 3 4+2", "4 1 3 5", "3 2 3 2+3", "4 0 3 1+4", "3 2 3 0+3", "2 1 3 0+2", "2 3 3 -",
                     "1 2 3 0+1", "1 3 3 -", "0 3 3 -"});
}

std::string from_few(int candidates) {
    return "All this comes from " + std::to_string(candidates) +
           " candidates, which is few: another class could well say\n  otherwise.\n";
}

std::string reasons_of(const Analysed& made) {
    return reasons(made.paper, made.analysis);
}

std::string reasons_of(const std::vector<int>& maxima, const std::vector<std::string>& lines) {
    return reasons_of(analysed(parts_of(maxima), lines));
}

} // namespace

TEST_CASE("the parts' figures stand in a row a part, shares in per cent") {
    const auto [paper, analysis] = example();
    CHECK(text_of(parts_table(paper, analysis)) ==
          "part  max  mean  facility  rest r  rest alpha  discr.  not tried  overtime\n"
          "1       4  2.40      0.60    0.82       -1.99    0.75         0%        0%\n"
          "2a      5  1.80      0.36   -0.80        0.67   -0.27         0%        0%\n"
          "3a      3  3.00      1.00       -        0.01    0.00         0%        0%\n"
          "7b      6  2.70      0.45    0.53       -4.03    0.83        30%       56%\n");
}

TEST_CASE("each of the paper's figures has a row") {
    CHECK(text_of(paper_table(example().analysis)) == "10 candidates                  of 18\n"
                                                      "mean                            9.90\n"
                                                      "standard deviation              3.00\n"
                                                      "lower quartile                  7.25\n"
                                                      "median                          9.50\n"
                                                      "upper quartile                 12.75\n"
                                                      "alpha                           0.01\n"
                                                      "standard error of measurement   2.98\n");
}

TEST_CASE("the short titles of the parts' table are explained") {
    for (const char* const title : {"rest r: ", "rest alpha: ", "discr.: "})
        CHECK(parts_key().find(title) != std::string::npos);
}

TEST_CASE("the readings of the parts that stand out are worded, with the topic") {
    const auto [paper, analysis] = example();
    CHECK(readings(paper, analysis) ==
          "1 (surds): separates the strong from the weak well\n"
          "2a (vectors): candidates who did well elsewhere did worse here: check the\n"
          "  marking; hard, even for the strong\n"
          "3a: easy, so it says little\n"
          "7b (integration): a time trap: 56% of its marks came in overtime; often left\n"
          "  out: not tried by 30%\n" +
              from_few(10));
}

TEST_CASE("a part that does not stand out has no line") {
    const auto [paper, analysis] = analysed(parts_of({10, 50}), {"5 0", "5 10", "5 20", "5 30", "5 40"});
    CHECK(readings(paper, analysis) == "2: separates the strong from the weak well\n" + from_few(5));
}

TEST_CASE("every remark has its own words") {
    Analysed made = analysed(parts_of({5}), {"1", "2", "3", "4", "5"});
    made.analysis.candidates = 20;
    made.analysis.parts[0].compared = 20;
    const auto worded = [&](Remark remark) {
        made.analysis.parts[0].remarks = {remark};
        return readings(made.paper, made.analysis);
    };
    CHECK(worded(Remark::check_marking) ==
          "1: candidates who did well elsewhere did worse here: check the marking\n");
    CHECK(worded(Remark::hard_for_the_strong) == "1: hard, even for the strong\n");
    CHECK(worded(Remark::hard) == "1: hard\n");
    CHECK(worded(Remark::time_trap) == "1: a time trap: 0% of its marks came in overtime\n");
    CHECK(worded(Remark::often_left_out) == "1: often left out: not tried by 0%\n");
    CHECK(worded(Remark::easy) == "1: easy, so it says little\n");
    CHECK(worded(Remark::tells_apart) == "1: separates the strong from the weak well\n");
}

TEST_CASE("a class that is too small gets told so") {
    const auto [paper, analysis] = analysed(parts_of({2, 3}), {"0 3", "2 0"});
    CHECK(readings(paper, analysis) ==
          "Too few candidates to say what the figures mean: at least 5 are needed.\n");
}

TEST_CASE("shows by part where time ran out, as far as the marks tell") {
    const auto [paper, analysis] = example();
    CHECK(ran_out_lines(paper, analysis) ==
          "To judge by the marks, 9 of 10 candidates ran out of time: 9 at 7b.\n");
    const auto both = analysed(parts_of({2, 3}), {"- -", "2 1+1", "2 -", "2 3"});
    CHECK(ran_out_lines(both.paper, both.analysis) ==
          "To judge by the marks, 3 of 4 candidates ran out of time: 1 at 1, 2 at 2.\n");
    const auto none = analysed(parts_of({2, 3}), {"0 3", "2 0"});
    CHECK(ran_out_lines(none.paper, none.analysis) == "To judge by the marks, nobody ran out of time.\n");
    const auto back = analysed(parts_of({2, 3}), {"1+1 3", "2 -"});
    CHECK(ran_out_lines(back.paper, back.analysis) ==
          "To judge by the marks, 1 of 2 candidates ran out of time: 1 at 2. 1 of 2\n"
          "  candidates finished the last part in time and earlier ones in overtime.\n");
    const auto nobody = analysed(parts_of({2, 3}), {});
    CHECK(ran_out_lines(nobody.paper, nobody.analysis).empty());
}

TEST_CASE("a missing figure is a dash, and its reason is given once with the parts it applies to") {
    CHECK(reasons_of(example()) == "-: every candidate has the same mark in 3a\n");
    CHECK(reasons_of({2, 3, 4, 5}, {"2 0 4 1", "2 1 4 1", "2 2 4 3", "2 1 4 1", "2 3 4 5"}) ==
          "-: every candidate has the same mark in 1 and in 3\n");
    CHECK(reasons_of({2, 3, 4}, {"2 0 4", "2 1 4", "2 2 4", "2 0 4", "2 1 4"}) ==
          "-: every candidate has the same mark in 1 and in 3\n"
          "-: every candidate has the same total without 2\n");
    CHECK(reasons_of({2, 3, 4}, {"0 0 1", "0 0 2", "0 0 1", "0 0 1", "0 0 3"}) ==
          "-: every candidate has the same mark in 1 and in 2\n"
          "-: every candidate has the same total without 3\n"
          "-: nobody has earned a mark in 1 or 2\n");
    CHECK(reasons_of({5, 5, 5}, {"1 4 0", "2 3 0", "0 0 5", "0 4 1", "4 1 0"}) ==
          "-: every candidate has the same total\n");
    CHECK(reasons_of({5}, {"1", "2", "1", "2", "2"}) == "-: only one question was set, and alpha needs two\n"
                                                        "-: only one part was set, so there is no rest\n");
    CHECK(reasons_of({5, 5}, {"1 0", "2 2"}) ==
          few + "-: without 1 or 2 only one question is left, and alpha needs two\n");
    CHECK(reasons_of({5, 5}, {"1 1"}) ==
          "-: a standard deviation needs two candidates\n" + few +
              "-: without 1 or 2 only one question is left, and alpha needs two\n");
    CHECK(reasons_of({5, 5}, {}) == "-: nobody has sat the paper\n");
    CHECK(reasons_of({5, 5, 1}, {"1 4 0", "2 3 0", "3 3 1", "4 1 1", "5 0 1"}) ==
          "-: alpha is below 0 (who did well in one question did no better in the\n"
          "  others), so there is no standard error\n");
}

TEST_CASE("where parts were not set the reasons are of those whose totals are compared") {
    CHECK(reasons_of({2, 3, 4}, {"1 2 not-set", "0 0 not-set", "2 1 not-set", "1 1 3"}) ==
          "-: at least 5 candidates who were set the same parts are needed\n"
          "-: 3 counted for nobody whose total is compared\n"
          "-: without 1 or 2 only one question is left, and alpha needs two\n");
    CHECK(reasons_of({2, 3}, {"1 not-set", "not-set 2", "not-set 1"}) ==
          "-: only one question was set, and alpha needs two\n"
          "-: 1 counted for nobody whose total is compared\n"
          "-: 2 counted for fewer than 5 of those compared\n"
          "-: only one part was set, so there is no rest\n");
    CHECK(reasons_of({2, 3}, {"1 not-set", "not-set 2"}) ==
          "-: a standard deviation needs two candidates who were set the same parts\n"
          "-: only one question was set, and alpha needs two\n"
          "-: 1 counted for nobody whose total is compared\n"
          "-: 2 counted for fewer than 5 of those compared\n"
          "-: only one part was set, so there is no rest\n");
    CHECK(reasons_of({2, 2, 3}, {"1 0 0", "1 1 1", "1 2 3", "1 1 2", "1 0 1", "0 1 not-set"}) ==
          "-: all those compared for whom it counted have the same mark in 1\n");
    CHECK(reasons_of({5, 5}, {"1 4", "4 1", "2 3", "3 2", "0 5", "2 not-set"}) ==
          "-: all those compared have the same total\n"
          "-: without 1 or 2 only one question is left, and alpha needs two\n");
}

TEST_CASE("where candidates chose, a part's reasons are of those for whom it counted") {
    const Paper paper = paper_with_choice();
    ClassMarks marks(paper);
    for (const char* const line : {"4 3 5 4 6 10 -", "2 1 3 - - 4 5", "1 0 2 - - 2 3", "3 3 1 - - 6 2",
                                   "2 2 2 - - 3 3", "4 0 1 - - 5 1"})
        marks.add(parse_line(paper, line));
    CHECK(reasons(paper, marks.analysis()) == "-: candidates chose between questions, so their parts differ\n"
                                              "-: B3a and B3b counted for fewer than 5 of those compared\n");
}

TEST_CASE("a part that few of the class chose says how few, and where too few were set it nothing is said") {
    const Paper chosen = paper_with_choice();
    ClassMarks marks(chosen);
    for (int i = 0; i < 24; ++i)
        marks.add(parse_line(chosen, i < 6 ? "2 2 3 0 0 5 -" : "2 2 3 - - 5 5"));
    CHECK(readings(chosen, marks.analysis()) == "B3a (from 6 candidates): hard\n"
                                                "B3b (from 6 candidates): hard\n");

    std::vector<std::string> lines;
    for (int i = 0; i < 20; ++i)
        lines.push_back(i < 16 ? "1 not-set 0" : std::to_string(i % 2) + " 0 0");
    const auto [paper, analysis] = analysed(parts_of({2, 3, 4}), lines);
    CHECK(readings(paper, analysis) ==
          "3: hard\n"
          "All this comes from 16 candidates, which is few: another class could well say\n"
          "  otherwise.\n"
          "Too few candidates to say what the figures of 2 mean: at least 5 are needed.\n");
}

TEST_CASE("no reason is given if every figure is there") {
    CHECK(reasons_of({5, 5, 5}, {"1 0 1", "2 2 0", "0 0 5", "5 5 4", "3 2 2"}).empty());
}

TEST_CASE("a figure that rounds to 0 has no sign") {
    // r is -1/700 of the way.
    std::vector<std::string> lines(1000, "1 1 1");
    for (std::size_t i = 0; i < 3; ++i)
        lines[i] = i == 0 ? "0 1 1" : "1 0 1";
    const auto [paper, analysis] = analysed(parts_of({1, 1, 1}), lines);
    REQUIRE(analysis.parts[0].rest_correlation.value() < 0);
    REQUIRE(analysis.parts[0].rest_correlation.value() > -0.005);
    CHECK(text_of(parts_table(paper, analysis)).find("-0.00") == std::string::npos);
}

TEST_CASE("no line is wider than 80 columns, whatever the labels and topics") {
    std::vector<Part> parts;
    std::string low;
    std::string high;
    for (int i = 100; i < 140; ++i) {
        parts.push_back({"A" + std::to_string(i) + "xviiixviiixx", Marks(500), std::string(200, 't'), ""});
        low += low.empty() ? "-" : " -";
        high += high.empty() ? "0+500" : " 0+500";
    }
    const auto [paper, analysis] = analysed(parts, {low, high, low, high, low, high, low, high, low, high});
    std::string all = text_of(parts_table(paper, analysis)) + text_of(paper_table(analysis)) + parts_key() +
                      readings(paper, analysis) + ran_out_lines(paper, analysis);
    const auto flat = analysed(parts, {low, low, low, low, low});
    all += reasons(flat.paper, flat.analysis) + readings(flat.paper, flat.analysis) +
           text_of(parts_table(flat.paper, flat.analysis));
    CHECK(readings(paper, analysis).find("ttt..): ") != std::string::npos);
    for (const std::string& line : lines_of(all)) {
        CAPTURE(line);
        CHECK(columns(line) <= Table::full_width);
    }
}

TEST_CASE("a topic is shown as a terminal may safely show it") {
    // Paper refuses control characters, but not those that change the direction of writing.
    const auto [paper, analysis] =
        analysed({{"1", Marks(5), "surds \xE2\x80\xAE", ""}}, {"0", "0", "0", "0", "1"});
    CHECK(readings(paper, analysis).find("1 (surds \\u202e): ") == 0);
}

TEST_CASE("a page's table of the whole paper has its facility, and no row for a missing figure") {
    const HtmlTable table =
        paper_page_table(analysed(parts_of({3, 1}), {"3 1", "1 0", "2 0", "3 1", "0 0"}).analysis);
    CHECK(table.caption == "Unaided marks for the whole paper, out of 4");
    CHECK(table.rows == std::vector<std::vector<std::string>>{{"candidates", "5"},
                                                              {"mean", "2.20"},
                                                              {"facility", "55%"},
                                                              {"standard deviation", "1.79"},
                                                              {"lower quartile", "1.00"},
                                                              {"median", "2.00"},
                                                              {"upper quartile", "4.00"},
                                                              {"alpha", "0.75"},
                                                              {"standard error of measurement", "0.89"}});
    const HtmlTable alone = paper_page_table(analysed(parts_of({3, 1}), {"3 1"}).analysis);
    CHECK(alone.rows[2] == std::vector<std::string>{"facility", "100%"});
    CHECK(alone.rows.back().front() == "upper quartile");
    const HtmlTable nobody = paper_page_table(analysed(parts_of({3, 1}), {}).analysis);
    CHECK(nobody.rows == std::vector<std::vector<std::string>>{{"candidates", "0"}});
}

TEST_CASE("a page says why there is no alpha or no standard error, and nothing if there is one") {
    const auto why = [](const std::vector<std::string>& lines) {
        return why_no_error(analysed(parts_of({3, 1}), lines).analysis);
    };
    CHECK(why({"3 1", "1 0", "2 0", "3 1", "0 0"}).empty());
    CHECK(why({"2 1", "3 0", "2 1", "3 0", "3 0"}) ==
          "No alpha, and so no standard error: every candidate has the same total.");
    CHECK(why({"3 1", "1 0"}) == "No alpha, and so no standard error: at least 5 candidates are needed.");
    CHECK(
        why({"0 1", "1 0", "2 0", "2 1", "3 0"}) ==
        "No standard error, as alpha is below 0: who did well in one question did no better in the others.");
}
