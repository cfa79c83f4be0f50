#include "inkturn/store/collected.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/store/changes.hpp"
#include "papers.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <map>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct OnFileCollected : StoreOnFile {
    void sit(const std::string& code) {
        const auto paper = paper_of("p1", {10, 5});
        change([&](Store::Change& open) {
            if (!store.find_paper("p1"))
                open.add_paper(*paper);
            open.add_sitting(code, *paper, sat(1, paper, 0, "8 4").sitting);
        });
    }
    void collect(const std::string& code, int on) {
        change([&](Store::Change& open) { CollectedFiles(open).keep_day(code, day(on)); });
    }
};

} // namespace

TEST_CASE("the day of what was collected is kept, the last one") {
    OnFileCollected on;
    on.sit("K07");
    on.sit("K08");
    CHECK(CollectedFiles::days(on.store).empty());
    on.collect("K07", 3);
    on.collect("K07", 5);
    CHECK(CollectedFiles::days(on.store) == std::map<std::string, Day>{{"K07", day(5)}});
}

TEST_CASE(
    "the day of what was collected goes with the candidate, follows a new code, and can be taken back") {
    OnFileCollected on;
    on.sit("K07");
    on.sit("K08");
    on.collect("K07", 3);
    on.collect("K08", 4);
    on.change([&](Store::Change& open) { open.rename_candidate("K07", "K09"); });
    CHECK(CollectedFiles::days(on.store) == std::map<std::string, Day>{{"K08", day(4)}, {"K09", day(3)}});
    on.change([&](Store::Change& open) { open.erase_candidate("K09"); });
    CHECK(CollectedFiles::days(on.store) == std::map<std::string, Day>{{"K08", day(4)}});
}

TEST_CASE("a store of version 12 gets a table for what is collected") {
    OnFileCollected on;
    on.sit("K07");
    const std::string file = on.file;
    SQLite::Database(file, SQLite::OPEN_READWRITE)
        .exec(std::string(drop_since_12) + "PRAGMA user_version = 12");
    Store store = Store::open(file);
    CHECK(CollectedFiles::days(store).empty());
    CHECK(store.candidate("K07").sittings.size() == 1);
    Store::Change change(store);
    CollectedFiles(change).keep_day("K07", day(1));
    CHECK(CollectedFiles::days(store).size() == 1);
}

TEST_CASE("what came with an export stays known when the change that took it is taken back") {
    OnFileCollected on;
    on.sit("K07");
    on.reopen();
    const CollectedRecord sitting{"p1", day(0), "", 0};
    const CollectedRecord again{"p1", day(0), "2", 1};
    CHECK(CollectedFiles::records(on.store, "K07").empty());
    on.change([&](Store::Change& open) {
        CollectedFiles(open).keep_day("K07", day(3));
        CollectedFiles(open).keep_records("K07", {sitting, again});
        CollectedFiles(open).keep_records("K07", {sitting});
    });
    CHECK(CollectedFiles::records(on.store, "K07").size() == 2);
    ChangesOnFile::take_back(on.store, ChangesOnFile::find_last(on.store)->id);
    CHECK(CollectedFiles::days(on.store).empty());
    CHECK(CollectedFiles::records(on.store, "K07").count(again) == 1);
    CHECK(CollectedFiles::records(on.store, "K08").empty());
    on.change([&](Store::Change& open) { open.erase_candidate("K07"); });
    CHECK(CollectedFiles::records(on.store, "K07").empty());
}

TEST_CASE("what came of a candidate who is taken back with all else leaves no loose end") {
    OnFileCollected on;
    on.sit("K08");
    on.reopen();
    on.change([&](Store::Change& open) {
        open.add_sitting("K07", *paper_of("p1", {10, 5}), sat(1, paper_of("p1", {10, 5}), 0, "8 4").sitting);
        CollectedFiles(open).keep_records("K07", {{"p1", day(0), "", 0}});
    });
    ChangesOnFile::take_back(on.store, ChangesOnFile::find_last(on.store)->id);
    CHECK_FALSE(on.store.has_candidate("K07"));
    CHECK(CollectedFiles::records(on.store, "K07").empty());
}
