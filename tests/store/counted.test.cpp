#include "catch.hpp"
#include "choices.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Sitting sitting(const std::string& line) {
    return {monday, {}, parse_line(paper_with_choice(), line)};
}

} // namespace

TEST_CASE("a choice and what was not set come back as they were put there") {
    StoreOnFile on;
    on.change([](Store::Change& open) {
        open.add_paper(paper_with_choice());
        open.add_sitting("K07", paper_with_choice(), sitting("4 not-set 5 1 1 9 8"));
    });
    on.reopen();
    const auto paper = on.store.find_paper("chosen");
    REQUIRE(paper);
    CHECK(paper->marks() == Marks(32));
    CHECK(paper->part(3).choice == QuestionChoice{"B", 2});
    CHECK_FALSE(paper->part(0).choice);
    const Sitting back = on.store.candidate("K07").sittings.at(0).sitting;
    CHECK(to_line(back.parts) == "4 not-set 5 1 1 9 8");
    CHECK(counting(back.parts) == std::vector<bool>{true, false, true, false, false, true, true});
}

TEST_CASE("a sitting of nothing, or of half a question of a choice, is refused") {
    StoreOnFile on;
    on.change([](Store::Change& open) { open.add_paper(paper_with_choice()); });
    Store::Change open(on.store);
    for (const char* line :
         {"not-set not-set not-set not-set not-set not-set not-set", "4 3 5 not-set 1 9 8"})
        CHECK_THROWS_AS(open.add_sitting("K07", paper_with_choice(), sitting(line)), Error);
}

TEST_CASE("a class's latest sittings are whole where a candidate has a whole one") {
    StoreOnFile on;
    const Paper paper = paper_with_choice();
    on.change([&](Store::Change& open) {
        open.add_paper(paper);
        const auto add = [&](const std::string& code, int on_day, const std::string& line) {
            open.add_sitting(code, paper, {day(on_day), {}, parse_line(paper, line)});
        };
        add("K01", 0, "1 1 1 - - 1 1");
        add("K01", 1, "2 2 2 - - 2 2");
        add("K01", 2, "3 not-set not-set not-set not-set not-set not-set");
        add("K02", 0, "1 not-set not-set not-set not-set not-set not-set");
        add("K02", 1, "2 not-set not-set not-set not-set not-set not-set");
    });
    const auto latest = on.store.latest_sittings(paper, std::nullopt);
    REQUIRE(latest.size() == 2);
    CHECK(latest[0][0].in_time() == Marks(2));
    CHECK(latest[0][1].in_time() == Marks(2));
    CHECK(latest[1][0].in_time() == Marks(2));
}

TEST_CASE("a candidate's extra time stays on file, with them alone, until it is taken back") {
    StoreOnFile on;
    on.change([](Store::Change& open) {
        open.set_extra_time("K07", ExtraTime(25));
        open.set_extra_time("K08", ExtraTime(0));
    });
    on.reopen();
    REQUIRE(on.store.candidate("K07").extra_time);
    CHECK(on.store.candidate("K07").extra_time->percent() == 25);
    CHECK(on.store.candidate("K08").extra_time->percent() == 0);
    CHECK_FALSE(on.store.candidate("K09").extra_time);
    on.change([](Store::Change& open) {
        open.rename_candidate("K07", "K17");
        open.set_extra_time("K08", std::nullopt);
    });
    CHECK(on.store.candidate("K17").extra_time->percent() == 25);
    CHECK(on.store.candidates() == std::vector<std::string>{"K17"});
    on.change([](Store::Change& open) { open.erase_candidate("K17"); });
    CHECK(on.store.candidates().empty());
}

TEST_CASE("a store of the layout before choices is brought up to date with what is in it") {
    StoreOnFile on;
    const Paper plain({"plain", "", "", {}, RetryBy::question}, {{"1", Marks(5), "", ""}});
    on.change([&](Store::Change& open) {
        open.add_paper(plain);
        open.add_sitting("K07", plain, {monday, ExtraTime(10), parse_line(plain, "3:slip")});
    });
    const std::string file = on.folder.file("before");
    {
        SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("VACUUM INTO '" + file + "'");
        SQLite::Database before(file, SQLite::OPEN_READWRITE);
        before.exec(
            "ALTER TABLE part DROP COLUMN choice; ALTER TABLE candidate DROP COLUMN extra_time; "
            "ALTER TABLE boundary_set DROP COLUMN filled; DROP TABLE change; DROP TABLE sitting_note; "
            "DROP TABLE reattempt_note; DROP TABLE script_note; DROP TABLE class_sitting; DROP TABLE "
            "collected; PRAGMA "
            "user_version = 10");
    }
    Store store = Store::open(file);
    CHECK_FALSE(store.find_paper("plain")->part(0).choice);
    const Candidate candidate = store.candidate("K07");
    CHECK_FALSE(candidate.extra_time);
    CHECK(candidate.sittings.at(0).sitting.extra_time.percent() == 10);
    CHECK(to_line(candidate.sittings.at(0).sitting.parts) == "3:slip");
}
