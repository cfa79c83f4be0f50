#include "inkturn/retry/returned.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// `due recorded planned late not_placed`.
std::string text_of(const ReturnedWork& work) {
    return std::to_string(work.due) + " " + std::to_string(work.recorded) + " " +
           std::to_string(work.planned) + " " + std::to_string(work.late) + " " +
           std::to_string(work.not_placed);
}

ReturnedWork work_of(const Candidate& candidate, DaySpan days, int today) {
    return returned_work(candidate, open_retries(candidate, day(today)), days, day(today));
}

/// Sat on day 0: the windows of its two retries are day 14 to 21.
Candidate with_recorded(int on) {
    Candidate candidate = example();
    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1", "1=5", on, on));
    return candidate;
}

} // namespace

TEST_CASE("nothing is due before a window opens") {
    CHECK(text_of(work_of(example(), {day(0), day(13)}, 13)) == "0 0 0 0 0");
    CHECK(text_of(work_of(example(), {day(0), day(14)}, 14)) == "2 0 2 0 0");
}

TEST_CASE("what is open is planned until its window closes, then late") {
    CHECK(text_of(work_of(example(), {day(8), day(21)}, 21)) == "2 0 2 0 0");
    const ReturnedWork late = work_of(example(), {day(9), day(24)}, 24);
    CHECK(text_of(late) == "2 0 0 2 0");
    CHECK(late.longest_late == Days{3});
    CHECK_FALSE(late.last_recorded);
    CHECK(text_of(work_of(example(), {day(60), day(70)}, 70)) == "2 0 0 2 0"); // from before stays due
}

TEST_CASE("what was recorded on these days counts, and what was recorded before them does not") {
    const Candidate candidate = with_recorded(15);
    const ReturnedWork work = work_of(candidate, {day(14), day(21)}, 21);
    CHECK(text_of(work) == "2 1 1 0 0");
    CHECK(work.last_recorded == day(15));
    CHECK(text_of(work_of(candidate, {day(15), day(21)}, 21)) == "2 1 1 0 0");
    CHECK(text_of(work_of(candidate, {day(16), day(21)}, 21)) == "1 0 1 0 0");
}

TEST_CASE("what was due on these days and recorded after them is recorded") {
    CHECK(text_of(work_of(with_recorded(20), {day(12), day(18)}, 25)) == "2 1 0 1 0");
    CHECK(text_of(work_of(with_recorded(20), {day(6), day(13)}, 25)) == "0 0 0 0 0");
}

TEST_CASE("a re-attempt before its window counts on the day it was done") {
    CHECK(text_of(work_of(with_recorded(5), {day(3), day(9)}, 9)) == "1 1 0 0 0");
}

TEST_CASE("those to ask have late retries: the most first, then the longest late, then by code") {
    std::vector<ReturnedWork> work(4);
    work[0].candidate = "K04";
    work[1] = {"K02", 2, 0, 0, 2, 0, Days{3}, {}};
    work[2] = {"K03", 2, 0, 0, 2, 0, Days{5}, {}};
    work[3] = {"K01", 2, 0, 0, 2, 0, Days{3}, {}};
    std::string codes;
    for (const ReturnedWork& one : those_to_ask(work))
        codes += one.candidate + " ";
    CHECK(codes == "K03 K01 K02 ");
}

TEST_CASE("what nobody did stays late once its last exam has passed, and is nothing to ask for") {
    Candidate candidate = example();
    candidate.exams = {{"Pure", day(30), ""}};
    const auto before = work_of(candidate, {day(9), day(24)}, 29);
    CHECK(text_of(before) == "2 0 0 2 0");
    CHECK(before.to_ask_for() == 2);
    const auto after = work_of(candidate, {day(9), day(24)}, 30);
    CHECK(text_of(after) == "2 0 0 2 0");
    CHECK(after.rested == 2);
    CHECK(after.to_ask_for() == 0);
    CHECK(those_to_ask({after}).empty());
    CHECK(text_of(work_of(candidate, {day(0), day(13)}, 30)) == "0 0 0 0 0"); // not due by then
}
