#include "inkturn/retry/due_question.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "papers.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

const auto paper = paper_of("made-up", {5, 4, 6});

/// Whose window is day 14 to 21, and which is planned for one of them.
Retry retry_of(const std::string& candidate, std::size_t question, int on = 16) {
    Retry retry;
    retry.id = {SittingId{1}, paper->question(question).label, 1};
    retry.candidate = candidate;
    retry.paper = paper;
    retry.question = question;
    retry.missed_marks = Marks(2);
    retry.window = Window{day(14), day(21), false};
    retry.possible_days = DaySpan{day(14), day(21)};
    retry.day = day(on);
    return retry;
}

/// `1: K01 K02; 3: K01`.
std::string text_of(const std::vector<DueQuestion>& questions) {
    std::string text;
    for (const DueQuestion& due : questions) {
        text += (text.empty() ? "" : "; ") + due.paper_question().label + ":";
        for (const std::string& code : due.candidates)
            text += " " + code;
    }
    return text;
}

} // namespace

TEST_CASE("a retry is due on the days of its window, whatever its own day is") {
    const Retry retry = retry_of("K01", 0);
    CHECK(is_due(retry, {day(14), day(14)}));
    CHECK(is_due(retry, {day(21), day(30)}));
    CHECK_FALSE(is_due(retry, {day(10), day(13)}));
    CHECK_FALSE(is_due(retry, {day(22), day(30)}));
}

TEST_CASE("a late retry stays due, and one outside its window is due on its day") {
    Retry late = retry_of("K01", 0);
    late.late = true;
    late.possible_days = DaySpan{day(25), day(32)};
    late.day = day(25);
    CHECK(is_due(late, {day(40), day(41)}));
    CHECK_FALSE(is_due(late, {day(20), day(24)}));
    const Retry outside = retry_of("K01", 0, 23);
    CHECK(is_due(outside, {day(23), day(23)}));
    CHECK_FALSE(is_due(outside, {day(24), day(24)}));
}

TEST_CASE("a retry without a day left is never due") {
    Retry retry = retry_of("K01", 0);
    retry.day.reset();
    retry.possible_days.reset();
    CHECK_FALSE(is_due(retry, {day(0), day(60)}));
}

TEST_CASE("questions come by how many candidates they are due for") {
    const std::vector<Retry> retries{retry_of("K01", 2), retry_of("K01", 0), retry_of("K02", 2),
                                     retry_of("K03", 2), retry_of("K03", 0), retry_of("K03", 1)};
    CHECK(text_of(due_questions(retries, {day(14), day(20)})) == "3: K01 K02 K03; 1: K01 K03; 2: K03");
    CHECK(due_questions(retries, {day(30), day(31)}).empty());
}

TEST_CASE("of as many candidates the question that is late, then that missed more, comes first") {
    std::vector<Retry> retries{retry_of("K01", 0), retry_of("K01", 1), retry_of("K01", 2)};
    retries[1].missed_marks = Marks(3);
    retries[2].late = true;
    CHECK(text_of(due_questions(retries, {day(14), day(20)})) == "3: K01; 2: K01; 1: K01");
}

TEST_CASE("planned are those whose own day is among the days, and the first open window to close is told") {
    std::vector<Retry> retries{retry_of("K01", 0, 15), retry_of("K02", 0, 20), retry_of("K03", 0, 15)};
    retries[1].window->closes = day(20);
    retries[2].late = true;
    retries[2].window->closes = day(13);
    const DueQuestion due = due_questions(retries, {day(14), day(15)}).at(0);
    CHECK(due.planned == 2);
    CHECK(due.late == 1);
    CHECK(due.missed == Marks(6));
    CHECK(due.closes == day(20));
}

TEST_CASE("a candidate with two turns of a question counts once") {
    std::vector<Retry> retries{retry_of("K01", 0), retry_of("K01", 0)};
    retries[1].id.sitting = SittingId{2};
    const DueQuestion due = due_questions(retries, {day(14), day(16)}).at(0);
    CHECK(due.candidates == std::vector<std::string>{"K01"});
    CHECK(due.planned == 1);
    CHECK(due.missed == Marks(4));
}
