#include "inkturn/store/plan.hpp"
#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"

#include <functional>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const Relearned vectors{"pure", "vectors", today - Days{9}};
const PlanWishes eight{20, {{"pure", {8, today - Days{3}}}}};

/// What K07 says of the plan, and nothing else.
struct OnFile {
    Store store = empty_store();

    template <typename Verb>
    void change(const Verb& verb) {
        test::change(store, [&](Store::Change& open) { verb(PlanOnFile(open)); });
    }
    void relearn(const Relearned& relearned) {
        change([&](PlanOnFile plan) { plan.add_relearned("K07", relearned); });
    }
    void wish(const PlanWishes& wishes) {
        change([&](PlanOnFile plan) { plan.set_wishes("K07", wishes); });
    }
    void set_free_days(int count) {
        Availability availability;
        availability.free_days = Days(count);
        test::change(store, [&](Store::Change& open) { open.set_times("K07", stated(availability)); });
    }

    Merge take(const OnFile& other, bool replace = false) { return merge_into(store, other.store, replace); }

    Candidate candidate() const { return store.candidate("K07"); }
    Json json() const { return value_of(document_of(store)); }
    std::string text() const { return text_of(store); }
};

OnFile with_wishes(const PlanWishes& wishes) {
    OnFile on;
    on.wish(wishes);
    return on;
}

OnFile with_free_days(int count) {
    OnFile on;
    on.set_free_days(count);
    return on;
}

/// Of the second in the first, which stays as it is.
Lines conflicts(OnFile& here, const OnFile& in_file) {
    const std::string before = here.text();
    const Merge done = here.take(in_file);
    CHECK(here.text() == before);
    return texts_of(done.conflicts);
}

} // namespace

TEST_CASE(
    "a whole week goes along with or without a number of days kept free, and is no conflict with itself") {
    for (const std::optional<Days> free_days :
         {std::optional<Days>(), std::optional<Days>(Days(1)), std::optional<Days>(Days(2))}) {
        OnFile on;
        StatedTimes times = stated(Availability());
        times.free_days = free_days;
        test::change(on.store, [&](Store::Change& open) { open.set_times("K07", times); });
        OnFile other;
        other.take(on);
        CHECK(other.candidate().own_times == times);
        CHECK(conflicts(on, other).empty());
        CHECK(conflicts(other, on).empty());
    }
    OnFile unset;
    StatedTimes times = stated(Availability());
    times.free_days.reset();
    test::change(unset.store, [&](Store::Change& open) { open.set_times("K07", times); });
    OnFile one = with_free_days(1);
    CHECK(conflicts(unset, one).empty()); // as an earlier export had it
    CHECK(conflicts(one, unset).empty());
}

TEST_CASE("topics relearned and wishes for the plan go along, and are read back in their order") {
    OnFile on;
    on.relearn({"pure", "surds", today});
    on.relearn(vectors);
    on.relearn({"", "vectors", today});
    on.wish({300, {{"pure", {365, today}}, {"", {0, earliest_day}}}});
    const Json json = on.json();
    CHECK(json["candidates"][0]["relearned_topics"].dump() ==
          R"([{"subject":"pure","topic":"vectors","date":"2026-11-16"},)"
          R"({"subject":"","topic":"vectors","date":"2026-11-25"},)"
          R"({"subject":"pure","topic":"surds","date":"2026-11-25"}])");
    CHECK(json["candidates"][0]["plan_wishes"].dump() ==
          R"({"marking_percent":300,"papers":[{"subject":"","papers":0,"since":"1900-01-01"},)"
          R"({"subject":"pure","papers":365,"since":"2026-11-25"}]})");
    CHECK(to_text(read(json)) == on.text());

    Json reversed = json;
    Json& candidate = reversed["candidates"][0];
    std::reverse(candidate["relearned_topics"].begin(), candidate["relearned_topics"].end());
    std::reverse(candidate["plan_wishes"]["papers"].begin(), candidate["plan_wishes"]["papers"].end());
    CHECK(reversed != json);
    CHECK(to_text(read(reversed)) == on.text());
}

TEST_CASE("a candidate is exported who said no more than what was relearned or is wished") {
    OnFile relearned;
    relearned.relearn(vectors);
    REQUIRE(relearned.json()["candidates"].size() == 1);
    CHECK_FALSE(relearned.json()["candidates"][0].contains("plan_wishes"));
    CHECK(value_of(document_of(relearned.store, "K07"))["candidates"] == relearned.json()["candidates"]);

    const OnFile wished = with_wishes({49, {}});
    REQUIRE(wished.json()["candidates"].size() == 1);
    CHECK_FALSE(wished.json()["candidates"][0].contains("relearned_topics"));
    CHECK(wished.json()["candidates"][0]["plan_wishes"].dump() == R"({"marking_percent":49,"papers":[]})");

    const OnFile taken_back = with_wishes({});
    REQUIRE(taken_back.store.has_candidate("K07"));
    CHECK(taken_back.json()["candidates"].empty());
}

TEST_CASE("days chosen for papers, topics and facts are not told, since they are placed anew") {
    OnFile on;
    on.change([](PlanOnFile plan) {
        plan.keep("K07", {{WorkPurpose::sit, "pure", "pure-3", 0, today, Seconds(5400)},
                          {WorkPurpose::relearn, "pure", "vectors", 1, today, Seconds(1800)}});
    });
    CHECK(on.candidate().planned.size() == 2);
    CHECK(on.json()["candidates"].empty());
    on.wish(eight);
    REQUIRE(document_of(on.store).candidates.size() == 1);
    CHECK(document_of(on.store).candidates[0].candidate.planned.empty());
    CHECK_THAT(on.text(), !Contains("pure-3") && !Contains("vectors"));
}

TEST_CASE("how many days stay free each week is told where it is not one") {
    OnFile on = with_free_days(0);
    CHECK(on.json()["candidates"][0]["availability"]["free_days"] == 0);
    CHECK(read(on.json()).candidates.at(0).candidate.own_times.free_days == Days(0));
    on.set_free_days(6);
    CHECK(to_text(read(on.json())) == on.text());

    Availability long_days;
    long_days.week[0] = Seconds(7200);
    change(on.store, [&](Store::Change& open) { open.set_times("K07", stated(long_days)); });
    CHECK_FALSE(on.json()["candidates"][0]["availability"].contains("free_days"));
    CHECK(read(on.json()).candidates.at(0).candidate.own_times.free_days == Days(1));
}

TEST_CASE("days that stay free are taken where one does, else they are in conflict") {
    OnFile here;
    CHECK(here.take(with_free_days(2)).availabilities_added == 1);
    CHECK(here.candidate().availability.free_days == Days(2));
    CHECK(conflicts(here, with_free_days(0)) ==
          Lines{"candidate K07: the count of days kept free each week is 2 here, 0 in the file; --replace "
                "takes the file's"});
    CHECK(here.take(with_free_days(0), true).availabilities_replaced == 1);
    CHECK(here.candidate().availability.free_days == Days(0));
}

TEST_CASE("topics relearned are those of both, and off the plan") {
    OnFile here;
    OnFile there;
    here.relearn({"pure", "surds", today});
    there.relearn({"pure", "surds", today});
    there.relearn({"pure", "surds", today - Days{1}});
    there.relearn(vectors);
    here.change([](PlanOnFile plan) {
        plan.keep("K07", {{WorkPurpose::relearn, "pure", "vectors", 1, today, Seconds(1800)},
                          {WorkPurpose::relearn, "", "vectors", 1, today, Seconds(1800)}});
    });
    CHECK(here.take(there).relearned_topics_added == 2);
    CHECK(here.text() == there.text());
    REQUIRE(here.candidate().planned.size() == 1);
    CHECK(here.candidate().planned[0].subject.empty());
    CHECK(there.take(here).relearned_topics_added == 0);
}

TEST_CASE("half of a topic and the whole of it on a day are the whole of it, whichever store has it") {
    const Relearned half{vectors.subject, vectors.topic, vectors.day, true};
    OnFile here;
    OnFile there;
    here.relearn(half);
    there.relearn(half);
    CHECK(here.take(there).relearned_topics_added == 0);
    CHECK(here.candidate().relearned.at(0).half);
    OnFile whole;
    whole.relearn(vectors);
    CHECK(here.take(whole).relearned_topics_added == 1);
    CHECK_FALSE(here.candidate().relearned.at(0).half);
    CHECK(whole.take(there).relearned_topics_added == 0);
    CHECK(whole.text() == here.text());
}

TEST_CASE("a topic to relearn once more stays on the plan when an old note of it meets again") {
    OnFile here;
    OnFile there;
    here.relearn(vectors);
    there.relearn(vectors);
    here.change([](PlanOnFile plan) {
        plan.keep("K07", {{WorkPurpose::relearn, "pure", "vectors", 1, today, Seconds(1800)}});
    });
    CHECK(here.take(there).relearned_topics_added == 0);
    CHECK(here.candidate().planned.size() == 1);
}

TEST_CASE("wishes for the plan are taken where there are none, else they are in conflict") {
    OnFile here;
    CHECK(here.take(with_wishes(eight)).plan_wishes_added == 1);
    CHECK(here.text() == with_wishes(eight).text());
    CHECK(conflicts(here, with_wishes(eight)).empty());
    CHECK(here.take(with_wishes(eight), true).plan_wishes_replaced == 0);

    PlanWishes other = eight;
    other.marking_percent = 50;
    CHECK(conflicts(here, with_wishes(other)) ==
          Lines{"candidate K07: the time to mark a paper is 20% here, 50% in the file; --replace takes the "
                "file's"});
    other = eight;
    other.papers["pure"].since = today;
    CHECK(conflicts(here, with_wishes(other)) ==
          Lines{"candidate K07: the count of papers to sit of pure is 8 from 2026-11-22 here, 8 from "
                "2026-11-25 in the file; --replace takes the file's"});
    other.papers = {{"", {3, today}}, {"pure", {8, today - Days{3}}}};
    CHECK(conflicts(here, with_wishes(other)) ==
          Lines{"candidate K07: the count of papers to sit is not stated here, 3 from 2026-11-25 in the "
                "file; --replace takes the file's"});
    CHECK(here.take(with_wishes(other), true).plan_wishes_replaced == 1);
    CHECK(here.text() == with_wishes(other).text());
    CHECK(conflicts(here, with_wishes({20, {}})).size() == 1);
}

TEST_CASE("a file that says nothing of the plan leaves wishes as they are") {
    OnFile here = with_wishes(eight);
    OnFile there;
    there.relearn(vectors);
    CHECK(here.take(there, true).plan_wishes_replaced == 0);
    CHECK(here.candidate().wishes.papers.size() == 1);
    CHECK(here.candidate().wishes.marking_percent == 20);
}

TEST_CASE("what is said of the plan is taken under another code") {
    OnFile here;
    OnFile there = with_wishes(eight);
    there.relearn(vectors);
    change(here.store, [&](Store::Change& open) {
        merge(open, document_of(there.store), {today, false, "K12"});
    });
    CHECK_FALSE(here.store.has_candidate("K07"));
    CHECK(here.store.candidate("K12").relearned.size() == 1);
    CHECK_FALSE(here.store.candidate("K12").wishes.is_default());
}

TEST_CASE("what a store would not take of the plan is refused with the way to it") {
    OnFile on = with_wishes(eight);
    on.set_free_days(2);
    on.relearn(vectors);
    const Json good = on.json();
    const auto refusal = [&](const std::function<void(Json&)>& spoil) -> std::string {
        Json json = good;
        spoil(json["candidates"][0]);
        return test::refusal(json);
    };
    const auto refused = [&](const char* pointer, const Json& value) {
        return refusal([&](Json& candidate) { candidate[Json::json_pointer(pointer)] = value; });
    };

    CHECK_THAT(refused("/availability/free_days", 7),
               StartsWith("candidates[0].availability.free_days: a whole number from 0 to 6"));
    CHECK_THAT(refused("/availability/free_days", -1), Contains("free_days: a whole number"));
    CHECK_THAT(refused("/availability/free_days", "two"), Contains("free_days: a whole number"));

    CHECK_THAT(
        refused("/relearned_topics/0/date", "2026-11-26"),
        StartsWith("candidates[0].relearned_topics[0].date: relearning on 2026-11-26 is in the future"));
    CHECK_THAT(refused("/relearned_topics/0/date", "1899-12-31"),
               StartsWith("candidates[0].relearned_topics[0].date: "));
    CHECK_THAT(refused("/relearned_topics/0/topic", "a\nb"),
               StartsWith("candidates[0].relearned_topics[0]: topic: no line"));
    CHECK_THAT(refused("/relearned_topics/0/topic", std::string(201, 'x')), Contains("topic: at most 200"));
    CHECK_THAT(refused("/relearned_topics/0/pieces", 0),
               StartsWith("candidates[0].relearned_topics[0].pieces: "));
    CHECK_THAT(refused("/relearned_topics/0/pieces", 3),
               StartsWith("candidates[0].relearned_topics[0].pieces: "));
    CHECK_THAT(refused("/relearned_topics/0/topic", ""),
               StartsWith("candidates[0].relearned_topics[0].topic: "));
    CHECK_THAT(refused("/relearned_topics/0/subject", "a\tb"),
               StartsWith("candidates[0].relearned_topics[0]: subject: no line"));
    CHECK_THAT(refused("/relearned_topics/0/subject", std::string(201, 'x')),
               Contains("subject: at most 200"));
    CHECK_THAT(refused("/relearned_topics/0/subject", nullptr),
               StartsWith("candidates[0].relearned_topics[0].subject: text is expected"));
    CHECK_THAT(refused("/relearned_topics/0/piece", 1),
               Contains("relearned_topics[0].piece: the key is unknown"));
    CHECK_THAT(refused("/relearned_topics", nullptr),
               StartsWith("candidates[0].relearned_topics: a list is expected"));
    CHECK_THAT(refusal([](Json& candidate) {
                   Json& relearned = candidate["relearned_topics"];
                   relearned.push_back(Json(relearned[0]));
               }),
               StartsWith("candidates[0].relearned_topics[1]: the topic appears twice on 2026-11-16"));

    CHECK_THAT(refused("/plan_wishes/marking_percent", 301),
               StartsWith("candidates[0].plan_wishes.marking_percent: a whole number from 0 to 300"));
    CHECK_THAT(refused("/plan_wishes/marking_percent", -1),
               Contains("plan_wishes.marking_percent: a whole number"));
    CHECK_THAT(refused("/plan_wishes/papers/0/papers", 366),
               StartsWith("candidates[0].plan_wishes.papers[0].papers: a whole number from 0 to 365"));
    CHECK_THAT(refused("/plan_wishes/papers/0/papers", -1), Contains("papers[0].papers: a whole number"));
    CHECK_THAT(
        refused("/plan_wishes/papers/0/since", "2026-11-26"),
        StartsWith("candidates[0].plan_wishes.papers[0].since: a wish on 2026-11-26 is in the future"));
    CHECK_THAT(refused("/plan_wishes/papers/0/subject", "a\nb"),
               StartsWith("candidates[0].plan_wishes.papers[0]: subject: no line"));
    CHECK_THAT(refused("/plan_wishes/papers/0/subject", std::string(201, 'x')),
               Contains("subject: at most 200"));
    CHECK_THAT(refused("/plan_wishes/days", 1),
               StartsWith("candidates[0].plan_wishes.days: the key is unknown"));
    CHECK_THAT(refused("/plan_wishes", nullptr),
               StartsWith("candidates[0].plan_wishes: an object is expected"));
    CHECK_THAT(refusal([](Json& candidate) {
                   Json& papers = candidate["plan_wishes"]["papers"];
                   papers.push_back({{"subject", "pure"}, {"papers", 1}, {"since", "2026-11-01"}});
               }),
               StartsWith("candidates[0].plan_wishes.papers[1]: the subject appears twice"));
    CHECK_THAT(refusal([](Json& candidate) { candidate["plan_wishes"].erase("papers"); }),
               StartsWith("candidates[0].plan_wishes: the key papers is missing"));
    CHECK_THAT(refusal([](Json& candidate) { candidate["relearned_topics"][0].erase("date"); }),
               StartsWith("candidates[0].relearned_topics[0]: the key date is missing"));

    CHECK(refused("/availability/free_days", 6).empty());
    CHECK(refused("/relearned_topics/0/date", "2026-11-25").empty());
    CHECK(refused("/relearned_topics/0/topic", std::string(200, 'x')).empty());
    CHECK(refused("/relearned_topics/0/subject", "").empty());
    CHECK(refused("/plan_wishes/papers/0/since", "2026-11-25").empty());
    CHECK(refused("/plan_wishes/papers/0/papers", 365).empty());
}
