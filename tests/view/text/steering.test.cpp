#include "view/text/steering.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "papers.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;

namespace {

Choice wanted(const ChoiceCost& cost) {
    return {ChoiceKind::on, WorkKind::retry, "pure", "12q7", day(3), {}, day(3), false, cost};
}

} // namespace

TEST_CASE("a choice that changes nothing costs nothing") {
    CHECK(choices_text({}).empty());
    CHECK(choices_text({wanted({})}) ==
          "12q7 on Thu 5 Nov 2026, as you asked: no other work loses its day or its\n  window by it.\n");
}

TEST_CASE("what a choice costs is told difference by difference, shares rounded up") {
    ChoiceCost cost;
    cost.outside = Seconds(720);
    cost.fullest_share = 0.841;
    cost.fullest_share_without = 0.7;
    CHECK(choices_text({wanted(cost)}) ==
          "12q7 on Thu 5 Nov 2026, as you asked: 12:00 more outside its window; the\n"
          "  fullest day is 85% instead of 70%.\n");
    cost = {};
    cost.fullest_share = 0.701;
    cost.fullest_share_without = 0.71;
    CHECK(choices_text({wanted(cost)}) ==
          "12q7 on Thu 5 Nov 2026, as you asked: no other work loses its day or its\n  window by it.\n");
}

TEST_CASE("a day asked for that has no room says where the work went instead") {
    Choice choice = wanted({});
    choice.placed_on = day(4);
    CHECK(choices_text({choice}) ==
          "12q7 was asked for on Thu 5 Nov 2026, which has no room; it is on Fri 6 Nov\n  2026.\n");
    choice.placed_on.reset();
    CHECK(choices_text({choice}) ==
          "12q7 was asked for on Thu 5 Nov 2026, which has no room; it has no day.\n");
}

TEST_CASE("what was dropped or asked for again says when, and those not weighed are counted") {
    ChoiceCost less;
    less.work = Seconds(-3600);
    less.without_day = Seconds(-60);
    Choice dropped{ChoiceKind::let_go, WorkKind::sit, "pure", "pure-3", day(1), "seen\x1b"};
    const Choice not_weighed = dropped;
    dropped.cost = less;
    Choice topic = dropped;
    topic.work = WorkKind::relearn;
    topic.what = "vectors";
    Choice again{ChoiceKind::again, WorkKind::retry, "pure", "12q7t2", day(1), {}, day(15)};
    again.cost = ChoiceCost{};
    CHECK(choices_text({again, dropped, topic, not_weighed, not_weighed}) ==
          "12q7t2 once more, as you asked on Tue 3 Nov 2026: no other work loses its day\n"
          "  or its window by it.\n"
          "paper pure-3 dropped on Tue 3 Nov 2026 (seen\\x1b): 1:00:00 less to do; 1:00\n"
          "  less without a day.\n"
          "topic vectors dropped on Tue 3 Nov 2026 (seen\\x1b): 1:00:00 less to do; 1:00\n"
          "  less without a day.\n"
          "And 2 more that you decided; what those cost isn't worked out here.\n");
}

TEST_CASE("what was let go is told beside its sitting while it would be open") {
    Candidate candidate;
    candidate.sittings.push_back(sat(12, paper_of("p1", {5, 4}), 0, "3 4"));
    candidate.steered_retries.push_back({SittingId{12}, "1", {std::nullopt, LetGo{day(1), "not set"}}});
    candidate.steered_retries.push_back({SittingId{12}, "2", {std::nullopt, LetGo{day(1), "not set"}}});
    CHECK(let_go_text(candidate, candidate.sittings[0]) == "Dropped: 12q1 on Tue 3 Nov 2026: not set.\n");
    CHECK(worth_text(retries_to_place(candidate, day(1))).empty());
    candidate.steered_retries.clear();
    CHECK(worth_text(retries_to_place(candidate, day(1))) == "12q1 (2 of 5 missed)");
}
