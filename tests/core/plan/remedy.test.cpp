#include "inkturn/plan/remedy.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Of so many minutes in all, its marking among them.
std::shared_ptr<const Paper> taking(int minutes, const std::string& id = "p1",
                                    const std::string& subject = "pure") {
    return std::make_shared<const Paper>(PaperHead{id, "", subject, Seconds(minutes * 60), RetryBy::question},
                                         std::vector<Part>{{"1", Marks(9), "", ""}});
}

/// No time to mark, no free days, no day that has time, and an exam in so many days.
Candidate before_exam(int days) {
    Candidate candidate;
    candidate.wishes.marking_percent = 0;
    candidate.availability.free_days = Days(0);
    candidate.availability.week.fill(Seconds(0));
    candidate.exams = {{"Pure", day(days), "pure"}};
    return candidate;
}

template <typename Kind>
std::optional<Kind> found(const Candidate& candidate, std::vector<std::shared_ptr<const Paper>> papers) {
    TimetableRequest made_of = request(std::move(papers));
    made_of.share.share = 0;
    for (const Remedy& remedy : remedies(candidate, made_of, day(0)))
        if (const Kind* const one = std::get_if<Kind>(&remedy))
            return *one;
    return std::nullopt;
}

/// Minutes; nothing where that does not help.
std::optional<std::int64_t> minutes_more(const Candidate& candidate,
                                         const std::vector<std::shared_ptr<const Paper>>& papers) {
    const auto more = found<MoreTime>(candidate, papers);
    return more ? std::optional<std::int64_t>(more->a_day / std::chrono::minutes{1}) : std::nullopt;
}

std::optional<std::int64_t> minutes_of_day(const Candidate& candidate,
                                           const std::vector<std::shared_ptr<const Paper>>& papers) {
    const auto longer = found<LongerDay>(candidate, papers);
    return longer ? std::optional<std::int64_t>(longer->in_all / std::chrono::minutes{1}) : std::nullopt;
}

} // namespace

TEST_CASE("minutes more come in steps of five, up to three hours, on days that have time") {
    Candidate candidate = before_exam(20);
    candidate.availability.week[5] = Seconds(600);
    const auto more = [&](int minutes) { return minutes_more(candidate, {taking(minutes)}); };
    CHECK(more(11) == 5);
    CHECK(more(15) == 5);
    CHECK(more(16) == 10);
    CHECK(more(186) == 180);
    CHECK(more(190) == 180);
    CHECK(more(191) == std::nullopt);
    candidate.availability.week[5] = Seconds(0);
    CHECK(more(11) == std::nullopt);
    candidate.availability.dates[day(3)] = Seconds(600);
    CHECK(more(11) == 5);
}

TEST_CASE("no day is longer than a day") {
    Candidate candidate = before_exam(20);
    candidate.availability.week[5] = Seconds(23 * 3600);
    CHECK(minutes_more(candidate, {taking(1440)}) == 60);
    CHECK(minutes_of_day(candidate, {taking(1440)}) == 1440);
    candidate.wishes.marking_percent = 1;
    CHECK(minutes_more(candidate, {taking(1440)}) == std::nullopt);
    CHECK(minutes_of_day(candidate, {taking(1440)}) == std::nullopt);
}

TEST_CASE("a longer day has the time of the longest paper, to five minutes, on the longest weekday, of "
          "equals the last") {
    Candidate candidate = before_exam(20);
    candidate.availability.week.fill(Seconds(1800));
    auto longer = found<LongerDay>(candidate, {taking(20, "p1"), taking(91, "p2"), taking(30, "p3")});
    REQUIRE(longer);
    CHECK(longer->in_all == Seconds(95 * 60));
    CHECK(longer->weekday == 6);
    CHECK(minutes_of_day(candidate, {taking(90)}) == 90);
    candidate.availability.week[2] = Seconds(1801);
    longer = found<LongerDay>(candidate, {taking(90)});
    REQUIRE(longer);
    CHECK(longer->weekday == 2);
    // Three in two weeks are one too many for a day of the week.
    CHECK(minutes_of_day(candidate, {taking(90, "p1"), taking(90, "p2"), taking(90, "p3"),
                                     taking(90, "p4")}) == std::nullopt);
}

TEST_CASE("a day that is long enough already is not made longer") {
    Candidate candidate = before_exam(7);
    candidate.availability.week[5] = Seconds(3600);
    CHECK(minutes_of_day(candidate, {taking(60, "p1"), taking(60, "p2")}) == std::nullopt);
}

TEST_CASE("fewer papers are those of the one subject of which the fewest do") {
    Candidate candidate = before_exam(15);
    candidate.exams.push_back({"Latin", day(15), "latin"});
    candidate.availability.week[5] = Seconds(3600); // two Saturdays
    const auto fewer = found<FewerPapers>(candidate, {taking(60, "l1", "latin"), taking(60, "l2", "latin"),
                                                      taking(60, "l3", "latin"), taking(60, "p1")});
    REQUIRE(fewer);
    CHECK(fewer->fewer == 2);
    CHECK(fewer->subject == "latin");
    CHECK(fewer->remaining == 1);
    const auto either =
        found<FewerPapers>(candidate, {taking(60, "l1", "latin"), taking(60, "p1"), taking(60, "p2")});
    REQUIRE(either);
    CHECK(either->fewer == 1);
    CHECK(either->subject == "latin");
    CHECK(either->remaining == 0);
}

TEST_CASE(
    "days off that are used are the first ones from today to the exam, as long as the longest weekday") {
    Candidate candidate = before_exam(6);
    candidate.availability.week[5] = Seconds(3600);
    auto used = found<UseDaysOff>(candidate, {taking(60, "p1"), taking(60, "p2"), taking(60, "p3")});
    REQUIRE(used);
    CHECK(used->days == std::vector<Day>{day(0), day(1)});
    CHECK(used->each == Seconds(3600));
    candidate.exams[0].day = day(2);
    used = found<UseDaysOff>(candidate, {taking(60, "p1"), taking(60, "p2")});
    REQUIRE(used);
    CHECK(used->days.size() == 2);
    CHECK_FALSE(found<UseDaysOff>(candidate, {taking(60, "p1"), taking(60, "p2"), taking(60, "p3")}));
}

TEST_CASE("remedies are named") {
    CHECK(name(MoreTime{}) == "more_minutes");
    CHECK(name(LongerDay{}) == "longer_day");
    CHECK(name(FewerPapers{}) == "fewer_papers");
    CHECK(name(UseDaysOff{}) == "days_off");
}
