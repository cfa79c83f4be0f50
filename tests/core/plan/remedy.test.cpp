#include "inkturn/plan/remedy.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

#include <optional>
#include <string>
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
    candidate.availability.free_days = 0;
    candidate.availability.week.fill(Seconds(0));
    candidate.exams = {{"Pure", day(days), "pure"}};
    return candidate;
}

std::optional<Remedy> found(const Candidate& candidate, std::vector<std::shared_ptr<const Paper>> papers,
                            Remedy::Kind kind) {
    TimetableRequest made_of = request(std::move(papers));
    made_of.share.share = 0;
    for (const Remedy& remedy : remedies(candidate, made_of, day(0)))
        if (remedy.kind == kind)
            return remedy;
    return std::nullopt;
}

/// -1 where that does not help.
int amount(const Candidate& candidate, const std::vector<std::shared_ptr<const Paper>>& papers,
           Remedy::Kind kind) {
    const auto remedy = found(candidate, papers, kind);
    return remedy ? remedy->amount : -1;
}

} // namespace

TEST_CASE("minutes more come in steps of five, up to three hours, on days that have time") {
    Candidate candidate = before_exam(20);
    candidate.availability.week[5] = Seconds(600);
    const auto more = [&](int minutes) {
        return amount(candidate, {taking(minutes)}, Remedy::Kind::more_minutes);
    };
    CHECK(more(11) == 5);
    CHECK(more(15) == 5);
    CHECK(more(16) == 10);
    CHECK(more(186) == 180);
    CHECK(more(190) == 180);
    CHECK(more(191) == -1);
    candidate.availability.week[5] = Seconds(0);
    CHECK(more(11) == -1);
    candidate.availability.dates[day(3)] = Seconds(600);
    CHECK(more(11) == 5);
}

TEST_CASE("no day is longer than a day") {
    Candidate candidate = before_exam(20);
    candidate.availability.week[5] = Seconds(23 * 3600);
    CHECK(amount(candidate, {taking(1440)}, Remedy::Kind::more_minutes) == 60);
    CHECK(amount(candidate, {taking(1440)}, Remedy::Kind::longer_day) == 1440);
    candidate.wishes.marking_percent = 1;
    CHECK(amount(candidate, {taking(1440)}, Remedy::Kind::more_minutes) == -1);
    CHECK(amount(candidate, {taking(1440)}, Remedy::Kind::longer_day) == -1);
}

TEST_CASE("a longer day has the time of the longest paper, to five minutes, on the longest weekday, of "
          "equals the last") {
    Candidate candidate = before_exam(20);
    candidate.availability.week.fill(Seconds(1800));
    auto longer =
        found(candidate, {taking(20, "p1"), taking(91, "p2"), taking(30, "p3")}, Remedy::Kind::longer_day);
    REQUIRE(longer);
    CHECK(longer->amount == 95);
    CHECK(longer->weekday == 6);
    CHECK(amount(candidate, {taking(90)}, Remedy::Kind::longer_day) == 90);
    candidate.availability.week[2] = Seconds(1801);
    longer = found(candidate, {taking(90)}, Remedy::Kind::longer_day);
    REQUIRE(longer);
    CHECK(longer->weekday == 2);
    // Three in two weeks are one too many for a day of the week.
    CHECK(amount(candidate, {taking(90, "p1"), taking(90, "p2"), taking(90, "p3"), taking(90, "p4")},
                 Remedy::Kind::longer_day) == -1);
}

TEST_CASE("a day that is long enough already is not made longer") {
    Candidate candidate = before_exam(7);
    candidate.availability.week[5] = Seconds(3600);
    CHECK(amount(candidate, {taking(60, "p1"), taking(60, "p2")}, Remedy::Kind::longer_day) == -1);
}

TEST_CASE("fewer papers are those of the one subject of which the fewest do") {
    Candidate candidate = before_exam(15);
    candidate.exams.push_back({"Latin", day(15), "latin"});
    candidate.availability.week[5] = Seconds(3600); // two Saturdays
    const auto fewer = found(
        candidate,
        {taking(60, "l1", "latin"), taking(60, "l2", "latin"), taking(60, "l3", "latin"), taking(60, "p1")},
        Remedy::Kind::fewer_papers);
    REQUIRE(fewer);
    CHECK(fewer->amount == 2);
    CHECK(fewer->subject == "latin");
    CHECK(fewer->remaining == 1);
    const auto either = found(candidate, {taking(60, "l1", "latin"), taking(60, "p1"), taking(60, "p2")},
                              Remedy::Kind::fewer_papers);
    REQUIRE(either);
    CHECK(either->amount == 1);
    CHECK(either->subject == "latin");
    CHECK(either->remaining == 0);
}

TEST_CASE(
    "days off that are used are the first ones from today to the exam, as long as the longest weekday") {
    Candidate candidate = before_exam(6);
    candidate.availability.week[5] = Seconds(3600);
    auto used =
        found(candidate, {taking(60, "p1"), taking(60, "p2"), taking(60, "p3")}, Remedy::Kind::days_off);
    REQUIRE(used);
    CHECK(used->amount == 2);
    CHECK(used->days == std::vector<Day>{day(0), day(1)});
    CHECK(used->available == Seconds(3600));
    candidate.exams[0].day = day(2);
    CHECK(amount(candidate, {taking(60, "p1"), taking(60, "p2")}, Remedy::Kind::days_off) == 2);
    CHECK(amount(candidate, {taking(60, "p1"), taking(60, "p2"), taking(60, "p3")}, Remedy::Kind::days_off) ==
          -1);
}

TEST_CASE("remedies are named") {
    CHECK(name(Remedy::Kind::more_minutes) == "more_minutes");
    CHECK(name(Remedy::Kind::longer_day) == "longer_day");
    CHECK(name(Remedy::Kind::fewer_papers) == "fewer_papers");
    CHECK(name(Remedy::Kind::days_off) == "days_off");
}
