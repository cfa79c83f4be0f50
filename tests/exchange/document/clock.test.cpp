#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/pure_1.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/store/change.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// An hour from nine o'clock on, of which the candidate reaches one part, with a break.
std::vector<ClockEvent> an_hour(Day day, std::size_t part = 1) {
    const Moment nine = day + std::chrono::hours{9};
    return {{ClockEventKind::start, nine, 0},
            {ClockEventKind::go, nine + Seconds(600), part},
            {ClockEventKind::rest, nine + Seconds(1200)},
            {ClockEventKind::work, nine + Seconds(1500)},
            {ClockEventKind::hand_in, nine + Seconds(3600)}};
}

struct Known {
    std::string marks = "5 1 1";
    std::vector<ClockEvent> clock;
    std::vector<ClockEvent> clock_of_turn;
};

/// A store with a sitting by K07 and a re-attempt of its question 7.
Store store_with(const Known& known) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(*pure_1());
        const SittingId id =
            open.add_sitting("K07", *pure_1(), {sat_on, {}, parse_line(*pure_1(), known.marks), known.clock});
        open.add_reattempt(
            id, {"7", 1, sat_on + Days{15}, parse_line(*pure_1(), {1, 2}, "1 2"), known.clock_of_turn});
    });
    return store;
}

Store whole() {
    return store_with({"5 1 1", an_hour(sat_on), an_hour(sat_on + Days{15})});
}

const std::string sitting = "/candidates/0/sittings/0";

/// Why the document is refused once the value at the pointer is another.
std::string refusal_at(const std::string& pointer, const Json& value) {
    Json json = value_of(document_of(whole()));
    json[Json::json_pointer(pointer)] = value;
    return refusal(json);
}

} // namespace

TEST_CASE("a clock is exported as its events, and only where there are some") {
    const Json json = value_of(document_of(whole()));
    const Json& clock = json.at(Json::json_pointer(sitting + "/clock"));
    CHECK(clock.dump() == R"([{"at":"2026-09-26T09:00:00Z","event":"start","part":"1"},)"
                          R"({"at":"2026-09-26T09:10:00Z","event":"go","part":"7a"},)"
                          R"({"at":"2026-09-26T09:20:00Z","event":"rest"},)"
                          R"({"at":"2026-09-26T09:25:00Z","event":"work"},)"
                          R"({"at":"2026-09-26T10:00:00Z","event":"hand in"}])");
    const Json& of_turn = json.at(Json::json_pointer(sitting + "/retries/0/clock"));
    CHECK(of_turn[0].dump() == R"({"at":"2026-10-11T09:00:00Z","event":"start","part":"7a"})");
    CHECK(of_turn[1]["part"] == "7b");
    CHECK(to_text(read(json)) == text_of(whole()));
    CHECK_THAT(text_of(store_with({})), !Contains("clock"));
}

TEST_CASE("what is wrong in a clock is refused at its place") {
    const std::string at = "candidates[0].sittings[0].clock";
    const std::string clock = sitting + "/clock";
    CHECK_THAT(refusal_at(clock + "/1/event", "pause"), StartsWith(at + "[1].event: 'pause' is no event"));
    CHECK_THAT(refusal_at(clock + "/1/event", 1), StartsWith(at + "[1].event: a text is expected"));
    CHECK_THAT(refusal_at(clock + "/1/part", "7c"), StartsWith(at + "[1].part: the clock names a part '7c'"));
    CHECK_THAT(refusal_at(sitting + "/retries/0/clock/1/part", "1"),
               StartsWith("candidates[0].sittings[0].retries[0].clock[1].part: the clock names a part '1'"));
    CHECK_THAT(refusal_at(clock + "/2/part", "7a"), StartsWith(at + "[2]: start and go name a part"));
    CHECK_THAT(refusal_at(clock + "/1", {{"at", "2026-09-26T09:10:00Z"}, {"event", "go"}}),
               StartsWith(at + "[1]: start and go name a part"));
    CHECK_THAT(refusal_at(clock + "/2/seconds", 1), StartsWith(at + "[2].seconds: the key is unknown"));
    CHECK_THAT(refusal_at(clock + "/2", {{"event", "rest"}}), StartsWith(at + "[2]: the key at is missing"));
    for (const char* moment : {"2026-09-26", "2026-09-26T09:20:00", "2026-09-26T09:20:00+01:00",
                               "2026-09-31T09:20:00Z", "2026-09-26T24:20:00Z"})
        CHECK_THAT(refusal_at(clock + "/2/at", moment),
                   StartsWith(at + "[2].at: '" + std::string(moment) + "' is no moment"));
    CHECK_THAT(refusal_at(clock + "/4/at", "2026-11-26T12:00:00Z"),
               StartsWith(at + "[4].at: 2026-11-26T12:00:00Z lies in the future"));
    CHECK(refusal_at(clock + "/4/at", "2026-11-26T11:59:59Z").empty());
    CHECK_THAT(refusal_at(clock + "/2/at", "2026-09-26T09:09:00Z"),
               StartsWith(at + "[2]: an event 1:00 before the one that precedes it"));
    CHECK_THAT(refusal_at(clock + "/3/event", "rest"), StartsWith(at + "[3]: the break has begun already"));
    CHECK_THAT(refusal_at(clock + "/2/event", "hand in"),
               StartsWith(at + "[3]: the work is handed in: nothing comes after that"));
    CHECK_THAT(refusal_at(clock + "/0/event", "go"), StartsWith(at + "[0]: the clock has not started"));
    CHECK_THAT(refusal_at(clock, Json::array()), StartsWith(at + ": a clock has its start at least"));
    CHECK_THAT(refusal_at(clock, nullptr), StartsWith(at + ": a list is expected"));
    CHECK_THAT(refusal_at(clock, {{{"at", "2026-09-26T09:10:00Z"}, {"event", "start"}, {"part", "1"}}}),
               StartsWith(at + ": marks are for what is handed in"));
}

TEST_CASE("a clock that one of two sittings has is taken, with the marks as they are") {
    Store bare = store_with({});
    const Merge taken = merge_into(bare, whole());
    CHECK(taken.conflicts.empty());
    CHECK(taken.sittings_completed == 1);
    CHECK(taken.sittings_unchanged == 0);
    CHECK(taken.reattempts_completed == 1);
    CHECK(taken.reattempts_unchanged == 0);
    CHECK(text_of(bare) == text_of(whole()));

    Store here = whole();
    const Merge stays = merge_into(here, store_with({}));
    CHECK(stays.conflicts.empty());
    CHECK(stays.sittings_unchanged == 1);
    CHECK(stays.reattempts_unchanged == 1);
    CHECK(text_of(here) == text_of(whole()));
}

TEST_CASE("a day chosen stays when a clock is taken for a re-attempt before its turn") {
    Store bare = store_with({});
    change(bare, [](Store::Change& open) {
        open.keep_day({open.store().candidate("K07").sittings.at(0).id, "7", today + Days{3}});
    });
    merge_into(bare, whole());
    REQUIRE(bare.candidate("K07").placements.size() == 1);
    CHECK(bare.candidate("K07").placements[0].day == today + Days{3});
}

TEST_CASE("clocks that differ are in conflict unless they are to be replaced") {
    const Store other = store_with({"5 1 1", an_hour(sat_on, 2), an_hour(sat_on + Days{15}, 0)});
    const std::string where = "candidate K07, pure-1 of 2026-09-26: ";
    Store here = whole();
    const Merge refused = merge_into(here, other);
    CHECK(refused.conflicts ==
          Lines{where + "event 2 of the clock is go at 2026-09-26T09:10:00Z with part 7a here, go at "
                        "2026-09-26T09:10:00Z with part 7b in the file; --replace takes the file's",
                where + "question 7, turn 1: event 2 of the clock is go at 2026-10-11T09:10:00Z with part 7b "
                        "here, go at 2026-10-11T09:10:00Z with part 7a in the file; --replace takes the "
                        "file's"});
    CHECK(text_of(here) == text_of(whole()));

    const Merge replaced = merge_into(here, other, true);
    CHECK(replaced.sittings_replaced == 1);
    CHECK(replaced.reattempts_replaced == 1);
    CHECK(text_of(here) == text_of(other));
}

TEST_CASE("marks that are replaced by some without a clock leave the clock that is here") {
    Store here = whole();
    merge_into(here, store_with({"5 1 2", {}, {}}), true);
    CHECK(text_of(here) == text_of(store_with({"5 1 2", an_hour(sat_on), an_hour(sat_on + Days{15})})));
}
