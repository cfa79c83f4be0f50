#include "core/plan/exact.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"

#include <algorithm>
#include <chrono>
#include <numeric>
#include <optional>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::board;
using inkturn::test::day;
using inkturn::test::pick;

Seconds minutes(int count) {
    return std::chrono::minutes(count);
}

TimeAhead some_days(std::mt19937& dice) {
    TimeAhead time{day(0), {}};
    for (int i = pick(dice, 3, 6); i > 0; --i)
        time.days.push_back({minutes(10 * pick(dice, 1, 6)), Seconds(0), pick(dice, 0, 6) == 0});
    return time;
}

WorkPiece some_piece(std::mt19937& dice, int days) {
    const int opens = pick(dice, 0, days - 1);
    const int closes = std::min(days - 1, opens + pick(dice, 0, 3));
    WorkPiece piece{minutes(5 * pick(dice, 1, 6)), {{day(opens), day(closes)}}};
    if (closes < days - 1)
        piece.spans.push_back({day(closes + 1), day(days - 1)});
    if (opens > 0 && pick(dice, 0, 1) == 0)
        piece.spans.push_back({day(0), day(opens - 1)});
    if (pick(dice, 0, 3) == 0)
        piece.near = DaySpan{day(opens), day(opens)};
    piece.paper = pick(dice, 0, 4) == 0;
    return piece;
}

std::vector<WorkPiece> some_pieces(std::mt19937& dice, int days) {
    std::vector<WorkPiece> pieces;
    for (int i = pick(dice, 1, 6); i > 0; --i)
        pieces.push_back(some_piece(dice, days));
    if (pieces.size() > 2 && pick(dice, 0, 1) == 0)
        pieces[1].after = {0};
    if (pieces.size() > 3 && pick(dice, 0, 1) == 0)
        pieces[3].half_of = 2;
    return pieces;
}

std::vector<MaybeDay> any_days(std::mt19937& dice, Board board) {
    std::vector<MaybeDay> days(board.size());
    for (Index i = 0; i < board.size(); ++i)
        for (int tries = 3; tries > 0 && !days[i]; --tries)
            if (const auto t = static_cast<Index>(pick(dice, 0, static_cast<int>(board.days()) - 1));
                board.fits(i, t)) {
                days[i] = t;
                board.put(i, t);
            }
    return days;
}

Price price_of(Board board, const std::vector<MaybeDay>& days) {
    Price price;
    const Amount before = board.uneven();
    for (Index i = 0; i < board.size(); ++i) {
        const MaybeDay t = days[i];
        price.fare = price.fare + board.fare(i, t);
        price.turns += static_cast<Amount>(t.value_or(board.days())) * static_cast<Amount>(board.size() - i);
        if (!t)
            continue;
        price.broken += board.broken(i, *t);
        price.off_near += board.off_near(i, *t);
        price.days += *t;
        board.put(i, *t);
    }
    price.uneven = board.uneven() - before;
    return price;
}

TEST_CASE("a search for better days than those known finds the best of all, or none where none are better") {
    std::mt19937 dice(20261130);
    int better = 0;
    int none = 0;
    for (int round = 0; round < 3000; ++round) {
        const TimeAhead time = some_days(dice);
        const std::vector<WorkPiece> pieces = some_pieces(dice, static_cast<int>(time.days.size()));
        const Board board(time, pieces);
        std::vector<Index> items(pieces.size());
        std::iota(items.begin(), items.end(), Index{0});
        const Best<Price> best = *place_exactly(board, items);
        const Best<Fare> cheapest = *place_at_least_fare(board, items);
        CAPTURE(round);
        REQUIRE(best.cost.fare == cheapest.cost);
        const Price price = price_of(board, best.days);
        REQUIRE(!(price < best.cost));
        REQUIRE(!(best.cost < price));
        REQUIRE(!place_exactly(board, items, best.cost));
        REQUIRE(!place_at_least_fare(board, items, cheapest.cost));

        const Price known = price_of(board, any_days(dice, board));
        REQUIRE(!(known < best.cost));
        const auto found = place_exactly(board, items, known);
        REQUIRE(found.has_value() == (best.cost < known));
        if (found)
            REQUIRE(found->days == best.days);
        const auto found_by_fare = place_at_least_fare(board, items, known.fare);
        REQUIRE(found_by_fare.has_value() == (cheapest.cost < known.fare));
        if (found_by_fare)
            REQUIRE(found_by_fare->days == cheapest.days);
        ++(found ? better : none);
    }
    REQUIRE(better > 1000);
    REQUIRE(none > 100);
}

TEST_CASE("nothing to place costs nothing") {
    const TimeAhead time{day(0), {{minutes(30), Seconds(0), false}}};
    const Board board(time, {});
    REQUIRE(place_exactly(board, {})->days.empty());
    REQUIRE(!place_exactly(board, {}, Price()));
    REQUIRE(place_at_least_fare(board, {})->cost.is_free());
}

} // namespace
