#include "inkturn/store/lessons.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/changes.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Codes = std::vector<std::string>;

Lesson example() {
    Lesson lesson{
        "vectors-1", monday + Days{5}, std::chrono::hours{16}, Seconds(5400), "pure", {"series", "vectors"},
        8,           PlaceOrder::marks};
    lesson.asked = {
        {"K02", Moment{monday} + Seconds(60), {"vectors"}, "lost, since the mock", PlaceState::confirmed},
        {"K01", Moment{monday} + Seconds(60), {}, "", PlaceState::offered},
        {"K09", Moment{monday} + Seconds(90), {}, "", PlaceState::asked}};
    return lesson;
}

std::string text(const Lesson& lesson) {
    std::string all = lesson.id + " " + iso(lesson.day) + " " +
                      (lesson.start ? std::to_string(lesson.start->count()) : "-") + " " +
                      std::to_string(lesson.duration.count()) + " " + lesson.subject + " " +
                      topics_text(lesson.topics) + " " + std::to_string(lesson.places) + " " +
                      std::string(name(lesson.order));
    for (const PlaceAsked& asked : lesson.asked)
        all += " | " + asked.candidate + " " + iso(asked.at) + " " + topics_text(asked.topics) + " " +
               asked.remark + " " + std::string(name(asked.state));
    return all;
}

} // namespace

TEST_CASE("a lesson comes back with who asked, in their order, known before or not") {
    StoreOnFile on;
    on.change([](Store::Change& open) { LessonsOnFile(open).add(example()); });
    on.reopen();
    REQUIRE(LessonsOnFile::all(on.store).size() == 1);
    CHECK(text(LessonsOnFile::all(on.store)[0]) == text(example()));
    CHECK(text(*LessonsOnFile::find(on.store, "vectors-1")) == text(example()));
    CHECK_FALSE(LessonsOnFile::find(on.store, "vectors-2"));
    CHECK(on.store.candidates() == Codes{"K01", "K02", "K09"});
}

TEST_CASE("a candidate has the lessons that they come to, and their time is taken from the day") {
    StoreOnFile on;
    on.change([](Store::Change& open) { LessonsOnFile(open).add(example()); });
    const Candidate comes = on.store.candidate("K02");
    REQUIRE(comes.lessons.size() == 1);
    CHECK(comes.lessons[0].lesson == "vectors-1");
    CHECK(comes.lessons[0].topics == Codes{"series", "vectors"});
    CHECK(comes.availability.taken.at(monday + Days{5}) == Seconds(5400));
    CHECK(on.store.candidate("K01").lessons.empty()); // not confirmed
    CHECK(on.store.candidate("K01").availability.taken.empty());
}

TEST_CASE("a lesson is changed as a whole, and a candidate with nothing else on file goes with it") {
    StoreOnFile on;
    on.change([](Store::Change& open) { LessonsOnFile(open).add(example()); });
    Lesson changed = example();
    changed.day = monday + Days{6};
    changed.start.reset();
    changed.topics = {"vectors"};
    changed.asked.pop_back();
    on.change([&](Store::Change& open) { LessonsOnFile(open).change(changed); });
    CHECK(text(*LessonsOnFile::find(on.store, "vectors-1")) == text(changed));
    CHECK(on.store.candidates() == Codes{"K01", "K02"});
    on.change([](Store::Change& open) { LessonsOnFile(open).remove("vectors-1"); });
    CHECK(LessonsOnFile::all(on.store).empty());
    CHECK(on.store.candidates().empty());
}

TEST_CASE("a lesson that can't be, or is there already, or isn't, is refused") {
    StoreOnFile on;
    on.change([](Store::Change& open) {
        LessonsOnFile lessons(open);
        lessons.add(example());
        CHECK_THROWS_WITH(lessons.add(example()), Contains("already on file"));
        Lesson other = example();
        other.id = "vectors-2";
        CHECK_THROWS_WITH(lessons.change(other), Contains("no lesson vectors-2"));
        CHECK_THROWS_WITH(lessons.remove("vectors-2"), Contains("no lesson vectors-2"));
        other.asked[0].topics = {"surds"};
        CHECK_THROWS_WITH(lessons.add(other), Contains("is not on 'surds'"));
    });
}

TEST_CASE("renaming and erasing a candidate follow into lessons") {
    StoreOnFile on;
    on.change([](Store::Change& open) { LessonsOnFile(open).add(example()); });
    on.change([](Store::Change& open) { open.rename_candidate("K02", "K05"); });
    CHECK(LessonsOnFile::find(on.store, "vectors-1")->asked[0].candidate == "K05");
    on.change([](Store::Change& open) { open.erase_candidate("K05"); });
    on.store.compact();
    CHECK(LessonsOnFile::find(on.store, "vectors-1")->asked.size() == 2);
    CHECK(bytes_of(on.file).find("since the mock") == std::string::npos);
}

TEST_CASE("what became of a place is taken back and brought back") {
    StoreOnFile on;
    on.change([](Store::Change& open) { LessonsOnFile(open).add(example()); });
    on.reopen();
    Lesson declined = example();
    declined.asked[1].state = PlaceState::declined;
    on.change([&](Store::Change& open) { LessonsOnFile(open).change(declined); });
    const auto last = ChangesOnFile::find_last(on.store);
    REQUIRE(last);
    ChangesOnFile::take_back(on.store, last->id);
    CHECK(text(*LessonsOnFile::find(on.store, "vectors-1")) == text(example()));
    ChangesOnFile::bring_back(on.store, last->id);
    CHECK(text(*LessonsOnFile::find(on.store, "vectors-1")) == text(declined));
}

TEST_CASE("a store of the layout before lessons is brought up to date with what is in it") {
    StoreOnFile on;
    on.change([](Store::Change& open) { open.add_exam({"Paper 1", monday + Days{60}, "pure"}); });
    const std::string file = on.folder.file("before");
    {
        SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("VACUUM INTO '" + file + "'");
        SQLite::Database(file, SQLite::OPEN_READWRITE)
            .exec(std::string(drop_since_12) + "PRAGMA user_version = 12");
    }
    Store store = Store::open(file);
    CHECK(store.exams().size() == 1);
    CHECK(LessonsOnFile::all(store).empty());
}
