#include "inkturn/store/steering.hpp"
#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"

#include <algorithm>
#include <string>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

/// K07 sat p1 twenty days ago, missed questions 1 and 2, and got the first five days ago.
struct OnFile {
    Store store = empty_store();
    SittingId sitting{};

    OnFile() {
        const Paper paper({"p1", "", "pure", {}, RetryBy::question},
                          {{"1", Marks(5), "", ""}, {"2", Marks(4), "", ""}, {"3", Marks(3), "", ""}});
        change(store, [&](Store::Change& open) {
            open.add_paper(paper);
            sitting = open.add_sitting("K07", paper, {today - Days{20}, {}, parse_line(paper, "3 1 3"), {}});
            open.add_reattempt(sitting, {"1", 1, today - Days{5}, {full_marks(Marks(5))}, {}});
        });
    }

    template <typename Verb>
    void steer(const Verb& verb) {
        change(store, [&](Store::Change& open) { verb(SteeringOnFile(open)); });
    }
    void steer(const std::string& question, const Steering& steering) {
        steer([&](SteeringOnFile on) { on.steer({sitting, question, steering}); });
    }
    void steer_paper(const Steering& steering) {
        steer([&](SteeringOnFile on) { on.steer("K07", {WorkPurpose::sit, "pure", "p2", steering}); });
    }
    void ask_again() {
        steer([&](SteeringOnFile on) { on.ask_again(sitting, {"1", 2, today - Days{1}}); });
    }
    Json json() const { return value_of(document_of(store)); }
    std::string text() const { return text_of(store); }
};

/// Asked for the first question again and on a day, dropped the second, and steered a paper and a topic.
OnFile steered() {
    OnFile on;
    on.ask_again();
    on.steer("1", {today + Days{20}, std::nullopt});
    on.steer("2", {std::nullopt, LetGo{today, "not set"}});
    on.steer_paper({today + Days{4}, std::nullopt});
    on.steer([](SteeringOnFile open) {
        open.steer("K07", {WorkPurpose::relearn, "pure", "vectors", {std::nullopt, LetGo{today, "known"}}});
    });
    return on;
}

std::string refused(const std::string& at, const Json& with) {
    Json json = steered().json();
    json[Json::json_pointer(at)] = with;
    return refusal(json);
}

} // namespace

TEST_CASE("what was decided about single work goes along, and is read back in its order") {
    const OnFile on = steered();
    const Json json = on.json();
    const Json& candidate = json["candidates"][0];
    CHECK(candidate["sittings"][0]["asked_again"].dump() ==
          R"([{"question":"1","turn":2,"date":"2026-11-24"}])");
    CHECK(candidate["steered_retries"].dump() ==
          R"([{"paper":"p1","sitting":"2026-11-05","question":"1","wanted":"2026-12-15"},)"
          R"({"paper":"p1","sitting":"2026-11-05","question":"2","dropped":)"
          R"({"date":"2026-11-25","reason":"not set"}}])");
    CHECK(candidate["steered_work"].dump() ==
          R"([{"kind":"sit","subject":"pure","name":"p2","wanted":"2026-11-29"},)"
          R"({"kind":"relearn","subject":"pure","name":"vectors","dropped":)"
          R"({"date":"2026-11-25","reason":"known"}}])");
    CHECK(to_text(read(json)) == on.text());

    Json reversed = json;
    for (const char* key : {"steered_retries", "steered_work"})
        std::reverse(reversed["candidates"][0][key].begin(), reversed["candidates"][0][key].end());
    CHECK(reversed != json);
    CHECK(to_text(read(reversed)) == on.text());

    Store fresh = empty_store();
    const Merge done = merge_into(fresh, on.store);
    CHECK(done.turns_asked_added == 1);
    CHECK(done.steered_added == 4);
    CHECK(text_of(fresh) == on.text());
    CHECK(merge_into(fresh, on.store).steered_added == 0);

    const OnFile plain;
    CHECK_THAT(plain.text(), !Contains("steered") && !Contains("asked_again"));
}

TEST_CASE("what is decided is about open questions, papers and topics, with a reason for a drop") {
    CHECK_THAT(refused("/candidates/0/steered_retries/0/question", "3"), Contains("is not open"));
    CHECK_THAT(refused("/candidates/0/steered_retries/0/question", "2"), Contains("appears twice"));
    CHECK_THAT(refused("/candidates/0/steered_retries/0/sitting", "2026-11-06"), Contains("has no sitting"));
    CHECK_THAT(refused("/candidates/0/steered_retries/1/dropped/date", "2026-11-26"),
               Contains("is in the future"));
    CHECK_FALSE(refused("/candidates/0/steered_retries/1/dropped/reason", "").empty());
    CHECK_THAT(refused("/candidates/0/steered_work/0/kind", "recall"), Contains("neither sit nor relearn"));
    CHECK_FALSE(refused("/candidates/0/steered_work/0/name", "").empty());
    CHECK_FALSE(refused("/candidates/0/sittings/0/asked_again/0/turn", 1).empty());
    CHECK_FALSE(refused("/candidates/0/sittings/0/asked_again/0/question", "9").empty());
    CHECK_FALSE(refused("/candidates/0/steered_work/0", Json{{"kind", "sit"}, {"subject", ""}, {"name", "p"}})
                    .empty());
}

TEST_CASE("a re-attempt after a secured one follows only a turn that was asked for") {
    OnFile on;
    on.ask_again();
    change(on.store, [&](Store::Change& open) {
        open.add_reattempt(on.sitting, {"1", 2, today, {full_marks(Marks(5))}, {}});
    });
    CHECK(to_text(read(on.json())) == on.text());
    Json json = on.json();
    json["candidates"][0]["sittings"][0].erase("asked_again");
    CHECK_THAT(refusal(json), Contains("was secured before"));

    OnFile here;
    const Merge done = merge_into(here.store, on.store);
    CHECK(done.conflicts.empty());
    CHECK(done.turns_asked_added == 1);
    CHECK(done.reattempts_added == 1);
    CHECK(here.text() == on.text());
}

TEST_CASE("decisions that differ are in conflict until one is to replace the other") {
    OnFile here;
    here.steer("2", {today + Days{3}, std::nullopt});
    OnFile in_file;
    in_file.steer("2", {std::nullopt, LetGo{today, "not set"}});
    in_file.steer_paper({today + Days{4}, std::nullopt});
    const std::string before = here.text();
    CHECK(texts_of(merge_into(here.store, in_file.store).conflicts) ==
          Lines{"candidate K07, p1 of 2026-11-05: question 2 is asked for on 2026-11-28 here, dropped on "
                "2026-11-25 in the file; --replace takes the file's"});
    CHECK(here.text() == before);
    const Merge done = merge_into(here.store, in_file.store, true);
    CHECK(done.steered_replaced == 1);
    CHECK(done.steered_added == 1);
    CHECK(here.text() == in_file.text());
}

TEST_CASE("a decision about a turn that is over here is left out") {
    OnFile here;
    change(here.store, [&](Store::Change& open) {
        open.add_reattempt(here.sitting, {"2", 1, today, {full_marks(Marks(4))}, {}});
    });
    OnFile in_file;
    in_file.steer("2", {today + Days{3}, std::nullopt});
    const std::string before = here.text();
    CHECK(merge_into(here.store, in_file.store).steered_added == 0);
    CHECK(here.text() == before);
}
