#include "inkturn/store/plan.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/store.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"
#include "temp_folder.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct OnFile : StoreOnFile {
    template <typename Verb>
    void plan(const Verb& verb) {
        change([&](Store::Change& open) { verb(PlanOnFile(open)); });
    }

    std::string days(const std::string& code = "K07") const {
        std::string text;
        for (const PlannedWork& work : store.candidate(code).planned)
            text += std::string(name(work.what)) + " " + work.subject + " " + work.name + " " +
                    std::to_string(work.number) + " " + std::to_string((work.day - monday).count()) + " " +
                    std::to_string(work.duration.count()) + "\n";
        return text;
    }
};

const std::vector<PlannedWork> example{
    {WorkPurpose::sit, "pure", "pure-3", 0, monday + Days{5}, Seconds(5400)},
    {WorkPurpose::relearn, "pure", "vectors", 2, monday, Seconds(1800)},
    {WorkPurpose::check, "pure", "series", 0, monday + Days{1}, Seconds(900)},
    {WorkPurpose::recall, "", "4", 0, monday + Days{1}, Seconds(45)},
    {WorkPurpose::reservation, "", "", 0, monday + Days{20}, Seconds(600)}};

} // namespace

TEST_CASE("a plan that is kept takes the place of the one before, by day") {
    OnFile on;
    on.plan([](PlanOnFile plan) { plan.keep("K07", {example[0], example[0]}); });
    on.plan([](PlanOnFile plan) { plan.keep("K07", example); });
    CHECK(on.days() == "relearn pure vectors 2 0 1800\ncheck pure series 0 1 900\nrecall  4 0 1 45\nsit pure "
                       "pure-3 0 5 5400\n"
                       "foreseen   0 20 600\n");
    CHECK(on.days("K08").empty());
}

TEST_CASE("wishes for a plan are read back, and can be undone") {
    OnFile on;
    CHECK(on.store.candidate("K07").wishes.is_default());
    on.plan([](PlanOnFile plan) {
        plan.set_wishes("K07", {20, {{"pure", {8, monday}}, {"", {0, monday}}}});
    });
    const PlanWishes wishes = on.store.candidate("K07").wishes;
    CHECK(wishes.marking_percent == 20);
    REQUIRE(wishes.papers.size() == 2);
    CHECK(wishes.papers.at("pure").count == 8);
    CHECK(wishes.papers.at("pure").since == monday);
    on.plan([](PlanOnFile plan) { plan.set_wishes("K07", {}); });
    CHECK(on.store.candidate("K07").wishes.is_default());
}

TEST_CASE("which misses make a retry is read back, and a rule out of range refused") {
    OnFile on;
    PlanWishes wishes;
    wishes.retries = {Marks(2), false};
    on.plan([&](PlanOnFile plan) { plan.set_wishes("K07", wishes); });
    const RetryRule rule = on.store.candidate("K07").wishes.retries;
    CHECK(rule.missed_from == Marks(2));
    CHECK_FALSE(rule.slips);
    wishes.retries = {Marks(500), true};
    on.plan([&](PlanOnFile plan) { plan.set_wishes("K07", wishes); });
    CHECK(on.store.candidate("K07").wishes.retries.missed_from == Marks(500));
    CHECK(on.store.candidate("K07").wishes.retries.slips);
    for (const int marks : {0, 501}) {
        wishes.retries.missed_from = Marks(marks);
        CHECK_THROWS_AS(on.plan([&](PlanOnFile plan) { plan.set_wishes("K07", wishes); }), Error);
    }
}

TEST_CASE("a topic that was relearned is off the plan, once a day, until that is undone") {
    OnFile on;
    const Relearned vectors{"pure", "vectors", monday};
    on.plan([](PlanOnFile plan) { plan.keep("K07", example); });
    on.plan([&](PlanOnFile plan) {
        CHECK(plan.add_relearned("K07", vectors));
        CHECK_FALSE(plan.add_relearned("K07", vectors));
    });
    CHECK(on.days().find("relearn") == std::string::npos);
    REQUIRE(on.store.candidate("K07").relearned.size() == 1);
    CHECK(on.store.candidate("K07").relearned[0].topic == "vectors");
    on.plan([&](PlanOnFile plan) {
        CHECK(plan.remove_relearned("K07", vectors));
        CHECK_FALSE(plan.remove_relearned("K07", vectors));
        CHECK_FALSE(plan.remove_relearned("nobody", vectors));
    });
    CHECK(on.store.candidate("K07").relearned.empty());
}

TEST_CASE("half of a topic takes one piece off the plan, and two halves of a day are the whole") {
    OnFile on;
    const Relearned half{"pure", "vectors", monday, true};
    on.plan([](PlanOnFile plan) {
        plan.keep("K07", {{WorkPurpose::relearn, "pure", "vectors", 1, monday, Seconds(1800)},
                          {WorkPurpose::relearn, "pure", "vectors", 2, monday + Days{1}, Seconds(1800)}});
    });
    on.plan([&](PlanOnFile plan) { CHECK(plan.add_relearned("K07", half)); });
    REQUIRE(on.store.candidate("K07").planned.size() == 1);
    CHECK(on.store.candidate("K07").planned[0].number == 2);
    CHECK(on.store.candidate("K07").relearned.at(0).half);
    on.plan([&](PlanOnFile plan) { CHECK(plan.add_relearned("K07", half)); });
    CHECK(on.store.candidate("K07").planned.empty());
    REQUIRE(on.store.candidate("K07").relearned.size() == 1);
    CHECK_FALSE(on.store.candidate("K07").relearned[0].half);
    on.plan([&](PlanOnFile plan) { CHECK_FALSE(plan.add_relearned("K07", half)); });
    CHECK_FALSE(on.store.candidate("K07").relearned[0].half);
}

TEST_CASE("a paper or a fact that is taken off file is off the plan") {
    OnFile on;
    Store::Change change(on.store);
    change.add_paper(Paper({"pure-3", "", "pure", {}, RetryBy::question}, {{"1", Marks(5), "", ""}}));
    change.set_times("K07", stated({})); // else nothing is on file of them
    const FactId fact = FactsOnFile(change).add({FactId{}, "a", "b", "", ""});
    std::vector<PlannedWork> planned = example;
    planned[3].name = std::to_string(static_cast<std::int64_t>(fact));
    PlanOnFile(change).keep("K07", planned);
    change.remove_paper("pure-3");
    FactsOnFile(change).remove(fact);
    change.commit();
    CHECK(on.days() == "relearn pure vectors 2 0 1800\ncheck pure series 0 1 900\nforeseen   0 20 600\n");
}

TEST_CASE("free days are kept with the availability") {
    OnFile on;
    Store::Change change(on.store);
    Availability availability;
    availability.free_days = Days(3);
    change.set_times("K07", stated(availability));
    change.commit();
    CHECK(on.store.candidate("K07").availability.free_days == Days(3));
    CHECK(on.store.candidate("K08").availability.free_days == Days(1));
}

TEST_CASE("a rating of a topic takes the place of the one before, and goes with its candidate") {
    OnFile on;
    on.plan([](PlanOnFile plan) {
        plan.rate("K07", {"pure", "vectors", Understanding::shaky, monday});
        plan.rate("K07", {"pure", "logs", Understanding::sure, monday});
        plan.rate("K07", {"pure", "vectors", Understanding::not_understood, monday + Days{7}});
        plan.rate("K08", {"", "vectors", Understanding::sure, monday});
    });
    const std::vector<TopicRating> ratings = PlanOnFile::ratings(on.store, "K07");
    REQUIRE(ratings.size() == 2);
    CHECK(ratings[0].topic == "logs");
    CHECK(ratings[1].understanding == Understanding::not_understood);
    CHECK(ratings[1].day == monday + Days{7});
    CHECK(PlanOnFile::ratings(on.store, "K99").empty());
    CHECK(on.store.candidates() == std::vector<std::string>{"K07", "K08"});
    CHECK_THROWS_AS(on.plan([](PlanOnFile plan) {
        plan.rate("K07", {"pure", "", Understanding::sure, monday});
    }),
                    Error);
}

TEST_CASE("a store of version 13 takes ratings once it is opened") {
    const TempFolder folder;
    const std::string file = folder.file("thirteen");
    {
        Store store = Store::open(file);
        Store::Change change(store);
        PlanOnFile(change).add_relearned("K07", {"pure", "vectors", monday});
        change.commit();
    }
    SQLite::Database(file, SQLite::OPEN_READWRITE)
        .exec(std::string(inkturn::test::drop_since_13) + "PRAGMA user_version = 13;");
    Store store = Store::open(file);
    CHECK(PlanOnFile::ratings(store, "K07").empty());
    CHECK(store.candidate("K07").relearned.size() == 1);
    Store::Change change(store);
    PlanOnFile(change).rate("K07", {"pure", "vectors", Understanding::sure, monday});
    change.commit();
    CHECK(PlanOnFile::ratings(store, "K07").size() == 1);
}
