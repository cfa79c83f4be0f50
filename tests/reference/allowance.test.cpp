#include "inkturn/clock/allowance.hpp"

#include "catch.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using std::chrono::minutes;

/// A paper of so many marks in questions of up to 7 marks; how they fall is made up.
Paper paper_of(int marks, std::optional<Seconds> duration) {
    std::vector<Part> parts;
    for (int left = marks; left > 0; left -= 7)
        parts.push_back({std::to_string(parts.size() + 1), Marks(left < 7 ? left : 7), "", ""});
    return Paper({"made-up", "", "", duration, RetryBy::question}, std::move(parts));
}

/// The stated duration rules; 72 seconds a mark agrees with it exactly where it is 1.2 minutes a mark.
void check_row(int marks, int stated_minutes, bool is_1_2_a_mark) {
    const Paper stated = paper_of(marks, minutes(stated_minutes));
    CHECK(allowance(stated) == minutes(stated_minutes));
    CHECK(checkpoints(stated).back() == minutes(stated_minutes));
    CHECK((10 * stated_minutes == 12 * marks) == is_1_2_a_mark);
    CHECK((allowance(paper_of(marks, {})) == minutes(stated_minutes)) == is_1_2_a_mark);
}

} // namespace

TEST_CASE("AQA 7367 (specification at a glance): 100 marks have 120 minutes", "[reference]") {
    check_row(100, 120, true);
}

TEST_CASE("AQA 7357 (specification at a glance, seen as a copy): 100 marks have 120 minutes", "[reference]") {
    check_row(100, 120, true);
}

TEST_CASE("OCR H240/01 to 03 (specification H240, marks seen as a copy): 100 marks have 120 minutes",
          "[reference]") {
    check_row(100, 120, true);
}

TEST_CASE("OCR H230 (specification H230, marks seen as a copy): 75 marks have 90 minutes", "[reference]") {
    check_row(75, 90, true);
}

TEST_CASE("Pearson Edexcel 9FM0 (specification 9FM0, seen as a copy): 75 marks have 90 minutes",
          "[reference]") {
    check_row(75, 90, true);
}

TEST_CASE("OCR H640/03 (specification H640, marks seen as a copy): 75 marks have 120 minutes",
          "[reference]") {
    check_row(75, 120, false);
}

TEST_CASE("OCR Y420 (specification H645): 144 marks have 160 minutes", "[reference]") {
    check_row(144, 160, false);
}

TEST_CASE("OCR Y421 and Y422 (specification H645): 120 marks have 135 minutes", "[reference]") {
    check_row(120, 135, false);
}

TEST_CASE("OCR Y431 to Y435 (specification H645): 60 marks have 75 minutes", "[reference]") {
    check_row(60, 75, false);
}

TEST_CASE("AQA 7366 papers 1 and 2 (specification 7366): 80 marks have 90 minutes", "[reference]") {
    check_row(80, 90, false);
}

TEST_CASE(
    "Cambridge International 9709 papers 1 and 3 (syllabus 9709, seen as a copy): 75 marks have 110 minutes",
    "[reference]") {
    check_row(75, 110, false);
}

TEST_CASE("common practice, no source: a mark buys 1.2 minutes", "[reference]") {
    CHECK(time_per_mark == Seconds(72));
    CHECK(allowance(paper_of(1, {})) == Seconds(72));
    CHECK(allowance(paper_of(100, {})) == minutes(120));
}

TEST_CASE("JCQ Access Arrangements 2025-26 section 5 (seen as a copy): 25% and 50% of extra time",
          "[reference]") {
    for (const auto& paper : {paper_of(100, {}), paper_of(100, minutes(120))}) {
        CHECK(allowance(paper) == minutes(120));
        CHECK(allowance(paper, ExtraTime(25)) == minutes(150));
        CHECK(allowance(paper, ExtraTime(50)) == minutes(180));
    }
    for (const auto& paper : {paper_of(75, {}), paper_of(75, minutes(90)), paper_of(80, minutes(90))}) {
        CHECK(allowance(paper) == minutes(90));
        CHECK(allowance(paper, ExtraTime(25)) == Seconds(6750)); // 112.5 minutes
        CHECK(allowance(paper, ExtraTime(50)) == minutes(135));
    }
}
