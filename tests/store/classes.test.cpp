#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/collected.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/lessons.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/store.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Codes = std::vector<std::string>;

Paper example() {
    return Paper({"made-up", "", "", std::nullopt, RetryBy::question},
                 {{"1", Marks(3), "surds", ""}, {"2", Marks(5), "", ""}});
}

std::vector<SittingOfPaper> latest_of(const Store& store, const std::optional<std::string>& of_class) {
    return one_each(example(), store.sittings_of(example(), of_class), WhichSitting::latest);
}

/// A store that holds the paper.
struct OnFile : StoreOnFile {
    OnFile() {
        change([](Store::Change& open) { open.add_paper(example()); });
    }

    void sit(const std::string& candidate, int on, const std::string& line) {
        change([&](Store::Change& open) {
            open.add_sitting(candidate, example(), {monday + Days{on}, {}, parse_line(example(), line)});
        });
    }
};

TEST_CASE("a candidate is in several classes, and a class is emptied without them") {
    OnFile on;
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_class("friday");
        CHECK(open.add_member("tuesday", "K02"));
        CHECK(open.add_member("tuesday", "K01"));
        CHECK(open.add_member("friday", "K02"));
        CHECK_FALSE(open.add_member("friday", "K02"));
    });
    on.reopen();
    CHECK(on.store.members("tuesday") == Codes{"K01", "K02"});
    CHECK(on.store.classes_of("K02") == Codes{"friday", "tuesday"});
    REQUIRE(on.store.classes().size() == 2);
    CHECK(on.store.classes()[0].name == "friday");
    CHECK(on.store.classes()[0].members == 1);

    on.sit("K01", 0, "3 5");
    on.change([](Store::Change& open) { open.remove_class("tuesday"); });
    CHECK_FALSE(on.store.has_class("tuesday"));
    CHECK(on.store.candidates() == Codes{"K01", "K02"});
    on.change([](Store::Change& open) { open.remove_member("friday", "K02"); });
    CHECK(on.store.candidates() == Codes{"K01"});
    CHECK(on.store.members("friday").empty());
}

TEST_CASE("a class that is not on file, doubled or without a proper name is refused") {
    OnFile on;
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        CHECK_THROWS_WITH(open.add_class("tuesday"), Contains("class tuesday is already on file"));
        CHECK_THROWS_WITH(open.add_class(""), Contains("a name has 1 to 64 characters"));
        CHECK_THROWS_WITH(open.add_class(" x"), Contains("no spaces at its ends"));
        CHECK_THROWS_WITH(open.add_member("friday", "K01"), Contains("no class friday on file"));
        CHECK_THROWS_WITH(open.remove_member("tuesday", "K01"), Contains("K01 is not in class tuesday"));
        CHECK_THROWS_AS(open.remove_class("friday"), Error);
    });
    CHECK_THROWS_AS(on.store.members("friday"), Error);
    CHECK_THROWS_AS(on.store.sittings_of(example(), "friday"), Error);
    CHECK(on.store.candidates().empty());
}

TEST_CASE("the latest marks of a paper are one line per candidate, of the class asked for") {
    OnFile on;
    on.sit("K01", 3, "1 1");
    on.sit("K01", 5, "2 2");
    on.sit("K01", 4, "3 3");
    on.sit("K02", 0, "0 5");
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_member("tuesday", "K02");
    });
    const auto all = latest_of(on.store, std::nullopt);
    REQUIRE(all.size() == 2);
    CHECK(to_line(all[0].parts) == "2 2");
    CHECK(to_line(all[1].parts) == "0 5");
    const auto tuesday = latest_of(on.store, "tuesday");
    REQUIRE(tuesday.size() == 1);
    CHECK(to_line(tuesday[0].parts) == "0 5");
}

TEST_CASE("a candidate takes a new code with everything, but never another's") {
    OnFile on;
    on.sit("Kestrel-Old", 0, "1 1");
    on.sit("K02", 0, "2 2");
    on.change([](Store::Change& open) {
        CHECK_THROWS_WITH(open.rename_candidate("Kestrel-Old", "K02"), Contains("K02 is already on file"));
        CHECK_THROWS_AS(open.rename_candidate("Kestrel-Old", ""), Error);
        open.rename_candidate("Kestrel-Old", "K03");
    });
    CHECK(on.store.candidates() == Codes{"K02", "K03"});
    CHECK(to_line(on.store.candidate("K03").sittings.at(0).sitting.parts) == "1 1");
    CHECK(on.store.candidate("Kestrel-Old").sittings.empty());
    CHECK(bytes_of(on.file).find("Kestrel-Old") == std::string::npos);
}

TEST_CASE("an erased candidate leaves no trace in the bytes of the file") {
    OnFile on;
    FactId fact{};
    on.change([&](Store::Change& open) {
        open.add_class("tuesday");
        fact = FactsOnFile(open).add({FactId{}, "a^(0)", "1", "", ""});
        LessonsOnFile(open).add({"help", monday, std::nullopt, Seconds(3600), "", {"surds"}, 400});
    });
    for (int i = 0; i < 300; ++i) {
        const std::string code = "Osprey-" + std::to_string(i);
        on.sit(code, i % 7, "1+1+1:slip 2+1+1:misread");
        on.change([&](Store::Change& open) {
            const SittingId id = open.store().candidate(code).sittings.at(0).id;
            open.add_member("tuesday", code);
            open.keep_for_class("tuesday", id);
            open.add_reattempt(
                id, {"2", 1, monday + Days{20}, {full_marks(Marks(5))}, {}, {{"2", "noted-twice"}}});
            Sitting noted = open.store().candidate(code).sittings.at(0).sitting;
            noted.notes = {{"1", "noted-once"}};
            open.change_sitting(id, noted);
            open.keep_day({id, "1", monday + Days{21}});
            open.set_times(code, stated(Availability{}));
            Script script =
                blank_script(code, open.store().find_paper(example().id()), monday + Days{22}, {});
            script.events = {{ClockEventKind::start, monday + Days{22}, 0}};
            script.notes = {{"1", "noted-at-the-desk"}};
            Desk(open).add(script);
            FactsOnFile(open).add_sheet(code, sheet_of({fact}, monday));
            PlanOnFile plan(open);
            plan.add_relearned(code, {"pure", "relearned-topic", monday});
            plan.rate(code, {"pure", "rated-topic", Understanding::shaky, monday});
            CollectedFiles(open).keep_day(code, monday);
            CollectedFiles(open).keep_records(code, {{"collected-paper", monday, "1", 1}});
            PapersOnFile(open).note_absent("tuesday", example(), monday, code);
            plan.set_wishes(code, {20, {{"wished-subject", {8, monday}}}});
            plan.keep(code, {{WorkPurpose::sit, "pure", "planned-paper", 0, monday, Seconds(60)}});
            Lesson lesson = *LessonsOnFile::find(open.store(), "help");
            lesson.asked.push_back({code, Moment{monday}, {"surds"}, "remarked-so", PlaceState::confirmed});
            LessonsOnFile(open).change(lesson);
        });
    }
    REQUIRE(bytes_of(on.file).find("Osprey-217") != std::string::npos);
    REQUIRE(bytes_of(on.file).find(":misread") != std::string::npos);
    REQUIRE(bytes_of(on.file).find(" start 1") != std::string::npos);
    REQUIRE_FALSE(ChangesOnFile::list(on.store).empty());
    const std::vector<std::string> of_candidates{"relearned-topic", "wished-subject", "planned-paper",
                                                 "noted-once",      "noted-twice",    "noted-at-the-desk",
                                                 "remarked-so",     "rated-topic"};
    for (const std::string& text : of_candidates)
        REQUIRE(bytes_of(on.file).find(text) != std::string::npos);
    on.change([](Store::Change& open) {
        for (int i = 0; i < 300; ++i)
            if (i != 42)
                open.erase_candidate("Osprey-" + std::to_string(i));
    });
    on.store.compact();

    const std::string bytes = bytes_of(on.file);
    std::size_t traces = 0;
    for (std::size_t at = bytes.find("Osprey-"); at != std::string::npos; at = bytes.find("Osprey-", at + 1))
        traces += bytes.compare(at, 9, "Osprey-42") != 0;
    CHECK(traces == 0);
    CHECK(on.store.candidates() == Codes{"Osprey-42"});
    SQLite::Database database(on.file, SQLite::OPEN_READONLY);
    for (const char* table : {"sitting", "reattempt", "placement", "week", "member", "script", "sheet",
                              "sheet_fact", "planned", "relearned", "plan_wish", "papers_wished",
                              "place_asked", "topic_wanted", "collected", "collected_record", "absent"})
        CHECK(database.execAndGet(std::string("SELECT count(*) FROM ") + table).getInt() == 1);

    on.change([](Store::Change& open) { open.erase_candidate("Osprey-42"); });
    on.store.compact();
    CHECK(bytes_of(on.file).find("Osprey") == std::string::npos);
    CHECK(bytes_of(on.file).find(":misread") == std::string::npos);
    CHECK(bytes_of(on.file).find(" start 1") == std::string::npos);
    for (const std::string& text : of_candidates)
        CHECK(bytes_of(on.file).find(text) == std::string::npos);
}

TEST_CASE("a store of the first layout is brought up to date with what is in it") {
    const TempFolder folder;
    const std::string file = folder.file("first");
    {
        std::ifstream sql(INKTURN_FIRST_LAYOUT);
        const std::string text{std::istreambuf_iterator<char>(sql), std::istreambuf_iterator<char>()};
        REQUIRE_FALSE(text.empty());
        SQLite::Database(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(text);
    }
    Store store = Store::open(file);
    CHECK(store.classes().empty());
    Store::Change change(store);
    change.add_class("tuesday");
    change.add_member("tuesday", "K01");
    change.commit();
    const Candidate candidate = store.candidate("K01");
    REQUIRE(candidate.sittings.size() == 1);
    CHECK(to_line(candidate.sittings[0].sitting.parts) == "1 1");
    CHECK(candidate.sittings[0].sitting.clock.empty());
    CHECK(candidate.placements.size() == 1);
    CHECK(Desk::scripts(store, "K01").empty());
    CHECK(BoundarySets::all(store).empty());
    CHECK(store.sittings_of(example(), "tuesday").size() == 1);
}

} // namespace

TEST_CASE("a class counts its own sittings before those imported for another class") {
    OnFile on;
    on.sit("K07", 0, "3 5");
    on.sit("K07", 7, "1 1");
    on.change([](Store::Change& open) {
        for (const std::string name : {"tuesday", "friday", "late"}) {
            open.add_class(name);
            open.add_member(name, "K07");
        }
        const auto sittings = open.store().candidate("K07").sittings;
        open.keep_for_class("tuesday", sittings.at(0).id);
        open.keep_for_class("friday", sittings.at(1).id);
        open.keep_for_class("friday", sittings.at(1).id); // once more is no error
    });
    const auto in_time = [&](const std::string& name) {
        const auto latest = latest_of(on.store, name);
        return latest.size() == 1 ? latest[0].parts.at(0).in_time().count() : -1;
    };
    CHECK(in_time("tuesday") == 3);
    CHECK(in_time("friday") == 1);
    CHECK(in_time("late") == 1); // it has none of its own
    const auto sittings = on.store.candidate("K07").sittings;
    CHECK(on.store.classes_of(sittings.at(1).id) == Codes{"friday"});

    on.sit("K07", 9, "2 3"); // imported for none
    CHECK(in_time("tuesday") == 2);
    on.change([](Store::Change& open) { open.remove_class("friday"); });
    CHECK(on.store.classes_of(sittings.at(1).id).empty());
}

TEST_CASE("a store of the layout before classes had sittings is brought up to date with what is in it") {
    OnFile on;
    on.sit("K07", 0, "3 5");
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_member("tuesday", "K07");
    });
    const std::string file = on.folder.file("before");
    {
        SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("VACUUM INTO '" + file + "'");
        SQLite::Database(file, SQLite::OPEN_READWRITE)
            .exec(std::string(drop_since_12) + "DROP TABLE class_sitting; PRAGMA user_version = 11");
    }
    Store store = Store::open(file);
    CHECK(store.sittings_of(example(), "tuesday").size() == 1);
    CHECK(store.classes_of(SittingId{1}).empty());
}
