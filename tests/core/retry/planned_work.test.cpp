#include "inkturn/retry/planned_work.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"

#include <string>

using namespace inkturn;
using namespace inkturn::test;

TEST_CASE("a topic that was relearned has a name of 200 characters at most, and an accepted day") {
    CHECK_NOTHROW(check_relearned({"pure", "vectors", day(0)}));
    CHECK_NOTHROW(check_relearned({"", std::string(200, 'v'), day(0)}));
    CHECK_THROWS_AS(check_relearned({"pure", "", day(0)}), Error);
    CHECK_THROWS_AS(check_relearned({"pure", std::string(201, 'v'), day(0)}), Error);
    CHECK_THROWS_AS(check_relearned({"pure", "vectors", latest_day + Days{1}}), Error);
}

TEST_CASE("planned work has a duration, a number that isn't below 0 and an accepted day") {
    const PlannedWork work{WorkPurpose::relearn, "pure", "vectors", 1, day(0), Seconds(1)};
    CHECK_NOTHROW(check_planned(work));
    const auto refused = [&](auto change) {
        PlannedWork changed = work;
        change(changed);
        CHECK_THROWS_AS(check_planned(changed), Error);
    };
    refused([](PlannedWork& one) { one.duration = Seconds(0); });
    refused([](PlannedWork& one) { one.number = -1; });
    refused([](PlannedWork& one) { one.day = latest_day + Days{1}; });
    refused([](PlannedWork& one) { one.name = "vec\ntors"; });
    refused([](PlannedWork& one) { one.subject = std::string(201, 's'); });
}

TEST_CASE("wishes hold up to 300% of marking and 365 papers of a subject") {
    PlanWishes wishes;
    wishes.marking_percent = 300;
    wishes.papers["pure"] = {365, day(0)};
    CHECK_NOTHROW(check_wishes(wishes));
    PlanWishes other = wishes;
    other.marking_percent = 301;
    CHECK_THROWS_AS(check_wishes(other), Error);
    other.marking_percent = -1;
    CHECK_THROWS_AS(check_wishes(other), Error);
    other = wishes;
    other.papers["pure"].count = 366;
    CHECK_THROWS_AS(check_wishes(other), Error);
    other.papers["pure"].count = -1;
    CHECK_THROWS_AS(check_wishes(other), Error);
}

TEST_CASE("the time with marking is rounded up to a second") {
    CHECK(time_with_marking(Seconds(1), {}) == Seconds(2));
    CHECK(time_with_marking(Seconds(5400), {}) == Seconds(8100));
}
