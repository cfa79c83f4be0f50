#include "inkturn/plan/place.hpp"

#include "catch.hpp"
#include "core/plan/exhaustive.hpp"
#include "days.hpp"
#include "dice.hpp"

#include <algorithm>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

Seconds minutes(int count) {
    return std::chrono::minutes(count);
}

/// Few days, of which some are off and one may be an exam's.
TimeAhead few_days(std::mt19937& dice) {
    TimeAhead time{day(0), {}};
    for (int i = pick(dice, 4, 7); i > 0; --i)
        time.days.push_back({pick(dice, 0, 3) == 0 ? Seconds(0) : minutes(10 * pick(dice, 2, 6)), {}, false});
    if (pick(dice, 0, 3) == 0)
        time.days[static_cast<std::size_t>(pick(dice, 1, 3))].exam = true;
    if (pick(dice, 0, 3) == 0)
        time.days[0].done = std::min(time.days[0].available, minutes(10));
    return time;
}

WorkPiece retry(std::mt19937& dice, int days) {
    const int opens = pick(dice, 0, days - 1);
    const int closes = std::min(days - 1, opens + pick(dice, 0, 2));
    WorkPiece piece{minutes(5 * pick(dice, 1, 6)), {{day(opens), day(closes)}}};
    if (closes < days - 1)
        piece.spans.push_back({day(closes + 1), day(days - 1)});
    return piece;
}

WorkPiece late(std::mt19937& dice, int days, int number) {
    WorkPiece piece{minutes(5 * pick(dice, 1, 6)), {{day(0), day(days - 1)}}};
    piece.late = Lateness{day(-pick(dice, 1, 2)), day(-20), number};
    return piece;
}

WorkPiece paper(std::mt19937& dice, int days) {
    const int opens = pick(dice, 0, days - 2);
    const int useful = pick(dice, 1, days - 1);
    WorkPiece piece{minutes(10 * pick(dice, 2, 5)), {{day(0), day(useful)}}};
    if (useful < days - 1)
        piece.spans.push_back({day(useful + 1), day(days - 1)});
    piece.paper = true;
    piece.near = DaySpan{day(opens), day(opens + 1)};
    if (pick(dice, 0, 1) == 0)
        piece.expected = {{minutes(5 * pick(dice, 1, 3))}, day(days)};
    return piece;
}

/// At most five pieces with days to choose, of all kinds.
std::vector<WorkPiece> few_pieces(std::mt19937& dice, int days) {
    std::vector<WorkPiece> pieces;
    const int papers = pick(dice, 0, 2);
    for (int i = 0; i < papers; ++i) {
        pieces.push_back(paper(dice, days));
        if (i > 0)
            pieces.back().after = {pieces.size() - 2};
    }
    if (pick(dice, 0, 2) == 0) { // two halves of an hour, and a retry that comes after it
        WorkPiece half{minutes(15), {{day(0), day(pick(dice, 1, days - 1))}}};
        pieces.push_back(half);
        half.half_of = pieces.size() - 1;
        pieces.push_back(half);
        pieces.push_back(retry(dice, days));
        pieces.back().after = {pieces.size() - 3, pieces.size() - 2};
    }
    while (pieces.size() < 4)
        pieces.push_back(pick(dice, 0, 2) == 0 ? late(dice, days, static_cast<int>(pieces.size()))
                                               : retry(dice, days));
    return pieces;
}

void check_it_holds(const TimeAhead& time, const std::vector<WorkPiece>& pieces, const WorkPlan& plan) {
    std::vector<Seconds> loads;
    for (const DayTime& one : time.days)
        loads.push_back(one.done);
    std::vector<Day> papers;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (!plan.days[i])
            continue;
        loads[static_cast<std::size_t>((*plan.days[i] - time.today).count())] += pieces[i].work;
        CHECK(std::count(pieces[i].never_on.begin(), pieces[i].never_on.end(), *plan.days[i]) == 0);
        if (pieces[i].paper)
            papers.push_back(*plan.days[i]);
    }
    for (const Reserved& room : plan.reserved)
        if (room.day)
            loads[static_cast<std::size_t>((*room.day - time.today).count())] += room.work;
    for (std::size_t t = 0; t < loads.size(); ++t)
        CHECK(loads[t] <= std::max(time.days[t].available, time.days[t].done));
    std::sort(papers.begin(), papers.end());
    CHECK(std::adjacent_find(papers.begin(), papers.end()) == papers.end());
    CHECK(plan.evenness_bound <= plan.weight.evenness + 1e-6);
    CHECK(plan.fullest_share_bound <= plan.weight.fullest_share + 1e-9);
}

} // namespace

TEST_CASE("small plans of all kinds of work are the best there are, by every rule in its order") {
    std::mt19937 dice(14);
    int short_of_time = 0;
    int outside = 0;
    for (int round = 0; round < 400; ++round) {
        CAPTURE(round);
        const TimeAhead time = few_days(dice);
        const auto pieces = few_pieces(dice, static_cast<int>(time.days.size()));
        const WorkPlan plan = place_work(time, pieces);
        check_it_holds(time, pieces, plan);
        const Exhaustive all(time, pieces);
        const PlanWeight& best = all.best().weight;
        CHECK(plan.weight.without_day == best.without_day);
        CHECK(plan.weight.on_exam_days == best.on_exam_days);
        CHECK(plan.weight.outside == best.outside);
        CHECK(plan.weight.away == best.away);
        for (std::size_t i = 0; i < pieces.size(); ++i)
            if (pieces[i].late)
                CHECK(plan.days[i] == all.best().days[i]);
        CHECK(plan.weight.out_of_order == best.out_of_order);
        CHECK(plan.weight.unreserved == best.unreserved);
        CHECK(plan.weight.reserved_outside == best.reserved_outside);
        CHECK(plan.weight.off_near == best.off_near);
        CHECK_THAT(plan.weight.evenness, WithinAbs(best.evenness, 1e-3));
        CHECK(plan.weight.day_sum == best.day_sum);
        CHECK((plan.fit == PlanFit::fits) ==
              (best.without_day == Seconds(0) && best.unreserved == Seconds(0)));
        CHECK(plan.short_by >= plan.weight.without_day);
        short_of_time += plan.weight.without_day > Seconds(0) ? 1 : 0;
        outside += plan.weight.outside > Seconds(0) ? 1 : 0;
    }
    CHECK(short_of_time > 40);
    CHECK(outside > 40);
}
