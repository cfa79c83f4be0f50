#include "inkturn/statistics/diagnosis.hpp"

#include "catch.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

/// Parts of three marks, so many of them in full and the others without a mark.
void check_unaided_interval(int full, int parts, double low, double high) {
    std::vector<Part> list;
    std::vector<PartMarks> marks;
    for (int i = 0; i < parts; ++i) {
        list.push_back({std::to_string(i + 1), Marks(3), "x", ""});
        marks.push_back(full_marks(Marks(i < full ? 3 : 0)));
    }
    const auto paper = std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question}, list);
    const auto topics = diagnose({{PaperMarks{paper, marks, {}}}});
    REQUIRE(topics.size() == 1);
    CAPTURE(full, parts);
    CHECK_THAT(topics[0].unaided_interval.low, WithinAbs(low, 5e-7));
    CHECK_THAT(topics[0].unaided_interval.high, WithinAbs(high, 5e-7));
}

} // namespace

TEST_CASE(
    "statsmodels 0.13.5, computed: Jeffreys' 95% intervals of 0 of 20, 5 of 10 and 10 of 10 are those of "
    "a topic's own share, equal parts counting one each whatever their marks",
    "[reference]") {
    check_unaided_interval(0, 20, .000024, .116639);
    check_unaided_interval(5, 10, .223529, .776471);
    check_unaided_interval(10, 10, .782804, .999952);
}
