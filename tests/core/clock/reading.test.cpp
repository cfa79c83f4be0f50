#include "inkturn/clock/reading.hpp"

#include "catch.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/clock/clocks_in_step.hpp"

#include <algorithm>

using namespace inkturn;

namespace {

const Moment nine = Day(date::year{2026} / 11 / 25) + std::chrono::hours{9};

/// Shown this long after nine o'clock by each clock.
ClockReading shown(Seconds wall, Seconds steady, std::uint32_t run = 7) {
    return {nine + wall, Seconds(5000) + steady, run};
}

} // namespace

TEST_CASE("a clock goes by the wall clock while it agrees with the steady one to two seconds") {
    for (const int off : {-2, -1, 0, 1, 2}) {
        const TimeNow now = time_now(nine, shown({}, {}), shown(Seconds(600 + off), Seconds(600)));
        CHECK(now.at == nine + Seconds(600 + off));
        CHECK_FALSE(now.doubt);
    }
    CHECK(time_now(nine, shown({}, {}), shown(Seconds(-1), Seconds(0))).at == nine);
}

TEST_CASE("a wall clock that jumped by more than two seconds is in doubt") {
    for (const int off : {-3, 3, -1200, 1200, -86400 * 400}) {
        const TimeNow now = time_now(nine, shown({}, {}), shown(Seconds(600 + off), Seconds(600)));
        CHECK(now.at == nine + Seconds(600));
        REQUIRE(now.doubt);
        CHECK(now.doubt->jump == Seconds(off));
        CHECK(now.doubt->by_steady == nine + Seconds(600));
        CHECK(now.doubt->by_wall == nine + Seconds(std::max(0, 600 + off)));
    }
}

TEST_CASE("time that both clocks counted, as while the computer slept, is in no doubt") {
    const TimeNow now = time_now(nine, shown({}, {}), shown(Seconds(7200), Seconds(7200)));
    CHECK(now.at == nine + Seconds(7200));
    CHECK_FALSE(now.doubt);
}

TEST_CASE("after another start of the computer only a wall clock that shows less than before is in doubt") {
    for (const std::optional<ClockReading>& then :
         {std::optional(shown({}, {}, 6)), std::optional<ClockReading>()}) {
        CHECK(time_now(nine, then, shown(Seconds(600), Seconds(-4000))).at == nine + Seconds(600));
        CHECK_FALSE(time_now(nine, then, shown(Seconds(600), Seconds(-4000))).doubt);
        CHECK_FALSE(time_now(nine, then, shown(Seconds(-2), Seconds(-4000))).doubt);
        const TimeNow back = time_now(nine, then, shown(Seconds(-3), Seconds(-4000)));
        CHECK(back.at == nine);
        REQUIRE(back.doubt);
        CHECK(back.doubt->jump == Seconds(-3));
        CHECK_FALSE(back.doubt->by_steady);
    }
}

TEST_CASE("where starts of the computer have no name, a steady clock that shows less tells of another") {
    CHECK(is_same_start(shown({}, {}, 0), shown({}, Seconds(1), 0)));
    CHECK_FALSE(is_same_start(shown({}, {}, 0), shown({}, Seconds(-1), 0)));
    CHECK(is_same_start(shown({}, {}), shown({}, Seconds(-1))));
    CHECK_FALSE(is_same_start(shown({}, {}, 6), shown({}, {})));
    CHECK_FALSE(is_same_start(std::nullopt, shown({}, {})));
}

TEST_CASE("once it is settled which time counts, a clock goes on from there without doubt") {
    const ClockReading jumped = shown(Seconds(1800), Seconds(600));
    const auto doubt = time_now(nine, shown({}, {}), jumped).doubt;
    REQUIRE(doubt);
    for (const Moment at : {*doubt->by_steady, doubt->by_wall}) {
        const ClockReading settled = earlier(jumped, at - nine);
        const TimeNow later = time_now(nine, settled, shown(Seconds(1860), Seconds(660)));
        CHECK(later.at == at + Seconds(60));
        CHECK_FALSE(later.doubt);
    }
}

TEST_CASE("both clocks are counted in the same seconds") {
    using std::chrono::milliseconds;
    const std::chrono::nanoseconds wall = nine.time_since_epoch();
    for (const int phase : {0, 1, 300, 499, 501, 999}) // of the steady clock's seconds
        for (const int later : {0, 1, 400, 999}) {
            const ClockReading then =
                clock_reading(wall + milliseconds(later), milliseconds(5000 + phase + later), 7);
            CHECK(then.wall == nine);
            CHECK(then.steady == Seconds(phase < 500 ? 5 : 6));
            const ClockReading now =
                clock_reading(wall + milliseconds(60'000 + later), milliseconds(65'000 + phase + later), 7);
            CHECK(now.wall - then.wall == now.steady - then.steady);
        }
}
