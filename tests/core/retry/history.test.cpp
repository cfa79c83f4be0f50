#include "inkturn/retry/history.hpp"

#include "catch.hpp"
#include "refusal.hpp"

#include <memory>
#include <string>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;

constexpr Day sat_on{date::year{2026} / date::November / 2};

/// A candidate who sat a paper of question 1 in two parts of three marks, and question 2.
Candidate sat(const std::string& line) {
    Candidate candidate;
    candidate.code = "K07";
    SittingRecord record;
    record.id = SittingId{4};
    record.paper = std::make_shared<const Paper>(
        PaperHead{"made-up", "", "", {}, RetryBy::question},
        std::vector<Part>{{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}, {"2", Marks(5), "", ""}});
    record.sitting = {sat_on, {}, parse_line(*record.paper, line), {}, {{"1b", "sign of cos"}, {"2", "no"}}};
    candidate.sittings.push_back(record);
    return candidate;
}

void add_turn(Candidate& candidate, const std::string& line) {
    SittingRecord& record = candidate.sittings[0];
    const int turn = static_cast<int>(record.reattempts.size()) + 1;
    record.reattempts.push_back({"1",
                                 turn,
                                 sat_on + Days{14 * turn},
                                 parse_line(*record.paper, record.paper->questions()[0].parts, line),
                                 {},
                                 {{"1a", "turn " + std::to_string(turn)}}});
}

RetryId turn(int number) {
    return {SittingId{4}, "1", number};
}

TurnState state(const Candidate& candidate, int number) {
    return history_of(candidate, turn(number), {}, sat_on).state;
}

} // namespace

TEST_CASE("a history has every attempt with its marks and notes, and what the turn is to earn") {
    Candidate candidate = sat("3 1:slip 5");
    add_turn(candidate, "2:method 3");
    const RetryHistory shown =
        history_of(candidate, turn(2), open_retries(candidate, sat_on + Days{20}), sat_on + Days{20});
    CHECK(shown.state == TurnState::open);
    REQUIRE(shown.open);
    CHECK(shown.open->id.turn == 2);
    CHECK(shown.to_earn() == std::vector<bool>{true, false});
    REQUIRE(shown.attempts.size() == 2);
    CHECK(shown.attempts[0].notes == Notes{{"1b", "sign of cos"}});
    CHECK(shown.attempts[0].parts[1].reason() == Reason::slip);
    CHECK(shown.attempts[1].notes == Notes{{"1a", "turn 1"}});
    CHECK(shown.count_of_notes() == 2);
    CHECK(shown.allowance == Seconds(6 * 72));
    CHECK(history_of(candidate, turn(1), {}, sat_on).to_earn() == std::vector<bool>{false, true});
}

TEST_CASE("a turn is open, recorded, dropped, secured, replaced, or misses too little") {
    Candidate candidate = sat("3 1:slip 5");
    CHECK(state(candidate, 1) == TurnState::open);
    candidate.steered_retries = {{SittingId{4}, "1", {std::nullopt, LetGo{sat_on, "not on the syllabus"}}}};
    CHECK(state(candidate, 1) == TurnState::let_go);
    candidate.steered_retries.clear();
    candidate.wishes.retries.slips = false;
    CHECK(state(candidate, 1) == TurnState::too_little);
    candidate.wishes.retries.slips = true;
    add_turn(candidate, "3 3");
    CHECK(state(candidate, 1) == TurnState::recorded);
    CHECK(state(candidate, 2) == TurnState::secured);
    SittingRecord later = candidate.sittings[0];
    later.id = SittingId{5};
    later.sitting.day += Days{30};
    candidate.sittings.push_back(later);
    CHECK(state(candidate, 2) == TurnState::replaced);
}

TEST_CASE("what never was, or comes later, is not shown and says why") {
    Candidate candidate = sat("3 1 5");
    CHECK_THROWS_WITH(history_of(candidate, turn(2), {}, sat_on),
                      Contains("no retry 4q1t2 yet: record 4q1 first"));
    CHECK_THROWS_WITH(history_of(candidate, {SittingId{4}, "2", 1}, {}, sat_on), Contains("was not missed"));
    CHECK_THROWS_WITH(history_of(candidate, {SittingId{4}, "3", 1}, {}, sat_on),
                      Contains("has no question 3"));
    CHECK_THROWS_WITH(history_of(candidate, {SittingId{9}, "1", 1}, {}, sat_on),
                      Contains("has no sitting 9"));
}

TEST_CASE("the latest note on a part before a turn is the one that is told after it") {
    Candidate candidate = sat("3 1 5");
    add_turn(candidate, "2:method 3");
    add_turn(candidate, "2:method 3");
    const SittingRecord& record = candidate.sittings[0];
    const Question& question = record.paper->questions()[0];
    CHECK(notes_before(record, question, 1) == Notes{{"1b", "sign of cos"}});
    CHECK(notes_before(record, question, 2) == Notes{{"1a", "turn 1"}, {"1b", "sign of cos"}});
    CHECK(notes_before(record, question, 3) == Notes{{"1a", "turn 2"}, {"1b", "sign of cos"}});
}

TEST_CASE(
    "the pictures of a question are its own, its parts', or those of the question that it is a part of") {
    const auto picture = [](int id, const char* paper, const char* question, PictureContent content) {
        return PictureOnFile{PictureId{id}, paper, question, content, PictureKind::png, 1, 1, 1};
    };
    const std::vector<PictureOnFile> all{
        picture(1, "p", "1", PictureContent::question), picture(2, "p", "1a", PictureContent::question),
        picture(3, "p", "1a", PictureContent::scheme), picture(4, "p", "2", PictureContent::question),
        picture(5, "q", "1", PictureContent::question)};
    const auto shown = [&](RetryBy by, std::size_t question) {
        const Paper paper({"p", "", "", {}, by},
                          {{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}, {"2", Marks(5), "", ""}});
        std::string ids;
        for (const PictureOnFile& one : pictures_of_question(all, paper, paper.questions()[question]))
            ids += std::to_string(static_cast<std::int64_t>(one.id));
        return ids;
    };
    CHECK(shown(RetryBy::question, 0) == "12");
    CHECK(shown(RetryBy::question, 1) == "4");
    CHECK(shown(RetryBy::part, 0) == "12");
    CHECK(shown(RetryBy::part, 1) == "1");
}
