#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/plan/remedy.hpp"

#include <optional>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Missed one question of ten marks on the Monday; an hour on each day.
Candidate with_exams(const std::vector<Exam>& exams) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.availability.week.fill(Seconds(3600));
    candidate.availability.free_days = Days(0);
    sit(candidate, paper("made-up", "pure", 1), day(0), 1);
    candidate.sittings[0].sitting.parts = parse_line(*candidate.sittings[0].paper, "2");
    candidate.exams = exams;
    return candidate;
}

Retry only_retry(const Candidate& candidate, int today) {
    const std::vector<Retry> retries = retries_of(timetable(candidate, request({}), day(today)));
    REQUIRE(retries.size() == 1);
    return retries[0];
}

} // namespace

TEST_CASE("a mock squeezes no window and does not count as the exam") {
    const Retry retry = only_retry(with_exams({{"Mock", day(10), "pure", true}}), 1);
    CHECK_FALSE(retry.exam.has_value());
    CHECK(retry.window->opens == day(14));
    CHECK(retry.window->closes == day(21));
    CHECK_FALSE(retry.window->squeezed);
    const Retry before_exam =
        only_retry(with_exams({{"Mock", day(5), "pure", true}, {"Pure", day(10), "pure"}}), 1);
    CHECK(before_exam.exam == day(10));
    CHECK(before_exam.window->closes == day(9));
}

TEST_CASE("retries do not rest after a mock") {
    const Retry retry = only_retry(with_exams({{"Mock", day(10), "pure", true}}), 12);
    REQUIRE(retry.day.has_value());
    CHECK(retry.window->opens == day(14));
}

TEST_CASE("the day of a mock is used only where no other day has time") {
    const std::vector<Exam> mock{{"Mock", day(14), "pure", true}};
    CHECK(only_retry(with_exams({}), 1).day == day(14));
    CHECK(only_retry(with_exams(mock), 1).day == day(15));

    Candidate busy = with_exams(mock);
    busy.availability.week.fill(Seconds(0));
    busy.availability.dates[day(14)] = Seconds(3600);
    CHECK(only_retry(busy, 1).day == day(14));
    busy.availability.dates[day(18)] = Seconds(3600);
    CHECK(only_retry(busy, 1).day == day(18));
}

TEST_CASE("a mock alone plans no papers of its subject") {
    const Timetable of_mock = timetable(with_exams({{"Mock", day(30), "latin", true}}), request({}), day(1));
    CHECK(of_mock.subjects.empty());
    const Timetable of_exam = timetable(with_exams({{"Latin", day(30), "latin"}}), request({}), day(1));
    REQUIRE(of_exam.subjects.size() == 1);
    CHECK(of_exam.subjects[0].subject == "latin");
}
