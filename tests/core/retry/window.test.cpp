#include "catch.hpp"
#include "inkturn/retry/retry.hpp"

#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day attempt{date::year{2026} / date::November / 2};

Day after(int days) {
    return attempt + Days{days};
}

/// "opens-closes" in days after the attempt, with "squeezed" where it is.
std::string text_of(const std::optional<Window>& window) {
    if (!window)
        return "none";
    return std::to_string((window->opens - attempt).count()) + "-" +
           std::to_string((window->closes - attempt).count()) + (window->squeezed ? " squeezed" : "");
}

std::string by_exams(const std::vector<Exam>& exams, int today) {
    const WindowByExams by = window_by_exams(exams, "pure", attempt, after(today));
    return by.rests ? "rests" : text_of(by.window);
}

Exam pure(int days) {
    return {"Pure", after(days), "pure"};
}

} // namespace

TEST_CASE("without an exam a retry falls 14 to 21 days after the attempt") {
    CHECK(text_of(retry_window(attempt, {})) == "14-21");
}

TEST_CASE(
    "a window slides before an exam that comes within three weeks, and keeps its eight days to T = 10") {
    const std::vector<std::string> by_days_to_exam{
        "none",           "none",           "1-1 squeezed",  "1-2 squeezed",   "1-3 squeezed",
        "1-4 squeezed",   "1-5 squeezed",   "2-6 squeezed",  "2-7 squeezed",   "2-8 squeezed",
        "2-9 squeezed",   "3-10 squeezed",  "4-11 squeezed", "5-12 squeezed",  "6-13 squeezed",
        "7-14 squeezed",  "8-15 squeezed",  "9-16 squeezed", "10-17 squeezed", "11-18 squeezed",
        "12-19 squeezed", "13-20 squeezed", "14-21",         "14-21",          "14-21",
        "14-21",          "14-21",          "14-21",         "14-21",          "14-21",
        "14-21",          "14-21",          "14-21",         "14-21",          "14-21",
        "14-21",          "14-21",          "14-21",         "14-21",          "14-21",
        "14-21"};
    REQUIRE(by_days_to_exam.size() == 41);
    for (int exam = 0; exam <= 40; ++exam) {
        CAPTURE(exam);
        CHECK(text_of(retry_window(attempt, after(exam))) == by_days_to_exam[static_cast<std::size_t>(exam)]);
    }
    CHECK(text_of(retry_window(attempt, after(-3))) == "none");
}

TEST_CASE("a window goes by the first exam of the subject that is still ahead") {
    CHECK(by_exams({}, 0) == "14-21");
    CHECK(by_exams({pure(60), pure(15)}, 0) == "7-14 squeezed");
    CHECK(by_exams({pure(60), pure(15)}, 14) == "7-14 squeezed");
    CHECK(by_exams({pure(60), pure(15)}, 15) == "14-21"); // that one is today: no retry for it any more
    CHECK(by_exams({{"All", after(15), ""}, pure(60)}, 0) == "7-14 squeezed");
    CHECK(by_exams({{"Mechanics", after(15), "mechanics"}}, 0) == "14-21");
}

TEST_CASE("a mock ends no window") {
    Exam mock = pure(15);
    mock.mock = true;
    CHECK(by_exams({mock}, 0) == "14-21");
    CHECK(by_exams({mock}, 20) == "14-21");
    CHECK(by_exams({mock, pure(20)}, 0) == "12-19 squeezed");
}

TEST_CASE("no day is left only where no later exam of the subject is ahead") {
    CHECK(by_exams({pure(1)}, 0) == "none");
    CHECK(by_exams({pure(1), pure(30)}, 0) == "14-21");
    CHECK(by_exams({pure(1), pure(9)}, 0) == "2-8 squeezed");
    CHECK(window_by_exams({pure(1), pure(9)}, "pure", attempt, attempt).exam == after(9));
}

TEST_CASE("after the last exam of its subject a retry rests, but not what was attempted after it") {
    CHECK(by_exams({pure(15)}, 15) == "rests");
    CHECK(by_exams({pure(1)}, 1) == "rests");
    CHECK(by_exams({pure(15), pure(9)}, 20) == "rests");
    CHECK(by_exams({pure(-1)}, 5) == "14-21");
    CHECK(by_exams({pure(0)}, 5) == "14-21"); // attempted on the day of the exam
}
