#include "inkturn/retry/turn_outcome.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day sat_on{date::year{2026} / date::November / 2};

/// A paper of one question in three parts of three marks, and the turns after its sitting, two weeks apart.
SittingRecord record_of(const std::string& sitting, const std::vector<std::string>& turns) {
    SittingRecord record;
    record.id = SittingId{1};
    record.paper = std::make_shared<const Paper>(
        PaperHead{"made-up", "", "", {}, RetryBy::question},
        std::vector<Part>{{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}, {"1c", Marks(3), "", ""}});
    record.sitting = {sat_on, {}, parse_line(*record.paper, sitting)};
    for (const std::string& line : turns) {
        const int turn = static_cast<int>(record.reattempts.size()) + 1;
        record.reattempts.push_back({"1", turn, sat_on + Days{14 * turn}, parse_line(*record.paper, line)});
    }
    return record;
}

/// The parts that the next turn is to earn, such as `ac`; `-` where the question is got.
std::string left_after(const std::string& sitting, const std::vector<std::string>& turns) {
    const SittingRecord record = record_of(sitting, turns);
    const TurnOutcome last = outcomes(record, record.paper->questions()[0]).back();
    std::string text;
    for (std::size_t i = 0; i < last.to_earn.size(); ++i)
        if (last.to_earn[i])
            text += static_cast<char>('a' + i);
    CHECK(last.got == text.empty());
    CHECK(open_turn(record, record.paper->questions()[0], RetryRule()).has_value() == !text.empty());
    return text.empty() ? "-" : text;
}

/// What the first turn lost: `c1+` for a mark of part c that was lost anew, `!` where it joins the next turn.
std::string lost_in_first(const std::string& sitting, const std::string& turn) {
    std::string text;
    for (const LostPart& lost : lost_in_turn(record_of(sitting, {turn}), {SittingId{1}, "1", 1}))
        text += static_cast<char>('a' + lost.place) + std::to_string(lost.marks.count()) +
                (lost.is_new ? "+" : "") + (lost.joins_next ? "!" : "");
    return text;
}

} // namespace

TEST_CASE("the first turn is to earn what the sitting missed, and is got when it did by unaided marks") {
    CHECK(left_after("3 1 3", {"3 3 3"}) == "-");
    CHECK(left_after("3 1 3", {"3 1+2 3"}) == "-");
    CHECK(left_after("3 1 3", {"3 1+0+2 3"}) == "b");
    CHECK(left_after("0 1+0+2 3", {"3 2 3"}) == "b");
}

TEST_CASE("a part lost anew joins the next turn, unless by a slip or a misreading") {
    CHECK(left_after("3 1 3", {"2:method 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"2:recall 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"2:unfinished 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"2 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"- 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"2:slip 3 3"}) == "-");
    CHECK(left_after("3 1 3", {"2:misread 3 0:slip"}) == "-");
    CHECK(left_after("3 1 3", {"2:slip 3 0:method"}) == "c");
    CHECK(left_after("3 1 3", {"2:slip 2 3"}) == "b");
}

TEST_CASE("a part that was asked for stays, slip or not") {
    CHECK(left_after("3 1 3", {"3 2:slip 3"}) == "b");
    CHECK(left_after("3 1 3", {"2:method 3 3", "2:slip 3 3"}) == "a");
    CHECK(left_after("3 1 3", {"2:method 3 3", "3 3 3"}) == "-");
}

TEST_CASE("a part that a turn earned is lost anew when a later one loses it") {
    CHECK(left_after("1 1 3", {"3 1 3", "2:slip 3 3"}) == "-");
    CHECK(left_after("1 1 3", {"3 1 3", "2:method 3 3"}) == "a");
}

TEST_CASE("a turn asked for once more is to earn what the sitting missed") {
    SittingRecord record = record_of("3 1 3", {"3 3 2:slip", "3 2:slip 3"});
    record.asked_again = {{"1", 2, sat_on + Days{14}}};
    const std::vector<TurnOutcome> all = outcomes(record, record.paper->questions()[0]);
    REQUIRE(all.size() == 3);
    CHECK(all[1].got);
    CHECK(all[1].to_earn == std::vector<bool>{false, true, false});
    CHECK_FALSE(all[2].got);
}

TEST_CASE("what a turn lost is told part by part, new or not, and whether it joins the next") {
    CHECK(lost_in_first("3 1 3", "3 3 3").empty());
    CHECK(lost_in_first("3 1 3", "3 2 3") == "b1!");
    CHECK(lost_in_first("3 1 3", "2:method 3 0:slip") == "a1+!c3+");
    CHECK_THROWS_AS(lost_in_turn(record_of("3 1 3", {}), {SittingId{1}, "1", 1}), Error);
}

TEST_CASE("a share from which a part is got leaves marks that are lost but keep no question open") {
    SittingRecord record = record_of("1 3 3", {"2 3 2"});
    record.paper = std::make_shared<const Paper>(
        PaperHead{"made-up", "", "", {}, RetryBy::question, GotAt(60)},
        std::vector<Part>{{"1a", Marks(3), "", ""}, {"1b", Marks(3), "", ""}, {"1c", Marks(3), "", ""}});
    CHECK(is_got(record, {SittingId{1}, "1", 1}));
    const std::vector<LostPart> lost = lost_in_turn(record, {SittingId{1}, "1", 1});
    REQUIRE(lost.size() == 2);
    CHECK_FALSE(lost[1].is_new);
    CHECK_FALSE(lost[1].joins_next);
}

TEST_CASE("whatever is lost over the turns, the next one is to earn what this one lost and no slip outside "
          "it explains") {
    std::mt19937 dice(11);
    const std::vector<std::string> marks{"3", "3", "1+2", "2", "2:method", "2:slip", "0:misread", "-"};
    const auto line = [&] {
        return marks[dice() % marks.size()] + ' ' + marks[dice() % marks.size()] + ' ' +
               marks[dice() % marks.size()];
    };
    for (int round = 0; round < 2000; ++round) {
        std::vector<std::string> turns(1 + dice() % 4);
        for (std::string& turn : turns)
            turn = line();
        const SittingRecord record = record_of(line(), turns);
        const Question& question = record.paper->questions()[0];
        const std::vector<TurnOutcome> all = outcomes(record, question);
        REQUIRE(all.size() == turns.size() + 1);
        for (std::size_t turn = 1; turn < all.size(); ++turn)
            for (std::size_t i = 0; i < 3; ++i) {
                const PartMarks& earned = record.reattempts[turn - 1].parts[i];
                const bool is_slip = earned.reason() == Reason::slip || earned.reason() == Reason::misread;
                const bool is_lost = earned.unaided() < Marks(3);
                REQUIRE(all[turn].to_earn[i] == (is_lost && (!is_slip || all[turn - 1].to_earn[i])));
            }
    }
}
