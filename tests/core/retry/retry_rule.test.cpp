#include "inkturn/retry/retry_rule.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/plan/sittings_ahead.hpp"

#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

/// Sat one paper on the Monday; `line` has the marks of its questions.
Candidate candidate_with(const std::vector<int>& maxima, const std::string& line, RetryRule rule = {}) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(12, paper_of("made-up", maxima), 0, line));
    candidate.wishes.retries = rule;
    return candidate;
}

/// The ids of the open retries.
std::string open_in(const Candidate& candidate) {
    std::string ids;
    for (const Retry& retry : retries_to_place(candidate, day(1)))
        ids += (ids.empty() ? "" : " ") + to_text(retry.id);
    return ids;
}

std::string open_under(RetryRule rule, const std::string& line) {
    return open_in(candidate_with({5, 5, 5}, line, rule));
}

constexpr RetryRule no_slips{Marks(1), false};

/// An essay of 25 marks that is got at 80%, sat with these marks.
Candidate essay(const std::string& line) {
    Candidate candidate;
    candidate.code = "K07";
    const auto paper =
        std::make_shared<const Paper>(PaperHead{"essay", "", "", {}, RetryBy::question, GotAt(80)},
                                      std::vector<Part>{{"1", Marks(25), "", ""}});
    candidate.sittings.push_back(sat(12, paper, 0, line));
    return candidate;
}

} // namespace

TEST_CASE("a question makes a retry from so many missed marks on") {
    CHECK(open_under({}, "5 4 3") == "12q2 12q3");
    CHECK(open_under({Marks(1)}, "5 4 3") == "12q2 12q3");
    CHECK(open_under({Marks(2)}, "5 4 3") == "12q3");
    CHECK(open_under({Marks(3)}, "5 4 3").empty());
    CHECK(open_under({Marks(5)}, "5 1 -") == "12q3");
}

TEST_CASE("the missed marks of a question's parts add up") {
    Candidate candidate;
    candidate.sittings.push_back(sat(
        12,
        std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question},
                                      std::vector<Part>{{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}}),
        0, "2 2"));
    candidate.wishes.retries = {Marks(2)};
    CHECK(open_in(candidate) == "12q1");
    candidate.wishes.retries = {Marks(3)};
    CHECK(open_in(candidate).empty());
}

TEST_CASE("without slips a question lost to slips and misreadings alone makes no retry") {
    CHECK(open_under(no_slips, "4:slip 1:misread 5").empty());
    CHECK(open_under({}, "4:slip 1:misread 5") == "12q1 12q2");
    CHECK(open_under(no_slips, "4:method 4 4:unfinished") == "12q1 12q2 12q3");
    CHECK(open_under(no_slips, "4:recall - 5") == "12q1 12q2");
    CHECK(open_under({Marks(2), false}, "3:slip 3:method 4:method") == "12q2");
}

TEST_CASE("a slip beside a part lost otherwise counts with it") {
    Candidate candidate;
    candidate.sittings.push_back(
        sat(12,
            std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question},
                                          std::vector<Part>{{"1a", Marks(3), "", ""},
                                                            {"1b", Marks(3), "", ""},
                                                            {"2a", Marks(3), "", ""},
                                                            {"2b", Marks(3), "", ""}}),
            0, "2:slip 2:method 2:slip 2:misread"));
    candidate.wishes.retries = no_slips;
    CHECK(open_in(candidate) == "12q1");
}

TEST_CASE("the latest attempt decides whether the next turn comes") {
    Candidate candidate = candidate_with({5}, "2");
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=4", 15, 30)};
    CHECK(open_in(candidate) == "12q1t2");
    candidate.wishes.retries = {Marks(2)};
    CHECK(open_in(candidate).empty());
    candidate.wishes.retries = {};
    candidate.sittings[0].reattempts = {take(candidate_with({5}, "2"), "12q1", "1=3", 15, 30)};
    candidate.wishes.retries = {Marks(2)};
    CHECK(open_in(candidate) == "12q1t2");

    candidate.sittings[0].reattempts = {take(candidate_with({5}, "2"), "12q1", "1=3:slip", 15, 30)};
    CHECK(open_in(candidate) == "12q1t2");
    candidate.wishes.retries = no_slips;
    CHECK(open_in(candidate).empty());
}

TEST_CASE("a question missed too little is not taken, and the reason is said") {
    const Candidate by_marks = candidate_with({5, 5}, "4 2", {Marks(2)});
    CHECK_THROWS_WITH(
        check_can_be_taken(by_marks, {SittingId{12}, "1", 1}, day(15), day(15)),
        "no retry 12q1: 1 mark of question 1 was missed, and by the wishes on file that makes no retry");
    CHECK(check_can_be_taken(by_marks, {SittingId{12}, "2", 1}, day(15), day(15)).label == "2");
    const Candidate by_reason = candidate_with({5}, "3:slip", no_slips);
    CHECK_THROWS_WITH(check_can_be_taken(by_reason, {SittingId{12}, "1", 1}, day(15), day(15)),
                      Contains("2 marks of question 1 were missed, by slips or misreadings alone, and"));
    CHECK_FALSE(window_of(by_reason, {SittingId{12}, "1", 1}, day(15)).has_value());
}

TEST_CASE("what was recorded stays sound when the rule is raised") {
    Candidate candidate = candidate_with({5}, "4");
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=3", 15, 60)};
    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=4:slip", 30, 60));
    candidate.wishes.retries = {Marks(4), false};
    CHECK(open_in(candidate).empty());
    CHECK_NOTHROW(check_whole(candidate));
    CHECK_NOTHROW(check_can_be_undone(candidate, {SittingId{12}, "1", 2}));
    CHECK_THROWS_AS(check_can_be_undone(candidate, {SittingId{12}, "1", 1}), Error);
    const SittingRecord& record = candidate.sittings[0];
    Sitting other = record.sitting;
    other.parts = parse_line(*record.paper, "3");
    CHECK_NOTHROW(check_can_replace(*record.paper, other, record, day(60)));
    other.parts = parse_line(*record.paper, "5");
    CHECK_THROWS_WITH(check_can_replace(*record.paper, other, record, day(60)),
                      Contains("would no longer be missed"));
    candidate.wishes.retries = {};
    CHECK(open_in(candidate) == "12q1t3");
}

TEST_CASE("the rule is for 1 to 500 marks") {
    CHECK_THROWS_WITH(check_rule({Marks(0)}), Contains("1 to 500"));
    CHECK_NOTHROW(check_rule({Marks(1)}));
    CHECK_NOTHROW(check_rule({Marks(500)}));
    CHECK_THROWS_AS(check_rule({Marks(501)}), Error);
    CHECK(RetryRule{}.is_default());
    CHECK_FALSE(RetryRule{Marks(2)}.is_default());
    CHECK_FALSE(no_slips.is_default());
    PlanWishes wishes;
    wishes.retries = {Marks(2)};
    CHECK_FALSE(wishes.is_default());
}

TEST_CASE("time is reserved for the retries that the rule makes") {
    const Candidate candidate = candidate_with({5, 5}, "4 2:slip");
    CHECK(missed_share({candidate}, RetryRule()) == 1.0);
    CHECK(missed_share({candidate}, RetryRule{Marks(2)}) == 0.5);
    CHECK(missed_share({candidate}, no_slips) == 0.5);
}

TEST_CASE("an essay got at 80% comes back at 19 of 25, and not at 20, 21 or 22") {
    CHECK(open_in(essay("19")) == "12q1");
    CHECK(retries_to_place(essay("19"), day(1))[0].missed_marks == Marks(6));
    for (const char* marks : {"20", "21", "22", "25"}) {
        CAPTURE(marks);
        CHECK(open_in(essay(marks)).empty());
    }
    CHECK_THROWS_WITH(check_can_be_taken(essay("20"), {SittingId{12}, "1", 1}, day(15), day(15)),
                      Contains("was got: it has the share of its marks that its paper asks for"));
    CHECK_THROWS_WITH(check_can_be_taken(essay("25"), {SittingId{12}, "1", 1}, day(15), day(15)),
                      Contains("was not missed"));
}

TEST_CASE("a retry of an essay got at 80% has got it at 20 of 25") {
    Candidate candidate = essay("12");
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=19", 15, 60)};
    CHECK(open_in(candidate) == "12q1t2");
    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=20", 30, 60));
    CHECK(open_in(candidate).empty());
    CHECK_THROWS_WITH(check_can_be_taken(candidate, {SittingId{12}, "1", 3}, day(60), day(60)),
                      Contains("already secured"));
}

TEST_CASE("of a question only the parts below their share count as missed") {
    Candidate candidate;
    candidate.sittings.push_back(
        sat(12,
            std::make_shared<const Paper>(
                PaperHead{"p", "", "", {}, RetryBy::question},
                std::vector<Part>{{"1a", Marks(10), "", "", GotAt(80)}, {"1b", Marks(5), "", ""}}),
            0, "8:method 4:slip"));
    const auto retries = retries_to_place(candidate, day(1));
    REQUIRE(retries.size() == 1);
    CHECK(retries[0].missed_marks == Marks(1));
    candidate.wishes.retries = no_slips;
    CHECK(open_in(candidate).empty());
}

TEST_CASE("a share got at that is stated after turns were recorded leaves them sound") {
    Candidate candidate = essay("21");
    const Paper strict({"essay", "", "", {}, RetryBy::question}, {{"1", Marks(25), "", ""}});
    SittingRecord& record = candidate.sittings[0];
    record.reattempts = {{"1", 1, day(15), parse_line(strict, "22")},
                         {"1", 2, day(30), parse_line(strict, "23")}};
    CHECK(open_in(candidate).empty());
    CHECK_NOTHROW(check_can_be_undone(candidate, {SittingId{12}, "1", 2}));
    CHECK_NOTHROW(check_can_replace(*record.paper, record.sitting, record, day(60)));
    const auto next =
        turn_to_follow(*record.paper, record.paper->questions()[0], record.sitting, record.reattempts);
    REQUIRE(next);
    CHECK(next->turn == 3);
}
