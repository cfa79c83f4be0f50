#include "inkturn/statistics/class_figures.hpp"

#include "catch.hpp"
#include "papers.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

/// A paper of parts 1 of 5 and 2 of 10 marks, and candidates with these marks.
Side side_of(const std::vector<std::string>& lines) {
    Side side{paper_of("p", {5, 10}), {}};
    for (const std::string& line : lines)
        side.sittings.push_back(
            {"K" + std::to_string(side.sittings.size()), day(0), parse_line(*side.paper, line)});
    return side;
}

} // namespace

TEST_CASE("a part's figures are how many it counted for, and the marks of all of them together") {
    const auto figures = part_figures(side_of({"3+1+1 7", "- 5+2", "5 10", "0 not-set", "2 0+1", "1 1"}));
    REQUIRE(figures.size() == 2);
    CHECK(figures[0] == PartFigures{"1", Marks(5), 6, Marks(11), Marks(12)});
    CHECK(figures[1] == PartFigures{"2", Marks(10), 5, Marks(23), Marks(26)});
    CHECK_THAT(figures[0].facility(), WithinAbs(0.4, 1e-12));
}

TEST_CASE("figures of a part that fewer than five did are left out, as they would give marks away") {
    CHECK(part_figures(side_of({"1 1", "2 2", "3 3", "4 4"})).empty());
    const auto figures = part_figures(side_of({"1 1", "2 2", "3 3", "4 4", "5 not-set"}));
    REQUIRE(figures.size() == 1);
    CHECK(figures[0].part == "1");
}

TEST_CASE("a class is held against a closed one as if that had varied as much as it can") {
    const Side side = side_of({"5 1", "5 2", "4 1", "5 0", "5 1", "5 2"});
    const ClosedClassFigures closed{
        "tuesday", day(0), "p", {{"1", Marks(5), 10, Marks(10), Marks(10)}, {"3", Marks(2), 10, {}, {}}}};
    const Comparison found = compare(side, closed, *side.paper);
    REQUIRE(found.parts.size() == 1);
    CHECK(found.closed);
    CHECK(found.parts[0].label == "1");
    CHECK_THAT(found.parts[0].b.mean, WithinAbs(0.2, 1e-12));
    // As of candidates of whom two have all and eight nothing.
    std::vector<double> shares(10, 0);
    shares[0] = shares[1] = 1;
    CHECK_THAT(found.parts[0].b.variance, WithinAbs(sample_of(shares).variance, 1e-12));
    CHECK(found.parts[0].is_beyond_chance());
    CHECK(found.unlike == std::vector<std::string>{"2", "3"});
}

TEST_CASE("figures that no candidates could have are refused") {
    const auto refused = [](const PartFigures& part) {
        return refusal_of([&] { check_figures({"tuesday", day(0), "p", {part}}); });
    };
    CHECK(refused({"1", Marks(5), 5, Marks(20), Marks(25)}).empty());
    CHECK_THAT(refused({"1", Marks(5), 5, Marks(20), Marks(26)}), Contains("can't be"));
    CHECK_THAT(refused({"1", Marks(5), 5, Marks(21), Marks(20)}), Contains("can't be"));
    CHECK_THAT(refused({"1", Marks(5), 4, Marks(2), Marks(2)}), Contains("can't be"));
    CHECK_THAT(refused({"1", Marks(0), 5, Marks(0), Marks(0)}), Contains("can't be"));
    CHECK_THAT(refusal_of([] { check_figures({"tuesday", day(0), "p", {}}); }), Contains("have no part"));
    const PartFigures part{"1", Marks(5), 5, Marks(20), Marks(25)};
    CHECK_THAT(refusal_of([&] {
                   check_figures({"tuesday", day(0), "p", {part, part}});
               }),
               Contains("can't be"));
}
