#include "inkturn/plan/later_turns.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "dice.hpp"
#include "inkturn/plan/plan.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using MaybeDays = std::vector<std::optional<Day>>;

/// Seconds without a day, seconds outside their windows, evenness in thousandths of a second, days.
using Cost = std::tuple<Seconds, Seconds, std::int64_t, std::int64_t>;

class EveryWay {
  public:
    EveryWay(const TimeAhead& time, const std::vector<LaterRetry>& later)
        : time_(time), later_(later), days_(later.size()) {
        place(0);
    }

    const Cost& least() const { return *least_; }

    Cost cost(const MaybeDays& days) const {
        Cost cost{};
        std::vector<Seconds> loads;
        for (const DayTime& one : time_.days)
            loads.push_back(one.done);
        for (std::size_t i = 0; i < days.size(); ++i) {
            if (!days[i]) {
                std::get<0>(cost) += later_[i].work;
                continue;
            }
            std::get<1>(cost) += later_[i].spans.front().contains(*days[i]) ? Seconds(0) : later_[i].work;
            std::get<3>(cost) += (*days[i] - time_.today).count();
            loads[static_cast<std::size_t>((*days[i] - time_.today).count())] += later_[i].work;
        }
        double evenness = 0;
        for (std::size_t t = 0; t < loads.size(); ++t)
            if (time_.days[t].available > Seconds(0))
                evenness += static_cast<double>(loads[t].count()) * static_cast<double>(loads[t].count()) /
                            static_cast<double>(time_.days[t].available.count());
        std::get<2>(cost) = std::llround(1000 * evenness);
        return cost;
    }

    bool may(std::size_t i, Day on) const {
        return std::any_of(later_[i].spans.begin(), later_[i].spans.end(),
                           [on](DaySpan span) { return span.contains(on); });
    }

  private:
    void place(std::size_t i) {
        if (i == later_.size()) {
            const Cost one = cost(days_);
            least_ = least_ ? std::min(*least_, one) : one;
            return;
        }
        place(i + 1);
        for (std::size_t t = 0; t < time_.days.size(); ++t) {
            DayTime& one = time_.days[t];
            const Day on = time_.today + Days{t};
            if (one.exam || !may(i, on) || one.done + added_[t] + later_[i].work > one.available)
                continue;
            days_[i] = on;
            added_[t] += later_[i].work;
            place(i + 1);
            added_[t] -= later_[i].work;
        }
        days_[i].reset();
    }

    TimeAhead time_;
    const std::vector<LaterRetry>& later_;
    MaybeDays days_;
    std::vector<Seconds> added_ = std::vector<Seconds>(time_.days.size(), Seconds(0));
    std::optional<Cost> least_;
};

/// Late and early, some with an exam ahead, some with papers, some with a topic to relearn first.
Candidate some_candidate(std::mt19937& dice) {
    Candidate one = candidate();
    for (Seconds& time : one.availability.week)
        time = std::chrono::minutes(15 * pick(dice, 0, 3));
    for (int i = pick(dice, 1, 4); i > 0; --i)
        sit(one, paper("old-" + std::to_string(i), "pure", pick(dice, 1, 8)), day(-9 * i + pick(dice, 0, 5)),
            static_cast<std::size_t>(pick(dice, 0, 1)));
    std::sort(one.sittings.begin(), one.sittings.end(),
              [](const auto& a, const auto& b) { return a.sitting.day < b.sitting.day; });
    if (pick(dice, 0, 4) > 0)
        one.exams = {{"Pure", day(pick(dice, 3, 60)), "pure"}};
    if (pick(dice, 0, 1) == 0) // little time later
        for (int i = pick(dice, 18, 30); i < 90; ++i)
            one.availability.dates[day(i)] = Seconds(0);
    return one;
}

MaybeDays days_of(const Timetable& made) {
    MaybeDays days;
    for (const WorkItem& item : made.items)
        days.push_back(item.day);
    return days;
}

std::vector<std::tuple<Day, Seconds, int>> rooms_of(const Timetable& made) {
    std::vector<std::tuple<Day, Seconds, int>> rooms;
    for (const Reservation& room : made.reservations)
        rooms.emplace_back(room.day, room.duration, room.turn);
    return rooms;
}

} // namespace

TEST_CASE("the days of what comes back are the best there are, by trying every one") {
    std::mt19937 dice(77);
    int without = 0;
    int outside = 0;
    for (int round = 0; round < 400; ++round) {
        CAPTURE(round);
        TimeAhead time{day(0), {}};
        for (int i = pick(dice, 3, 7); i > 0; --i)
            time.days.push_back({std::chrono::minutes{10 * pick(dice, 0, 4)}, {}, pick(dice, 0, 7) == 0});
        const int days = static_cast<int>(time.days.size());
        for (DayTime& one : time.days)
            one.done = std::min(one.available, Seconds(60 * pick(dice, 0, 20)));
        std::vector<LaterRetry> later;
        for (int i = pick(dice, 1, 4); i > 0; --i) {
            const int opens = pick(dice, 0, days - 1);
            const int closes = std::min(opens + pick(dice, 0, 3), days - 1);
            later.push_back({2, std::chrono::minutes{pick(dice, 2, 15)}, {{day(opens), day(closes)}}});
            if (closes < days - 1)
                later.back().spans.push_back({day(closes + 1), day(days - 1)});
        }
        const EveryWay every(time, later);
        const MaybeDays chosen = days_for_later(time, later);
        CHECK(every.cost(chosen) == every.least());
        for (std::size_t i = 0; i < later.size(); ++i)
            CHECK((!chosen[i] || every.may(i, *chosen[i])));
        without += std::get<0>(every.least()) > Seconds(0) ? 1 : 0;
        outside += std::get<1>(every.least()) > Seconds(0) ? 1 : 0;
    }
    CHECK(without > 40);
    CHECK(outside > 40);
}

TEST_CASE("what is missed once more moves nothing, fills no day above its time, and says what has no room") {
    std::mt19937 dice(13);
    int not_found = 0;
    int fits = 0;
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        Candidate one = some_candidate(dice);
        TimetableRequest asked = request(papers(pick(dice, 0, 3), "pure"));
        const Timetable made = timetable(one, asked, day(0));
        asked.turns = TurnsReserved::first;
        const Timetable first = timetable(one, asked, day(0));
        CHECK(days_of(made) == days_of(first));
        CHECK(made.not_placed_time == first.not_placed_time);
        CHECK(made.short_by == first.short_by);

        Seconds again{0};
        for (const Reservation& room : made.reservations)
            again += room.turn > 1 ? room.duration : Seconds(0);
        CHECK(again + made.again_without_room == made.expected_again);
        CHECK(made.fit == (made.again_without_room > Seconds(0) && first.fit == PlanFit::fits
                               ? PlanFit::not_found
                               : first.fit));
        for (const PlannedDay& each : plan(made, one, {day(0), day(200)}).days) {
            CHECK((each.load() <= each.available || each.reserved == Seconds(0)));
            CHECK((!each.exam || each.reserved == Seconds(0)));
        }
        for (const Reservation& room : made.reservations)
            CHECK((one.exams.empty() || room.day < one.exams[0].day));
        CHECK(made.evenness >= first.evenness - 1e-6);
        CHECK(made.fullest_share >= first.fullest_share);
        not_found += made.fit != first.fit ? 1 : 0;
        fits += made.fit == PlanFit::fits && again > Seconds(0) ? 1 : 0;
    }
    CHECK(not_found > 5);
    CHECK(fits > 5);
}

TEST_CASE("room for what is missed once more stays where it is when the plan is made again from its days") {
    std::mt19937 dice(41);
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        Candidate one = some_candidate(dice);
        const TimetableRequest asked = request(papers(pick(dice, 0, 2), "pure"));
        const Timetable made = timetable(one, asked, day(0));
        CHECK(rooms_of(timetable(one, asked, day(0))) == rooms_of(made));
        keep(one, made);
        const Timetable later = timetable(one, asked, day(0));
        CHECK(days_of(later) == days_of(made));
        CHECK(rooms_of(later) == rooms_of(made));
    }
}
