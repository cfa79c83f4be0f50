#include "inkturn/retry/retry.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day attempt{date::year{2026} / date::November / 2};

Day after(int days) {
    return attempt + Days{days};
}

/// "first-last" in days after the attempt.
std::string left_text(std::optional<int> exam, int today) {
    const auto day = exam ? std::optional<Day>(after(*exam)) : std::nullopt;
    const auto span = possible_days(retry_window(attempt, day), day, after(today));
    if (!span)
        return "none";
    return std::to_string((span->first - attempt).count()) + "-" +
           std::to_string((span->last - attempt).count());
}

Paper example() {
    return Paper({"made-up", "", "", {}, RetryBy::question},
                 {{"1a", Marks(3), "", ""}, {"1b", Marks(2), "", ""}, {"2", Marks(5), "", ""}});
}

Sitting sat(const Paper& paper, const std::string& line) {
    return {attempt, {}, parse_line(paper, line)};
}

Reattempt reattempt_of_1(const Paper& paper, int turn, int days, const std::string& line) {
    return {"1", turn, after(days), parse_line(paper, paper.questions()[0].parts, line)};
}

} // namespace

TEST_CASE("at the end of the calendar the last day accepted ends a window as an exam does, and an exam "
          "before it still") {
    const auto window = retry_window(latest_day - Days{12}, {});
    REQUIRE(window);
    CHECK(window->opens == latest_day - Days{8});
    CHECK(window->closes == latest_day - Days{1});
    const auto before = retry_window(latest_day - Days{12}, latest_day - Days{6});
    REQUIRE(before);
    CHECK(before->opens == latest_day - Days{11});
    CHECK(before->closes == latest_day - Days{7});
    CHECK_FALSE(retry_window(latest_day - Days{1}, {}).has_value());
    CHECK(retry_window(latest_day - Days{21}, {})->closes == latest_day);
    CHECK(retry_window(latest_day - Days{20}, {})->closes == latest_day - Days{1});
}

TEST_CASE("every window opens after the attempt and closes before the exam, and never opens later for an "
          "earlier exam") {
    int opened = 14;
    for (int exam = 60; exam >= 2; --exam) {
        CAPTURE(exam);
        const auto window = retry_window(attempt, after(exam));
        REQUIRE(window);
        CHECK(window->opens > attempt);
        CHECK(window->opens <= window->closes);
        CHECK(window->closes < after(exam));
        CHECK((window->closes - attempt).count() <= 21);
        CHECK(window->squeezed == (exam <= 21));
        CHECK((window->opens - attempt).count() <= opened);
        opened = static_cast<int>((window->opens - attempt).count());
    }
}

TEST_CASE("the days left of a window begin today") {
    CHECK(left_text({}, 0) == "14-21");
    CHECK(left_text({}, 14) == "14-21");
    CHECK(left_text({}, 15) == "15-21");
    CHECK(left_text({}, 21) == "21-21");
    CHECK(left_text(18, 15) == "15-17");
}

TEST_CASE("a window that has closed counts as today and the seven days after it") {
    CHECK(left_text({}, 22) == "22-29");
    CHECK(left_text({}, 300) == "300-307");
}

TEST_CASE("a late window is cut by the exam") {
    CHECK(left_text(40, 30) == "30-37");
    CHECK(left_text(37, 30) == "30-36");
    CHECK(left_text(31, 30) == "30-30");
    CHECK(left_text(30, 30) == "none");
    CHECK(left_text(25, 30) == "none");
}

TEST_CASE("no day is left where there is no window") {
    CHECK(left_text(1, 0) == "none");
    CHECK(left_text(1, 30) == "none");
}

TEST_CASE("no day that is left lies before today, after the grace, or on the exam") {
    for (int exam = 1; exam <= 60; ++exam)
        for (int today = 0; today <= 60; ++today) {
            const auto window = retry_window(attempt, after(exam));
            const auto span = possible_days(window, after(exam), after(today));
            if (!span)
                continue;
            const bool late = window->closes < after(today);
            const Day last = late ? after(today + 7) : window->closes;
            if (span->first < after(today) || span->last < span->first || span->last >= after(exam) ||
                span->last > last || span->first < (late ? after(today) : window->opens))
                FAIL("exam " << exam << ", today " << today);
        }
    SUCCEED();
}

TEST_CASE("a retry's id names its turn from the second on") {
    CHECK(to_text(RetryId{SittingId{12}, "7", 1}) == "12q7");
    CHECK(to_text(RetryId{SittingId{12}, "7", 2}) == "12q7t2");
}

TEST_CASE("every retry's id is read back from its text") {
    const std::int64_t sittings[] = {1, 12, 9223372036854775807};
    for (const std::int64_t sitting : sittings)
        for (const char* const question : {"7", "7t", "7bt", "A3", "T3", "T3t", "999", "7q", "1qt"})
            for (const int turn : {1, 2, 10, 9999}) {
                const RetryId id{SittingId{sitting}, question, turn};
                const RetryId read = parse_retry_id(to_text(id));
                CAPTURE(to_text(id));
                CHECK(read.sitting == id.sitting);
                CHECK(read.question == id.question);
                CHECK(read.turn == id.turn);
            }
}

TEST_CASE("a first turn may be spelt out, and labels may come in any case") {
    CHECK(to_text(parse_retry_id("12q7t1")) == "12q7");
    CHECK(to_text(parse_retry_id("12qa3B")) == "12qA3b");
    CHECK(to_text(parse_retry_id("12qt3")) == "12qT3");
}

TEST_CASE("a text that isn't a retry's id is refused") {
    for (const char* const text :
         {"", "12", "q7", "12q", "12Q7", "0q7", "-1q7", "+1q7", "12q7t0", "12q7t10000", "12x7", "12 q7",
          "99999999999999999999q7", "12q7t1t2", "12q0", "12qqq"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_retry_id(text), Error);
    }
}

TEST_CASE("a question without a missed mark has no turn") {
    const Paper paper = example();
    CHECK_FALSE(open_turn(paper, paper.questions()[0], sat(paper, "3 1+1 0"), {}, RetryRule()).has_value());
}

TEST_CASE("marks corrected after the mark scheme are missed all the same") {
    const Paper paper = example();
    const auto open = open_turn(paper, paper.questions()[0], sat(paper, "1+0+2 2 0"), {}, RetryRule());
    REQUIRE(open);
    CHECK(open->turn == 1);
    CHECK(open->dropped_on == attempt);
    CHECK(open->missed_marks == Marks(2));
}

TEST_CASE("a re-attempt that misses again opens the next turn from its own day") {
    const Paper paper = example();
    const auto open =
        open_turn(paper, paper.questions()[0], sat(paper, "1 0 5"),
                  {reattempt_of_1(paper, 1, 15, "3 1"), reattempt_of_1(paper, 2, 30, "2 1")}, RetryRule());
    REQUIRE(open);
    CHECK(open->turn == 3);
    CHECK(open->dropped_on == after(30));
    CHECK(open->missed_marks == Marks(2));
}

TEST_CASE("earlier turns do not add up: each has to earn what is asked of it by itself") {
    const Paper paper = example();
    const Question& question = paper.questions()[0];
    CHECK(open_turn(paper, question, sat(paper, "0 0 5"),
                    {reattempt_of_1(paper, 1, 15, "3 0"), reattempt_of_1(paper, 2, 30, "0 2")}, RetryRule())
              .has_value());
}

TEST_CASE("a turn may follow wherever a re-attempt lost a mark, whatever the rule, and only there") {
    const Paper paper = example();
    const Question& question = paper.questions()[0];
    const Sitting missed_b = sat(paper, "3 1 5");
    CHECK(turn_to_follow(paper, question, missed_b, {reattempt_of_1(paper, 1, 15, "2:slip 2")}).has_value());
    CHECK_FALSE(
        turn_to_follow(paper, question, missed_b, {reattempt_of_1(paper, 1, 15, "3 1+1")}).has_value());
}

TEST_CASE("re-attempts of other questions do not count") {
    const Paper paper = example();
    const auto open = open_turn(paper, paper.questions()[1], sat(paper, "0 0 0"),
                                {reattempt_of_1(paper, 1, 15, "3 2")}, RetryRule());
    REQUIRE(open);
    CHECK(open->turn == 1);
}

TEST_CASE("a question comes again from turn 2 on") {
    const Paper paper({"p", "", "", {}, RetryBy::question}, {{"1", Marks(5), "", ""}});
    const auto fits = [&](const std::string& question, int turn) {
        check_fits(paper, AskedAgain{question, turn, earliest_day});
    };
    CHECK_NOTHROW(fits("1", 2));
    CHECK_NOTHROW(fits("1", 9999));
    CHECK_THROWS_AS(fits("1", 1), Error);
    CHECK_THROWS_AS(fits("1", 10000), Error);
    CHECK_THROWS_AS(fits("2", 2), Error);
}
