#include "inkturn/lesson/run_sheet.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Codes = std::vector<std::string>;

const std::vector<std::shared_ptr<const Paper>>& on_file() {
    static const std::vector<std::shared_ptr<const Paper>> all{
        paper("pure-1", "pure"), paper("pure-2", "pure"), paper("mech-1", "mechanics")};
    return all;
}

/// Missed the questions from one on of pure-1.
WhoComes missed_from(const std::string& code, std::size_t first) {
    WhoComes one{candidate(), {}, {}};
    one.candidate.code = code;
    sit(one.candidate, on_file()[0], day(0), first);
    return one;
}

/// On vectors, the even questions.
Lesson lesson_for(const Codes& come) {
    Lesson lesson{"vectors-1", day(5), std::nullopt, std::chrono::hours{1}, "pure", {"vectors"}, 8};
    for (const std::string& code : come)
        lesson.asked.push_back({code, Moment{day(1)}, {}, "", PlaceState::confirmed});
    return lesson;
}

std::string text(const RunSheet& sheet) {
    std::string all;
    for (const SharedRetry& shared : sheet.shared)
        all += shared.retry.id.question + ":" + topics_text(shared.candidates) + " ";
    return all;
}

} // namespace

TEST_CASE("a run sheet has the retries on its topics that several share, those most share first") {
    const Lesson lesson = lesson_for({"K01", "K02", "K03"});
    const RunSheet sheet =
        run_sheet(lesson, {missed_from("K01", 3), missed_from("K02", 1), missed_from("K03", 2)}, on_file(),
                  {}, {}, day(2));
    CHECK(text(sheet) == "4:K01, K02, K03 ");
    CHECK(sheet.of_one == 1); // question 2, of K02
    CHECK(sheet.confirmed);
    REQUIRE(sheet.bring.size() == 3);
    CHECK(sheet.bring[1].asked.candidate == "K02");
    REQUIRE(sheet.bring[1].papers.size() == 1);
    CHECK(sheet.bring[1].papers[0].questions == Codes{"2", "4"});
}

TEST_CASE("fresh questions on its topics are those that none of them has seen, in no kept paper") {
    const Lesson lesson = lesson_for({"K01", "K02"});
    std::vector<WhoComes> come{missed_from("K01", 3), missed_from("K02", 1)};
    const auto labels = [&] {
        Codes all;
        for (const Drawable& question : run_sheet(lesson, come, on_file(), {}, {}, day(2)).fresh)
            all.push_back(question.paper->id() + " " + question.paper_question().label);
        return all;
    };
    CHECK(labels() == Codes{"pure-2 2", "pure-2 4"});
    come[0].to_sit = {"pure-2"};
    CHECK(labels().empty());
    CHECK(run_sheet(lesson, come, on_file(), {}, {}, day(2)).left_alone == std::set<std::string>{"pure-2"});
    CHECK(run_sheet(lesson, come, on_file(), {}, {"pure-2"}, day(2)).left_alone.empty());
    come[0].to_sit.clear();
    CHECK(run_sheet(lesson, come, on_file(), {}, {"pure-2"}, day(2)).fresh.empty());
}

TEST_CASE("copies of a question in two papers are one retry that is shared") {
    WhoComes other{candidate(), {}, {}};
    other.candidate.code = "K02";
    sit(other.candidate, on_file()[1], day(0), 3);
    const std::vector<Copies> copies{{{"pure-1", "4"}, {"pure-2", "4"}}};
    const RunSheet sheet =
        run_sheet(lesson_for({"K01", "K02"}), {missed_from("K01", 3), other}, on_file(), copies, {}, day(2));
    CHECK(text(sheet) == "4:K01, K02 ");
}

TEST_CASE("while nobody has confirmed the sheet is for those who were offered a place") {
    Lesson lesson = lesson_for({"K01", "K02"});
    lesson.asked[0].state = PlaceState::asked;
    lesson.asked[1].state = PlaceState::offered;
    CHECK(on_run_sheet(lesson) == Codes{"K02"});
    CHECK_FALSE(run_sheet(lesson, {missed_from("K02", 3)}, on_file(), {}, {}, day(2)).confirmed);
    lesson.asked[0].state = PlaceState::confirmed;
    CHECK(on_run_sheet(lesson) == Codes{"K01"});
}
