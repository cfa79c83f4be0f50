#include "core/plan/fitter.hpp"

#include "catch.hpp"
#include "days.hpp"

#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Seconds hour{3600};

} // namespace

TEST_CASE("what was tried in vain leaves a day's items in their order") {
    const TimeAhead time{day(0), {{hour, {}, false}, {hour, {}, false}}};
    std::vector<WorkPiece> pieces;
    for (const int minutes : {25, 15, 20})
        pieces.push_back({std::chrono::minutes{minutes}, {{day(0), day(0)}}});
    pieces.push_back({std::chrono::minutes{50}, {{day(1), day(1)}}});
    pieces.push_back({std::chrono::minutes{30}, {{day(0), day(1)}}});
    board::Board board(time, pieces);
    for (const board::Index i : {0U, 1U, 2U})
        board.put(i, 0);
    board.put(3, 1);
    const std::vector<board::Index> before = board.day(0).items;
    const board::Amount uneven = board.uneven();

    board::Fitter fitter(board);
    CHECK_FALSE(fitter.force(4, 0)); // one of the three would lose its day
    CHECK(board.day(0).items == before);
    CHECK(board.day(1).items == std::vector<board::Index>{3});
    CHECK_FALSE(board.day_of(4));
    CHECK(board.uneven() == uneven);
}
