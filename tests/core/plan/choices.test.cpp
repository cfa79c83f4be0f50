#include "inkturn/plan/choices.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/steering.hpp"
#include "papers.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

RetryId retry_of(int sitting, const std::string& question, int turn = 1) {
    return {SittingId{sitting}, question, turn};
}

/// Sat a paper of one question on day 0, missed it, and got it on day 15.
Candidate secured() {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(1, paper_of("p1", {10, 5}), 0, "8 5"));
    candidate.sittings[0].reattempts.push_back({"1", 1, day(15), {full_marks(Marks(10))}, {}});
    return candidate;
}

void ask_again(Candidate& candidate, int on) {
    candidate.sittings[0].asked_again.push_back(asked_again(candidate, retry_of(1, "1"), day(on)));
}

std::string texts(const std::vector<Retry>& retries) {
    std::string text;
    for (const Retry& one : retries)
        text += (text.empty() ? "" : " ") + to_text(one.id);
    return text;
}

/// Fourteen papers of one question, all late on day 60, missed by 1, 2, 3 marks in turn.
Candidate ill() {
    Candidate candidate;
    candidate.code = "K07";
    for (int i = 1; i <= 14; ++i)
        candidate.sittings.push_back(
            sat(i, paper_of("p" + std::to_string(i), {10}), i, std::to_string(9 - i % 3)));
    return candidate;
}

std::vector<Choice> weighed(const Candidate& candidate, int today) {
    const TimetableRequest none = request({});
    return choices(candidate, none, timetable(candidate, none, day(today)), day(today));
}

} // namespace

TEST_CASE("a secured question comes round once more fourteen days after it was asked for") {
    Candidate candidate = secured();
    CHECK(retries_to_place(candidate, day(20)).empty());
    ask_again(candidate, 20);
    const auto retries = retries_to_place(candidate, day(20));
    REQUIRE(texts(retries) == "1q1t2");
    CHECK(retries[0].asked_again);
    CHECK(retries[0].missed_marks == Marks(0));
    CHECK(retries[0].window->opens == day(34));
    CHECK(retries[0].window->closes == day(41));
    CHECK(refusal_of([&] { check_can_be_undone(candidate, retry_of(1, "1")); }) ==
          "retry 1q1: 1q1t2 was asked for again since");

    candidate.sittings[0].reattempts.push_back({"1", 2, day(34), {full_marks(Marks(10))}, {}});
    CHECK(retries_to_place(candidate, day(34)).empty());
    ask_again(candidate, 34); // on the day that it was got once more
    CHECK(texts(retries_to_place(candidate, day(34))) == "1q1t3");
    CHECK(refusal_of([&] {
              check_can_replace(*candidate.sittings[0].paper, candidate.sittings[0].sitting,
                                candidate.sittings[0], day(40));
          }).empty());
}

TEST_CASE("a turn that was asked for and missed goes on as any other") {
    Candidate candidate = secured();
    ask_again(candidate, 20);
    candidate.sittings[0].reattempts.push_back(
        {"1", 2, day(36), {PartMarks(MarksByPhase{Marks(7)}, Marks(10), std::nullopt)}, {}});
    const auto retries = retries_to_place(candidate, day(36));
    REQUIRE(texts(retries) == "1q1t3");
    CHECK_FALSE(retries[0].asked_again);
    CHECK(retries[0].missed_marks == Marks(3));
    CHECK(retries[0].window->opens == day(50));
}

TEST_CASE("only a question that was missed and is secured comes round once more") {
    Candidate candidate = secured();
    const auto refused = [&](const RetryId& id) {
        return refusal_of([&] { asked_again(candidate, id, day(20)); });
    };
    CHECK(refused(retry_of(1, "1")).empty());
    CHECK(refused(retry_of(1, "2")).find("was never missed") != std::string::npos);
    CHECK(refused(retry_of(1, "3")).find("has no question 3") != std::string::npos);
    CHECK(refused(retry_of(1, "1", 2)) == "retry 1q1t2 was not recorded; the last one is 1q1");
    ask_again(candidate, 20);
    CHECK(refused(retry_of(1, "1")) ==
          "question 1 of p1 is still open as 1q1t2; only a secured one comes round again");
    candidate.sittings.push_back(sat(2, candidate.sittings[0].paper, 30, "10 5"));
    CHECK(refused(retry_of(1, "1")).find("was sat again later") != std::string::npos);
}

TEST_CASE("what was last done to a retry is taken back first") {
    Candidate candidate = secured();
    const RetryId second = retry_of(1, "1", 2);
    CHECK(last_done(candidate, retry_of(1, "1"), day(20)) == LastDone::reattempt);
    CHECK_FALSE(refusal_of([&] { last_done(candidate, second, day(20)); }).empty());
    ask_again(candidate, 20);
    CHECK(last_done(candidate, second, day(20)) == LastDone::asked_again);
    candidate.steered_retries.push_back({SittingId{1}, "1", {day(25), std::nullopt}});
    CHECK(last_done(candidate, second, day(25)) == LastDone::wanted);
    CHECK(last_done(candidate, second, day(26)) == LastDone::asked_again);
    candidate.steered_retries[0].steering.let_go = LetGo{day(21), "why"};
    CHECK(last_done(candidate, second, day(21)) == LastDone::let_go);
    CHECK(refusal_of([&] { last_done(candidate, retry_of(1, "1"), day(21)); }) ==
          "retry 1q1: 1q1t2 was dropped since");
}

TEST_CASE("retries are worth their missed marks, then the first to close, then what was missed first") {
    Candidate candidate = ill();
    CHECK(texts(by_worth(retries_to_place(candidate, day(60)))) ==
          "2q1 5q1 8q1 11q1 14q1 1q1 4q1 7q1 10q1 13q1 3q1 6q1 9q1 12q1");
    candidate.steered_retries.push_back({SittingId{12}, "1", {day(61), std::nullopt}});
    CHECK(texts(by_worth(retries_to_place(candidate, day(60)))).substr(0, 8) == "12q1 2q1");
}

TEST_CASE("of what is late ten stay after a restart, those worth most") {
    Candidate candidate = ill();
    CHECK(texts(late_beyond_ten(candidate, day(60))) == "3q1 6q1 9q1 12q1");
    CHECK(texts(late_beyond_ten(candidate, day(33))) == "9q1"); // windows up to day 32 have closed
    CHECK(late_beyond_ten(candidate, day(32)).empty());
    candidate = without(candidate, late_beyond_ten(candidate, day(60)), {day(60), "restart"});
    CHECK(late_beyond_ten(candidate, day(60)).empty());
    CHECK(retries_to_place(candidate, day(60)).size() == 10);
}

TEST_CASE("where work does not fit the retries worth least are proposed, as few as do") {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(1, paper_of("p1", {10, 10, 10, 10}), 0, "9 8 7 6"));
    candidate.exams = {{"Pure", day(22), "pure"}};
    candidate.availability.free_days = Days(0);
    candidate.availability.week.fill(Seconds(0));
    candidate.availability.dates[day(15)] = Seconds(720);
    candidate.availability.dates[day(16)] = Seconds(720);
    TimetableRequest none = request({});
    none.turns = TurnsReserved::first; // what may come back drops nothing
    CHECK(timetable(candidate, none, day(1)).fit == PlanFit::too_little_time);
    const auto least = least_to_let_go(candidate, none, day(1));
    REQUIRE(least);
    CHECK(texts(*least) == "1q1 1q2");
    std::optional<FewerRetries> remedy;
    for (const Remedy& one : remedies(candidate, none, day(1)))
        if (const auto* fewer = std::get_if<FewerRetries>(&one)) {
            CHECK(name(one) == "fewer_retries");
            remedy = *fewer;
        }
    REQUIRE(remedy);
    CHECK(remedy->retries.size() == 2);
    CHECK(remedy->missed_marks == Marks(3));
    CHECK(timetable(without(candidate, *least, {day(1), "no room"}), none, day(1)).fit == PlanFit::fits);

    candidate.steered_retries.push_back({SittingId{1}, "1", {day(15), std::nullopt}});
    CHECK(texts(*least_to_let_go(candidate, none, day(1))) == "1q2 1q3");
    candidate.steered_retries.clear();
    candidate.availability.dates.clear(); // then all would have to go
    CHECK_FALSE(least_to_let_go(candidate, none, day(1)));
}

TEST_CASE("no more than 24 retries are proposed to go") {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(1, paper_of("p1", std::vector<int>(26, 10)), 0, [] {
        std::string none_earned = "0";
        for (int i = 1; i < 26; ++i)
            none_earned += " 0";
        return none_earned;
    }()));
    candidate.exams = {{"Pure", day(22), "pure"}};
    candidate.availability.week.fill(Seconds(0));
    candidate.availability.dates[day(15)] = Seconds(1440);
    REQUIRE(least_to_let_go(candidate, request({}), day(1)));
    CHECK(least_to_let_go(candidate, request({}), day(1))->size() == 24);
    candidate.availability.dates[day(15)] = Seconds(1439);
    CHECK_FALSE(least_to_let_go(candidate, request({}), day(1)));
}

TEST_CASE("a choice is weighed against the plan without it") {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(1, paper_of("p1", {10, 10}), 0, "9 8"));
    candidate.availability.free_days = Days(0);
    candidate.availability.week.fill(Seconds(1440));
    CHECK(weighed(candidate, 1).empty());

    candidate.steered_retries.push_back({SittingId{1}, "1", {day(3), std::nullopt}});
    keep(candidate, timetable(candidate, request({}), day(1)));
    auto all = weighed(candidate, 1);
    REQUIRE(all.size() == 1);
    CHECK(all[0].what == "1q1");
    CHECK(all[0].placed_on == day(3));
    CHECK(all[0].outside_window);
    CHECK(all[0].cost->outside == Seconds(720));
    CHECK(all[0].cost->without_day == Seconds(0));
    CHECK(all[0].cost->work == Seconds(0));
    CHECK(all[0].cost->fullest_share == Approx(0.5));
    CHECK(weighed(candidate, 4).empty()); // it has passed

    candidate.steered_retries[0].steering.wanted = day(15);
    candidate.steered_retries.push_back({SittingId{1}, "2", {day(15), std::nullopt}});
    candidate.placements.clear();
    all = weighed(candidate, 1);
    REQUIRE(all.size() == 2);
    CHECK(all[0].cost->fullest_share == Approx(1.0));
    CHECK(all[0].cost->fullest_share_without == Approx(0.5));
    CHECK(all[0].cost->outside == Seconds(0));
}

TEST_CASE("what was dropped and asked for again is a choice while it would still be to do") {
    Candidate candidate = secured();
    candidate.sittings.push_back(sat(2, paper_of("p2", {10, 10}), 16, "9 8"));
    ask_again(candidate, 20);
    candidate.steered_retries.push_back({SittingId{2}, "2", {std::nullopt, LetGo{day(18), "why"}}});
    const auto all = weighed(candidate, 20);
    REQUIRE(all.size() == 2);
    CHECK(name(all[0].kind) == "again");
    CHECK(all[0].day == day(20));
    CHECK(name(all[1].kind) == "drop");
    CHECK(all[1].reason == "why");
    CHECK(all[0].cost->work == Seconds(720));
    CHECK(all[1].cost->work == Seconds(-720));
    CHECK(all[1].cost->fullest_share == Approx(all[1].cost->fullest_share_without));
    candidate.exams = {{"Pure", day(21), "pure"}};
    CHECK(weighed(candidate, 21).empty());
}

TEST_CASE("a dropped topic or paper is a choice while it would still be to do") {
    Candidate candidate;
    candidate.code = "K07";
    sit(candidate, paper("p1", "pure", 2), day(0), 0);
    const TimetableRequest on_file = request({paper("p2", "pure", 2)});
    const LetGo let_go{day(1), "why"};
    candidate.steered_work = {{WorkPurpose::relearn, "pure", "vectors", {std::nullopt, let_go}},
                              {WorkPurpose::sit, "pure", "p2", {std::nullopt, let_go}},
                              {WorkPurpose::relearn, "pure", "proof", {std::nullopt, let_go}}};
    const auto all = choices(candidate, on_file, timetable(candidate, on_file, day(1)), day(1));
    REQUIRE(all.size() == 2); // no mark went on proof
    CHECK(all[0].what == "vectors");
    CHECK(all[0].reason == "why");
    CHECK(all[0].cost->work == Seconds(-3600));
    CHECK(all[1].what == "p2");
    CHECK(all[1].cost->work < Seconds(0));
}

TEST_CASE("eight choices are weighed, and all are named") {
    Candidate candidate = ill();
    candidate = without(candidate, retries_to_place(candidate, day(60)), {day(60), "restart"});
    const auto all = weighed(candidate, 60);
    REQUIRE(all.size() == 14);
    CHECK(all[7].cost.has_value());
    CHECK_FALSE(all[8].cost.has_value());
}
