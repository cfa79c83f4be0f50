#include "inkturn/plan/place.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"
#include "inkturn/plan/time_ahead.hpp"

#include <algorithm>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct Missed {
    Day attempt;
    std::vector<int> marks; ///< of the questions
};

std::vector<Missed> sittings(std::mt19937& dice, int most) {
    std::vector<Missed> all;
    for (int i = pick(dice, 1, 3); i > 0; --i) {
        Missed missed{day(-pick(dice, 0, 25)), {}};
        for (int question = pick(dice, 1, most); question > 0; --question)
            missed.marks.push_back(pick(dice, 1, 15));
        all.push_back(missed);
    }
    return all;
}

/// Nothing kept, `minutes` on every day.
WorkPlan plan_before(int exam_in, const std::vector<Missed>& sittings, int minutes) {
    const Exam exam{"E", day(exam_in), "pure"};
    TimeAhead time{day(0), std::vector<DayTime>(80, DayTime{std::chrono::minutes(minutes), {}, false})};
    time.days[static_cast<std::size_t>(exam_in)].exam = true;
    std::vector<WorkPiece> pieces;
    for (const Missed& missed : sittings) {
        int number = 0;
        for (const int marks : missed.marks)
            pieces.push_back(retry_piece(Seconds(72 * marks),
                                         window_by_exams({exam}, "pure", missed.attempt, day(0)),
                                         missed.attempt, ++number, time));
    }
    return place_work(time, pieces);
}

} // namespace

// Two things may be at odds: what is most even in all may have one fuller day. Then the plan isn't worse.
TEST_CASE("no plan of one subject gets worse when its exam moves a day later") {
    std::mt19937 dice(20);
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        const auto missed = sittings(dice, round < 30 ? 3 : 10);
        const int minutes = 10 * pick(dice, 2, 6);
        PlanWeight before = plan_before(2, missed, minutes).weight;
        for (int exam = 3; exam < 50; ++exam) {
            CAPTURE(exam);
            const PlanWeight later = plan_before(exam, missed, minutes).weight;
            CHECK(later.without_day <= before.without_day);
            if (later.without_day == before.without_day)
                CHECK(
                    (later.fullest_share <= before.fullest_share + 1e-9 || later.evenness < before.evenness));
            before = later;
        }
    }
}
