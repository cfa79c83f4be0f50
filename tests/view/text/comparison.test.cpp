#include "view/text/comparison.hpp"

#include "catch.hpp"
#include "papers.hpp"
#include "view/text/lines.hpp"
#include "view/text/text.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Side side_of(const Paper& paper, const std::string& code, const std::vector<std::string>& lines) {
    Side side{std::make_shared<const Paper>(paper), {}};
    for (const std::string& line : lines)
        side.sittings.push_back(
            {code + std::to_string(side.sittings.size()), monday, parse_line(paper, line)});
    return side;
}

Paper six_parts() {
    std::vector<Part> parts = parts_of({4, 5, 10, 2, 2, 2});
    parts[0].topic = "surds";
    return Paper({"made-up", "", "", {}, RetryBy::question}, parts);
}

/// Each line is of two candidates.
Side twice(const Paper& paper, const std::string& code, std::vector<std::string> lines) {
    const std::vector<std::string> once = lines;
    lines.insert(lines.end(), once.begin(), once.end());
    return side_of(paper, code, lines);
}

Comparison example() {
    return compare(twice(six_parts(), "A", {"4 5 2 1 0 1", "3 5 4 0 1 1", "4 5 6 1 1 0"}),
                   twice(six_parts(), "B", {"1 5 5 0 1 0", "0 5 4 1 0 1", "1 5 6 1 1 1", "2 5 5 0 0 1"}));
}

const SideNames names{"tuesday", "friday"};

} // namespace

TEST_CASE("the totals of both sides stand beside each other, with the difference and its interval") {
    CHECK(text_of(totals_table(example(), names)) ==
          "totals out of 25    tuesday  friday  difference  95% interval\n"
          "candidates                6       8\n"
          "mean                  14.67   12.75       +1.92  -0.19 to +4.02\n"
          "standard deviation     1.86    1.58\n");
}

TEST_CASE("the five parts that differ most have a row, with points between the facilities") {
    CHECK(text_of(differing_parts_table(example(), names)) ==
          "part  topic  max  tuesday  friday  points  95% interval  chance\n"
          "1     surds    4      92%     25%     +67  +48 to +85    beyond\n"
          "3             10      40%     50%     -10  -29 to +9     within\n"
          "4              2      33%     25%      +8  -23 to +39    within\n"
          "5              2      33%     25%      +8  -23 to +39    within\n"
          "6              2      33%     38%      -4  -34 to +25    within\n");
}

TEST_CASE("the findings say whether totals differ, and which parts do beyond chance") {
    CHECK(comparison_findings(example(), names) ==
          "Totals: no difference beyond chance.\n"
          "Parts beyond chance, allowing for the 5 parts looked at: tuesday is higher in\n"
          "  1.\n");
    const Comparison clear = compare(twice(six_parts(), "A", {"4 5 9 2 2 2", "4 5 10 2 2 2", "3 5 9 2 1 1"}),
                                     twice(six_parts(), "B", {"0 5 1 0 0 0", "0 5 2 0 0 0", "1 5 1 0 1 0"}));
    CHECK(comparison_findings(clear, names) ==
          "Totals: tuesday is higher by 16.3 of 25 marks on average, more than chance\n"
          "  easily makes.\n"
          "Parts beyond chance, allowing for the 4 parts looked at: tuesday is higher in\n"
          "  6, 1, 3 and 5.\n");
    const Comparison alone =
        compare(side_of(six_parts(), "A", {"4 5 9 2 2 2"}), side_of(six_parts(), "B", {"0 5 1 0 0 0"}));
    CHECK(comparison_findings(alone, names) ==
          "Nothing can be said of the totals: each side needs five candidates who were\n"
          "  set the same parts, and totals that vary.\n"
          "Nothing can be said of the parts: each side needs five candidates, and marks\n"
          "  that vary.\n");
    CHECK(text_of(differing_parts_table(alone, names)).find(" -  ") != std::string::npos);
}

TEST_CASE("notes say how to read it and what was left out") {
    const std::string usual = comparison_notes(example());
    CHECK(usual.find("Welch's 95%") != std::string::npos);
    CHECK(usual.find("-: a side has fewer than five candidates") != std::string::npos); // part 2
    Comparison found = example();
    found.on_both = 1;
    found.without_total = 2;
    found.unlike = {"7", "8"};
    const std::string all = comparison_notes(found);
    CHECK(all.find("1 candidate is on both sides") != std::string::npos);
    CHECK(all.find("2 candidates were not set all of it") != std::string::npos);
    CHECK(all.find("left out: 7, 8.") != std::string::npos);
    for (const std::string& line : lines_of(all))
        CHECK(columns(line) <= Table::full_width);
}
