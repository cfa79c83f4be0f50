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

Comparison example() {
    return compare(side_of(six_parts(), "A", {"4 5 2 1 0 1", "3 5 4 0 1 1", "4 5 6 1 1 0"}),
                   side_of(six_parts(), "B", {"1 5 5 0 1 0", "0 5 4 1 0 1", "1 5 6 1 1 1", "2 5 5 0 0 1"}));
}

const SideNames names{"tuesday", "friday"};

} // namespace

TEST_CASE("the totals of both sides stand beside each other, with the difference and its interval") {
    CHECK(text_of(totals_table(example(), names)) ==
          "totals out of 25    tuesday  friday  difference  95% interval\n"
          "candidates                3       4\n"
          "mean                  14.67   12.75       +1.92  -2.23 to +6.06\n"
          "standard deviation     2.08    1.71\n");
}

TEST_CASE("the five parts that differ most have a row, with points between the facilities") {
    CHECK(text_of(differing_parts_table(example(), names)) ==
          "part  topic  max  tuesday  friday  points  95% interval  chance\n"
          "1     surds    4      92%     25%     +67  +33 to +100   beyond\n"
          "3             10      40%     50%     -10  -54 to +34    within\n"
          "4              2      33%     25%      +8  -50 to +67    within\n"
          "5              2      33%     25%      +8  -50 to +67    within\n"
          "6              2      33%     38%      -4  -62 to +53    within\n");
}

TEST_CASE("the findings say whether totals differ, and which parts do beyond chance") {
    CHECK(comparison_findings(example(), names) ==
          "Totals: no difference beyond chance.\n"
          "Parts beyond chance, allowing for the 5 parts looked at: tuesday is higher in\n"
          "  1.\n");
    const Comparison clear = compare(side_of(six_parts(), "A", {"4 5 9 2 2 2", "4 5 10 2 2 2"}),
                                     side_of(six_parts(), "B", {"0 5 1 0 0 0", "0 5 2 0 0 0"}));
    CHECK(comparison_findings(clear, names) ==
          "Totals: tuesday is higher by 18.0 of 25 marks on average, more than chance\n"
          "  easily makes.\n"
          "Parts beyond chance, allowing for the 1 part looked at: tuesday is higher in\n"
          "  3.\n");
    const Comparison alone =
        compare(side_of(six_parts(), "A", {"4 5 9 2 2 2"}), side_of(six_parts(), "B", {"0 5 1 0 0 0"}));
    CHECK(comparison_findings(alone, names) ==
          "Nothing can be said of the totals: each side needs two candidates who were set\n"
          "  the same parts, and totals that vary.\n"
          "No part could be compared.\n");
    CHECK(text_of(differing_parts_table(alone, names)).find(" -  ") != std::string::npos);
}

TEST_CASE("notes say how to read it and what was left out") {
    const std::string usual = comparison_notes(example());
    CHECK(usual.find("Welch's 95%") != std::string::npos);
    CHECK(usual.find("-: a side has fewer than two candidates") != std::string::npos); // part 2
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
