#include "exchange/document/scripts.hpp"
#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/pure_1.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const Moment nine = today + std::chrono::hours{9};

const std::vector<ClockEvent> running{{ClockEventKind::start, nine, 0}};
const std::vector<ClockEvent> handed_in{{ClockEventKind::start, nine, 0},
                                        {ClockEventKind::go, nine + Seconds(600), 1},
                                        {ClockEventKind::hand_in, nine + Seconds(3600)}};
const std::vector<ClockEvent> other_clock{{ClockEventKind::start, nine + Seconds(1), 0},
                                          {ClockEventKind::hand_in, nine + Seconds(3600)}};

Script of_paper(const std::vector<ClockEvent>& clock, const std::string& marks = "? ? ?", Day day = today) {
    Script script = blank_script("K07", pure_1(), day, ExtraTime(25));
    script.events = clock;
    script.marks = parse_script_line(*pure_1(), script.positions, marks);
    return script;
}

/// Of question 7 of the candidate's first sitting on file.
Script of_retry(const Store& store, const std::vector<ClockEvent>& clock, const std::string& marks = "? ?") {
    const Candidate candidate = store.candidate("K07");
    Script script = blank_script(candidate, {candidate.sittings.at(0).id, "7", 1}, today, today);
    script.events = clock;
    script.marks = parse_script_line(*pure_1(), script.positions, marks);
    return script;
}

void put(Store& store, Script script) {
    change(store, [&](Store::Change& open) { Desk(open).add(script); });
}

void put_sitting(Store& store, Day day, const std::string& marks, const std::vector<ClockEvent>& clock = {}) {
    change(store, [&](Store::Change& open) {
        open.add_sitting("K07", *pure_1(), {day, ExtraTime(25), parse_line(*pure_1(), marks), clock});
    });
}

Store with_paper() {
    Store store = empty_store();
    change(store, [](Store::Change& open) { open.add_paper(*pure_1()); });
    return store;
}

Store with_script(const Script& script) {
    Store store = with_paper();
    put(store, script);
    return store;
}

/// With a sitting whose question 7 was missed.
Store with_missed() {
    Store store = with_paper();
    put_sitting(store, sat_on, "5 1 1");
    return store;
}

Store with_retry(const std::vector<ClockEvent>& clock, const std::string& marks = "? ?") {
    Store store = with_missed();
    put(store, of_retry(store, clock, marks));
    return store;
}

/// A whole paper marked in part, and a retry that runs.
Json example() {
    Store store = with_missed();
    put(store, of_retry(store, running));
    put(store, of_paper(handed_in, "2+1:slip ? -"));
    return value_of(document_of(store));
}

std::string refusal_at(const std::string& pointer, const Json& value) {
    Json json = example();
    json["candidates"][0]["scripts"][Json::json_pointer(pointer)] = value;
    return refusal(json);
}

Lines marks_on_desk(const Store& store) {
    Lines lines;
    for (const Script& script : Desk::scripts(store, "K07"))
        lines.push_back(to_text(script.id) + ": " + to_line(script.marks));
    return lines;
}

} // namespace

TEST_CASE("scripts are exported with what is marked and the clock, a retry by the sitting that missed it") {
    const Json json = example();
    CHECK(json["candidates"][0]["scripts"].dump() ==
          R"([{"paper":"pure-1","date":"2026-11-25","extra_time":25,"retry":null,)"
          R"("marks":{"1":"2+1:slip","7a":null,"7b":"-"},)"
          R"("clock":[{"at":"2026-11-25T09:00:00Z","event":"start","part":"1"},)"
          R"({"at":"2026-11-25T09:10:00Z","event":"go","part":"7a"},)"
          R"({"at":"2026-11-25T10:00:00Z","event":"hand in"}]},)"
          R"({"paper":"pure-1","date":"2026-11-25","extra_time":25,)"
          R"("retry":{"sitting":"2026-09-26","question":"7","turn":1},"marks":{"7a":null,"7b":null},)"
          R"("clock":[{"at":"2026-11-25T09:00:00Z","event":"start","part":"7a"}]}])");
    CHECK(value_of(read(json)) == json);
    CHECK_THAT(text_of(with_missed()), !Contains("scripts"));
}

TEST_CASE("the export of a candidate with scripts alone has them and their papers") {
    Store store = with_script(of_paper(running));
    change(store, [](Store::Change& open) {
        open.add_paper(Paper({"other", "", "", std::nullopt, RetryBy::question}, {{"1", Marks(1), "", ""}}));
    });
    const Document document = document_of(store, "K07");
    REQUIRE(document.candidates.size() == 1);
    CHECK(document.candidates[0].scripts.size() == 1);
    REQUIRE(document.papers.size() == 1);
    CHECK(document.papers[0]->id() == "pure-1");
    CHECK(document_of(store, "K08").candidates.empty());

    Store fresh = empty_store();
    const Merge done = merge_into(fresh, store);
    CHECK(done.candidates_added == 1);
    CHECK(done.scripts_added == 1);
    CHECK(text_of(fresh) == text_of(store));
}

TEST_CASE("what is wrong in a script is refused at its place") {
    const std::string at = "candidates[0].scripts";
    CHECK(refusal_at("/0/extra_time", 0).empty());
    for (const char* key : {"paper", "date", "extra_time", "retry", "marks", "clock"}) {
        Json json = example();
        json["candidates"][0]["scripts"][0].erase(key);
        CHECK(refusal(json).rfind(at + "[0]: the key " + key + " is missing", 0) == 0);
    }
    CHECK_THAT(refusal_at("/0/id", 12), StartsWith(at + "[0].id: the key is unknown"));
    CHECK_THAT(refusal_at("/1/retry/more", 1), StartsWith(at + "[1].retry.more: the key is unknown"));
    CHECK_THAT(refusal_at("/0/paper", "pure-2"), StartsWith(at + "[0].paper: paper pure-2 is not among"));
    CHECK_THAT(refusal_at("/0/date", "2026-11-26"),
               StartsWith(at + "[0].date: a script on 2026-11-26 lies in the future"));
    CHECK_THAT(refusal_at("/0/extra_time", 101), StartsWith(at + "[0].extra_time: a whole number"));
    CHECK_THAT(refusal_at("/0/marks/1", "6"), StartsWith(at + "[0].marks.1: marks '6': above"));
    CHECK_THAT(refusal_at("/0/marks/1", "?"), StartsWith(at + "[0].marks.1: marks '?'"));
    CHECK_THAT(refusal_at("/0/marks/8", nullptr), StartsWith(at + "[0].marks.8: paper pure-1 has no"));
    CHECK_THAT(refusal_at("/1/marks/1", nullptr), StartsWith(at + "[1].marks.1: the part does not belong"));
    CHECK_THAT(refusal_at("/0/marks", {{"1", "5"}}), StartsWith(at + "[0].marks: no marks for part 7a"));
    CHECK_THAT(refusal_at("/0/marks/7a", "3"), StartsWith(at + "[0].marks: every part is marked"));
    CHECK_THAT(refusal_at("/1/marks/7a", "3"), StartsWith(at + "[1].marks: the clock runs"));
    CHECK_THAT(refusal_at("/0/clock", Json::array()), StartsWith(at + "[0].clock: a clock has its start"));
    CHECK_THAT(refusal_at("/0/clock/1/event", "start"),
               StartsWith(at + "[0].clock[1]: the clock has started already"));
    CHECK_THAT(refusal_at("/1/retry/sitting", "2026-09-27"),
               StartsWith(at + "[1].retry.sitting: candidate K07 has no sitting of pure-1 on 2026-09-27"));
    CHECK_THAT(refusal_at("/1/retry/question", "8"),
               StartsWith(at + "[1].retry.question: paper pure-1 has no question 8"));
    CHECK_THAT(refusal_at("/1/retry/turn", 0), StartsWith(at + "[1].retry.turn: a whole number"));
    for (const std::size_t script : {std::size_t{0}, std::size_t{1}}) {
        Json twice = example();
        Json& scripts = twice["candidates"][0]["scripts"];
        scripts.push_back(Json(scripts[script]));
        CHECK_THAT(refusal(twice), StartsWith(at + "[2]: candidate K07 has another script of the same work"));
    }
}

TEST_CASE("a script is added under a number of its own, and left when it comes again") {
    Store other = with_script(of_paper(handed_in, "5 ? ?"));
    put_sitting(other, sat_on, "5 1 1");
    put(other, of_retry(other, handed_in, "3 ?"));
    Store here = with_paper();
    put_sitting(here, today - Days{1}, "5 3 3");
    CHECK(merge_into(here, other).scripts_added == 2);
    CHECK(marks_on_desk(here) == Lines{"3: 5 ? ?", "2q7: 3 ?"});
    const std::string once = text_of(here);
    const Merge again = merge_into(here, other);
    CHECK(again.scripts_unchanged == 2);
    CHECK(again.left_out.empty());
    CHECK(text_of(here) == once);
}

TEST_CASE("of two scripts of the same work the one that goes on is kept, under its number") {
    const auto check = [](Store behind, const Store& ahead) {
        const std::string id = to_text(Desk::scripts(behind, "K07").at(0).id);
        Store stays = empty_store();
        merge_into(stays, ahead);
        CHECK(merge_into(stays, behind).scripts_unchanged == 1);
        CHECK(text_of(stays) == text_of(ahead));
        CHECK(merge_into(behind, ahead).scripts_completed == 1);
        CHECK(text_of(behind) == text_of(ahead));
        CHECK(to_text(Desk::scripts(behind, "K07").at(0).id) == id);
    };
    check(with_script(of_paper(running)), with_script(of_paper(handed_in)));
    check(with_script(of_paper(running)), with_script(of_paper(handed_in, "? 3 ?")));
    check(with_script(of_paper(handed_in, "? 3 ?")), with_script(of_paper(handed_in, "4 3 ?")));
    check(with_retry(running), with_retry(handed_in, "? 2"));
}

TEST_CASE("of two scripts that differ that on file is kept and said so, unless it is to be replaced") {
    const auto check = [](Store here, const Store& in_file, const std::string& said) {
        const std::string before = text_of(here);
        const Merge kept = merge_into(here, in_file);
        CHECK(kept.conflicts.empty());
        CHECK(kept.left_out == Lines{said + "; --replace takes the file's"});
        CHECK(text_of(here) == before);
        const Merge replaced = merge_into(here, in_file, true);
        CHECK(replaced.scripts_replaced == 1);
        CHECK(replaced.left_out.empty());
        CHECK(text_of(here) == text_of(in_file));
    };
    const std::string of_pure_1 = "candidate K07, pure-1 of 2026-11-25, not marked through in the file: ";
    check(with_script(of_paper(handed_in, "4 ? ?")), with_script(of_paper(handed_in, "5 ? ?")),
          of_pure_1 + "part 1 is 4 here, 5 in the file");
    check(with_script(of_paper(handed_in, "4 ? ?")), with_script(of_paper(handed_in, "? 3 ?")),
          of_pure_1 + "part 1 is 4 here, not marked in the file");
    check(with_script(of_paper(handed_in)), with_script(of_paper(other_clock)),
          of_pure_1 + "event 1 of the clock is start at 2026-11-25T09:00:00Z with part 1 here, start at "
                      "2026-11-25T09:00:01Z with part 1 in the file");
    Script without_extra = of_paper(handed_in);
    without_extra.extra_time = ExtraTime();
    check(with_script(of_paper(handed_in)), with_script(without_extra),
          of_pure_1 + "extra time is 25% here, 0% in the file");
    check(with_retry(handed_in, "3 ?"), with_retry(handed_in, "2 ?"),
          "candidate K07, pure-1, question 7, turn 1 of 2026-11-25, not marked through in the file: part 7a "
          "is 3 here, 2 in the file");
}

TEST_CASE("a script whose sitting or re-attempt is on file is left out, and said so") {
    Store sat = with_paper();
    put_sitting(sat, today, "5 3 3");
    const std::string before = text_of(sat);
    const Merge done = merge_into(sat, with_script(of_paper(handed_in, "5 ? ?")), true);
    CHECK(done.left_out == Lines{"candidate K07, pure-1 of 2026-11-25, not marked through in the file: it is "
                                 "marked through here"});
    CHECK(text_of(sat) == before);

    Store retried = with_missed();
    change(retried, [](Store::Change& open) {
        open.add_reattempt(open.store().candidate("K07").sittings.at(0).id,
                           {"7", 1, today, parse_line(*pure_1(), {1, 2}, "3 3")});
    });
    const Merge of_turn = merge_into(retried, with_retry(handed_in, "3 ?"));
    CHECK(of_turn.scripts_added == 0);
    CHECK(of_turn.left_out.size() == 1);
    CHECK(Desk::scripts(retried, "K07").empty());
}

TEST_CASE("a script here becomes the sitting that it is in the file, under its number") {
    Store here = with_script(of_paper(running));
    const SittingId id = Desk::scripts(here, "K07").at(0).id.sitting;
    Store marked = with_paper();
    put_sitting(marked, sat_on, "5 3 3");
    put_sitting(marked, today, "4 3 3", handed_in);
    const Merge done = merge_into(here, marked);
    CHECK(done.conflicts.empty());
    CHECK(done.sittings_added == 2);
    CHECK(done.scripts_finished == 1);
    CHECK(text_of(here) == text_of(marked));
    CHECK(here.candidate("K07").sittings.at(1).id == id);
}

TEST_CASE("a script here goes where its re-attempt is in the file") {
    Store here = with_retry(handed_in, "3 ?");
    Store marked = with_missed();
    change(marked, [](Store::Change& open) {
        open.add_reattempt(open.store().candidate("K07").sittings.at(0).id,
                           {"7", 1, today, parse_line(*pure_1(), {1, 2}, "3 2"), handed_in});
    });
    const Merge done = merge_into(here, marked);
    CHECK(done.conflicts.empty());
    CHECK(done.reattempts_added == 1);
    CHECK(done.scripts_finished == 1);
    CHECK(text_of(here) == text_of(marked));
}

TEST_CASE("a script and a sitting with another clock are in conflict unless it is to be replaced") {
    for (const auto& clock : {other_clock, std::vector<ClockEvent>()}) {
        Store here = with_script(of_paper(handed_in, "5 ? ?"));
        const std::string before = text_of(here);
        Store marked = with_paper();
        put_sitting(marked, today, "4 3 3", clock);
        CHECK(merge_into(here, marked).conflicts ==
              Lines{"candidate K07, pure-1 of 2026-11-25: the script 1 here, not marked through, has another "
                    "clock than what is marked in the file; --replace takes the file's"});
        CHECK(text_of(here) == before);
        CHECK(merge_into(here, marked, true).conflicts.empty());
        CHECK(text_of(here) == text_of(marked));
    }
}

TEST_CASE("an import makes no second clock that runs") {
    const Store in_file = with_script(of_paper(running));
    const auto check = [&](Store here, const std::string& which) {
        const std::string before = text_of(here);
        const Merge done = merge_into(here, in_file, true);
        CHECK(done.left_out == Lines{"candidate K07, pure-1 of 2026-11-25, not marked through in the file: "
                                     "its clock runs, and so does that of " +
                                     which + " here; hand that in first"});
        CHECK(text_of(here) == before);
    };
    check(with_script(of_paper(running, "? ? ?", today - Days{1})), "1");
    {
        Store here = with_script(of_paper(other_clock));
        put(here, of_paper(running, "? ? ?", today - Days{1}));
        check(std::move(here), "2");
    }
    Store retries = with_retry(running);
    CHECK(merge_into(retries, in_file).left_out.size() == 1);

    Store handed = with_script(of_paper(handed_in, "? ? ?", today - Days{1}));
    CHECK(merge_into(handed, in_file).scripts_added == 1);
    Store replaced = with_script(of_paper(other_clock));
    CHECK(merge_into(replaced, in_file, true).scripts_replaced == 1);
}

TEST_CASE("scripts of a paper in conflict are not looked at") {
    Store here = empty_store();
    change(here, [](Store::Change& open) {
        open.add_paper(
            Paper({"pure-1", "", "pure", std::nullopt, RetryBy::question}, {{"1", Marks(5), "", ""}}));
    });
    const Merge done = merge_into(here, with_script(of_paper(handed_in)));
    CHECK(done.conflicts.size() == 1);
    CHECK(done.scripts_added == 0);
}

TEST_CASE("a document's only candidate is read under another code, with the scripts") {
    Store own = with_retry(handed_in, "3 ?");
    Store school = empty_store();
    Store::Change change(school);
    CHECK(merge(change, document_of(own), {today, false, "K99"}).scripts_added == 1);
    change.commit();
    CHECK(Desk::scripts(school, "K99").size() == 1);
    CHECK(school.candidates() == Lines{"K99"});
}
