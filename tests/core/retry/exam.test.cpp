#include "inkturn/retry/exam.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day today{date::year{2026} / date::November / 25};

Exam exam(int days_ahead, const std::string& subject = "") {
    return {"Paper", today + Days{days_ahead}, subject};
}

/// Days from today to the first exam ahead.
std::optional<int> ahead(const std::vector<Exam>& exams, const std::string& subject = "pure") {
    const auto day = exam_ahead(exams, subject, today);
    return day ? std::optional<int>(static_cast<int>((*day - today).count())) : std::nullopt;
}

} // namespace

TEST_CASE("the first exam after a day is ahead of it, in whatever order exams are given") {
    CHECK(ahead({exam(30), exam(10), exam(20)}) == 10);
    CHECK(ahead({}) == std::nullopt);
    CHECK(ahead({exam(-3), exam(0)}) == std::nullopt);
    CHECK(ahead({exam(0), exam(1)}) == 1);
}

TEST_CASE("only exams of the subject and of all subjects count, no mocks") {
    CHECK(ahead({exam(10, "mechanics"), exam(20, "pure")}) == 20);
    CHECK(ahead({exam(10, "mechanics"), exam(20)}) == 20);
    CHECK(ahead({exam(10, "mechanics")}) == std::nullopt);
    CHECK(ahead({exam(10, "pure")}, "") == std::nullopt);
    Exam mock = exam(10);
    mock.mock = true;
    CHECK(ahead({mock, exam(20)}) == 20);
}

TEST_CASE("an exam has a title and lies ahead") {
    CHECK_NOTHROW(check_exam(exam(1), today));
    CHECK_THROWS_WITH(
        check_exam(exam(0), today),
        "the exam on 2026-11-25 is not in the future (today is 2026-11-25): give a day from tomorrow on");
    CHECK_THROWS_AS(check_exam(exam(-1), today), Error);
    CHECK_THROWS_AS(check_exam({"", today + Days{1}, ""}, today), Error);
    CHECK_NOTHROW(check_exam({std::string(200, 'x'), today + Days{1}, std::string(200, 'y')}, today));
    CHECK_THROWS_AS(check_exam({std::string(201, 'x'), today + Days{1}, ""}, today), Error);
    CHECK_THROWS_AS(check_exam({"Paper", today + Days{1}, std::string(201, 'y')}, today), Error);
    CHECK_THROWS_AS(check_exam({"two\nlines", today + Days{1}, ""}, today), Error);
}

TEST_CASE("a subject is examined by a day once no exam of it lies after that day") {
    CHECK_FALSE(is_examined_by({}, "pure", today));
    CHECK(is_examined_by({exam(0, "pure")}, "pure", today));
    CHECK_FALSE(is_examined_by({exam(1, "pure")}, "pure", today));
    CHECK_FALSE(is_examined_by({exam(-3, "pure"), exam(1)}, "pure", today));
    CHECK(is_examined_by({exam(-3, "pure"), exam(1, "mechanics")}, "pure", today));
    CHECK_FALSE(is_examined_by({exam(-3, "mechanics")}, "pure", today));
}

TEST_CASE("an exam of the same title, day and subject is on file once") {
    const std::vector<ExamOnFile> on_file{{ExamId{3}, exam(5, "pure")}};
    CHECK_THROWS_WITH(check_is_new(on_file, exam(5, "pure")),
                      Catch::Matchers::Contains("is already on file, as number 3"));
    CHECK_NOTHROW(check_is_new(on_file, exam(6, "pure")));
    CHECK_NOTHROW(check_is_new(on_file, exam(5)));
    Exam other = exam(5, "pure");
    other.title += ", paper 2";
    CHECK_NOTHROW(check_is_new(on_file, other));
}

TEST_CASE("an exam of a class stands in for one of everybody with its title and subject in one series") {
    Exam of_all = exam(60, "pure");
    Exam of_class = exam(67, "pure");
    of_class.of_class = "tuesday";
    CHECK(stands_in_for(of_class, of_all));
    CHECK_FALSE(stands_in_for(of_all, of_class));
    CHECK_FALSE(stands_in_for(of_class, of_class));

    of_class.day = of_all.day + Days{90};
    CHECK(stands_in_for(of_class, of_all));
    of_class.day = of_all.day - Days{90};
    CHECK(stands_in_for(of_class, of_all));
    of_class.day = of_all.day + Days{91};
    CHECK_FALSE(stands_in_for(of_class, of_all));

    of_class.day = of_all.day;
    for (const auto& unlike : {Exam{"Other", of_all.day, "pure", false, "tuesday"},
                               Exam{"Paper", of_all.day, "mechanics", false, "tuesday"},
                               Exam{"Paper", of_all.day, "pure", true, "tuesday"}})
        CHECK_FALSE(stands_in_for(unlike, of_all));
}

TEST_CASE("exams of everybody and of a class count together, unless one stands in") {
    const Exam of_all = exam(60, "pure");
    const Exam other{"End of year", today + Days{20}, "pure", false, "tuesday"};
    CHECK(exams_that_count({of_all, other}).size() == 2);
    Exam moved = of_all;
    moved.day += Days{7};
    moved.of_class = "tuesday";
    const std::vector<Exam> counting = exams_that_count({of_all, other, moved});
    REQUIRE(counting.size() == 2);
    CHECK(counting[0].title == "End of year");
    CHECK(counting[1].day == today + Days{67});
    CHECK(exams_that_count({}).empty());
}

TEST_CASE("an exam is on file already only if it is for the same class") {
    const std::vector<ExamOnFile> on_file{{ExamId{1}, exam(60, "pure")}};
    Exam of_class = exam(60, "pure");
    CHECK_THROWS_AS(check_is_new(on_file, of_class), Error);
    of_class.of_class = "tuesday";
    CHECK_NOTHROW(check_is_new(on_file, of_class));
    of_class.of_class = " tuesday";
    CHECK_THROWS_AS(check_exam(of_class), Error);
}
