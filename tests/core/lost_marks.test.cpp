#include "inkturn/lost_marks.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <vector>

namespace {

using namespace inkturn;

std::vector<std::vector<int>> rows(const LostMarks& lost) {
    std::vector<std::vector<int>> all;
    for (const auto& row : lost.marks) {
        all.emplace_back();
        for (const Marks marks : row)
            all.back().push_back(marks.count());
    }
    return all;
}

LostMarks example() {
    return lost_marks({{"K02", {{"vectors", Marks(3)}, {"surds", Marks(1)}}},
                       {"K01", {{"series", Marks(4)}}},
                       {"K03", {{"surds", Marks(2)}, {"series", Marks(5)}}},
                       {"K04", {}}});
}

TEST_CASE("lost marks are a row a candidate over all topics that anybody met") {
    const LostMarks lost = example();
    CHECK(lost.candidates == std::vector<std::string>{"K02", "K01", "K03", "K04"});
    CHECK(lost.topics == std::vector<std::string>{"series", "surds", "vectors"});
    CHECK(rows(lost) == std::vector<std::vector<int>>{{0, 1, 3}, {4, 0, 0}, {5, 2, 0}, {0, 0, 0}});
}

TEST_CASE("where wishes are given only what was asked for counts") {
    LostMarks lost = example();
    keep_wished(lost, {{"K02", "vectors"}, {"K03", ""}, {"K03", "surds"}, {"K09", "surds"}});
    CHECK(rows(lost) == std::vector<std::vector<int>>{{0, 0, 3}, {0, 0, 0}, {5, 2, 0}, {0, 0, 0}});
}

TEST_CASE("of nobody nothing is lost") {
    LostMarks lost = lost_marks({});
    keep_wished(lost, {});
    CHECK(lost.topics.empty());
    CHECK(lost.marks.empty());
}

} // namespace
