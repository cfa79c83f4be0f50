#include "view/text/history.hpp"

#include "catch.hpp"
#include "view/text/lines.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"

#include <memory>
#include <sstream>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

constexpr Day sat_on{date::year{2026} / date::November / 2};

Candidate candidate_of(const std::string& line) {
    Candidate candidate;
    candidate.code = "K07";
    SittingRecord record;
    record.id = SittingId{4};
    record.paper = std::make_shared<const Paper>(
        PaperHead{"pure-1", "Pure, a first paper", "pure", {}, RetryBy::question},
        std::vector<Part>{
            {"1a", Marks(3), "surds", "M1 A2"}, {"1b", Marks(3), "", ""}, {"2", Marks(5), "", ""}});
    record.sitting = {sat_on, {}, parse_line(*record.paper, line), {}, {{"1b", "sign of cos"}}};
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
                                 {{"1a", "\x1b[2J"}}});
}

RetryHistory shown(const Candidate& candidate, int turn, int days) {
    const Day today = sat_on + Days{days};
    return history_of(candidate, {SittingId{4}, "1", turn}, open_retries(candidate, today), today);
}

std::string table_text(const Table& table) {
    std::ostringstream out;
    out << table;
    return out.str();
}

std::string lost(const std::string& sitting, const std::string& turn, std::optional<int> turn_after) {
    Candidate candidate = candidate_of(sitting);
    add_turn(candidate, turn);
    const SittingRecord& record = candidate.sittings[0];
    return lost_text(*record.paper, record.paper->questions()[0],
                     lost_in_turn(record, {SittingId{4}, "1", 1}), turn_after);
}

} // namespace

TEST_CASE("a retry that is open says when it is to be done and what it is to earn") {
    const RetryHistory open = shown(candidate_of("3 1:slip 5"), 1, 10);
    CHECK(heading_of(open) == "Retry 4q1: question 1 of pure-1, turn 1, 6 marks in 7:12");
    const std::string text = what_to_do(open, sat_on + Days{10});
    CHECK_THAT(text, StartsWith("To do on Mon 16 Nov 2026 (window 16 to 23 Nov 2026)."));
    CHECK_THAT(text, Contains("It counts as got once 1b is earned without help, in full, and no other part"));
    CHECK(table_text(parts_table(open)) == "part  marks  to earn  codes  topic\n"
                                           "1a        3           M1 A2  surds\n"
                                           "1b        3  yes\n");
    CHECK(pictures_text(open) ==
          "No picture of it is on file: find question 1 in pure-1 (Pure, a first paper).\n");
}

TEST_CASE("a turn that was recorded says what came of it and which is open") {
    Candidate candidate = candidate_of("3 1:slip 5");
    add_turn(candidate, "2:method 3");
    CHECK(what_to_do(shown(candidate, 1, 20), sat_on + Days{20}) ==
          "Recorded on Mon 16 Nov 2026: not got.\n"
          "Turn 2 is open: 4q1t2. To do on Mon 30 Nov 2026 (window 30 Nov to 7 Dec 2026).\n");
    add_turn(candidate, "3 2:slip");
    CHECK(what_to_do(shown(candidate, 2, 40), sat_on + Days{40}) == "Recorded on Mon 30 Nov 2026: got.\n");
    CHECK(what_to_do(shown(candidate, 3, 40), sat_on + Days{40}) ==
          "Question 1 is secured: this turn does not come round.\n");
}

TEST_CASE("a retry without a day says whether an exam leaves none or all are over") {
    Candidate candidate = candidate_of("3 1:slip 5");
    candidate.exams = {{"Pure", sat_on + Days{1}, "pure"}};
    CHECK_THAT(what_to_do(shown(candidate, 1, 0), sat_on),
               StartsWith("No day is left for it before the exam."));
    CHECK_THAT(what_to_do(shown(candidate, 1, 2), sat_on + Days{2}),
               StartsWith("It rests: the last exam of its subject has come."));
}

TEST_CASE("every attempt has one row for each part, and re-attempts say whether they got the question") {
    Candidate candidate = candidate_of("3 1:slip 5");
    add_turn(candidate, "2:method 2+1");
    const RetryHistory of = shown(candidate, 2, 20);
    CHECK(table_text(attempts_table(*of.paper, of.paper_question(), of.attempts)) ==
          "attempt  date             part  of  in time  overtime  reason\n"
          "sitting  Mon 2 Nov 2026   1a     3        3\n"
          "                          1b     3        1            slip\n"
          "turn 1   Mon 16 Nov 2026  1a     3        2            method\n"
          "                          1b     3        2         1\n");
    CHECK(notes_text(of.attempts) == "\nNoted in the sitting on part 1b: sign of cos\n"
                                     "Noted in turn 1 on part 1a: \\x1b[2J\n");
    CHECK(reattempts_text(candidate.sittings[0]) ==
          "\nRe-attempts:\n\n"
          "retry  date             part  of  in time  overtime  reason  got\n"
          "4q1    Mon 16 Nov 2026  1a     3        2            method  no\n"
          "                        1b     3        2         1\n"
          "Noted in 4q1 on part 1a: \\x1b[2J\n");
    CHECK(reattempts_text(candidate_of("3 1 5").sittings[0]).empty());
}

TEST_CASE("what a turn lost is told, and what of it joins the next") {
    CHECK(lost("3 1 5", "3 3", std::nullopt).empty());
    CHECK(lost("3 1 5", "3 2", 2) == "Lost this time: 1 without a reason in part 1b.\n");
    CHECK(lost("3 1 5", "2:unfinished 3", 2) ==
          "Lost this time: 1 unfinished in part 1a.\nPart 1a had been got before, and joins turn 2.\n");
    CHECK(lost("3 1 5", "2:method 3", std::nullopt) ==
          "Lost this time: 1 to method in part 1a.\nPart 1a had been got before.\n");
    CHECK(lost("3 1 5", "1:misread 3", std::nullopt) ==
          "Lost this time: 2 to misreading in part 1a.\n"
          "Part 1a had been got before; a slip or a misreading there opens no turn.\n");
}

TEST_CASE("a sitting without a clock says what had been tried when the ink changed") {
    const SittingRecord record = candidate_of("3 1:slip -").sittings[0];
    CHECK(time_text(*record.paper, record.sitting) ==
          "When the ink changed, questions worth 55% of the marks had been tried.\n");
}
