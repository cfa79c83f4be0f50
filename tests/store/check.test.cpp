#include "inkturn/store/check.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <algorithm>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

Paper small_paper() {
    return Paper({"small", "", "pure", std::nullopt, RetryBy::question},
                 {{"1", Marks(4), "", ""}, {"2", Marks(5), "", ""}});
}

/// A paper, and a sitting of it by K07 with days kept for its retries.
struct Sat : StoreOnFile {
    Sat() {
        change([&](Store::Change& open) {
            open.add_paper(small_paper());
            const SittingId id =
                open.add_sitting("K07", small_paper(), {day(0), {}, parse_line(small_paper(), "3 1")});
            open.keep_day({id, "1", day(14)});
        });
    }
    void doctor(const std::string& sql) { SQLite::Database(file, SQLite::OPEN_READWRITE).exec(sql); }
    std::vector<StoreFault> faults() { return faults_of(Store::open_to_read(file)); }
};

bool any_lasting(const std::vector<StoreFault>& faults) {
    return std::any_of(faults.begin(), faults.end(),
                       [](const StoreFault& fault) { return !fault.can_be_repaired; });
}

} // namespace

TEST_CASE("a store made by its own verbs is sound") {
    Sat sat;
    CHECK(sat.faults().empty());
}

TEST_CASE("what can be repaired is, and what was there is kept") {
    Sat sat;
    SECTION("a candidate gone from under a sitting") {
        sat.doctor("DELETE FROM candidate");
    }
    SECTION("a day kept for a question that the paper doesn't have") {
        sat.doctor("UPDATE placement SET question = '9'");
    }
    SECTION("a note of a sitting that isn't there, in a table without row numbers") {
        sat.doctor("INSERT INTO sitting_note VALUES (77, '1', 'sign')");
    }
    const auto found = sat.faults();
    REQUIRE_FALSE(found.empty());
    CHECK_FALSE(any_lasting(found));
    const std::string bytes = bytes_of(sat.file);
    const Repaired repaired = repair_store(sat.file);
    CHECK(repaired.left.empty());
    CHECK(sat.faults().empty());
    CHECK_FALSE(faults_of(Store::open_to_read(repaired.kept)).empty());
}

TEST_CASE("what can't be repaired is named with where it is") {
    Sat sat;
    SECTION("marks above the maximum") {
        sat.doctor("UPDATE sitting SET marks = '9 1'");
        CHECK_THAT(sat.faults().at(0).what, Contains("candidate K07") && Contains("above the maximum"));
    }
    SECTION("a turn without the one before it") {
        sat.doctor(
            "INSERT INTO reattempt (sitting, question, turn, day, marks) VALUES (1, '1', 2, 20000, '4')");
        CHECK_FALSE(sat.faults().empty());
    }
    CHECK(any_lasting(sat.faults()));
    CHECK(any_lasting(repair_store(sat.file).left));
}

TEST_CASE("a store with a view or a trigger is no store of this program") {
    Sat sat;
    SECTION("a view in a table's place") {
        sat.doctor(
            "ALTER TABLE exam RENAME TO e; CREATE VIEW exam AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL "
            "SELECT i FROM n) SELECT i AS id, '' AS title, i AS day, '' AS subject, 0 AS mock FROM n");
    }
    SECTION("a trigger") {
        sat.doctor("CREATE TRIGGER t AFTER INSERT ON exam BEGIN DELETE FROM sitting; END");
    }
    CHECK_THROWS_WITH(Store::open_to_read(sat.file), Contains("it is damaged"));
    CHECK_THROWS_WITH(Store::open(sat.file), Contains("it is damaged"));
}

TEST_CASE("a store that is not sound is refused for writing, once a day is enough, and may be read") {
    Sat sat;
    const Moment first = Moment{Seconds{86'400}};
    Store::open(sat.file, {"", first});
    sat.doctor("INSERT INTO member (class, candidate) VALUES (7, 7)");
    CHECK_NOTHROW(Store::open(sat.file, {"", first + Seconds{3'600}}));
    CHECK_NOTHROW(Store::open_to_read(sat.file, {"", first + Seconds{86'400}}));
    CHECK_THROWS_WITH(Store::open(sat.file, {"", first + Seconds{86'400}}), Contains("it is damaged"));
    REQUIRE(repair_store(sat.file).left.empty());
    CHECK_NOTHROW(Store::open(sat.file, {"", first + Seconds{86'400}}));
}

TEST_CASE("what was agreed to is not done once another program has changed the store") {
    Sat sat;
    const Store::Seen seen = sat.store.seen();
    SECTION("nothing was changed") {
        CHECK_NOTHROW(Store::Change(sat.store, seen));
    }
    SECTION("the store's own changes don't count") {
        sat.change([](Store::Change& open) { open.add_exam({"Paper", day(40), ""}); });
        CHECK_NOTHROW(Store::Change(sat.store, seen));
    }
    SECTION("another program renamed the candidate") {
        sat.doctor("UPDATE candidate SET code = 'K08'");
        CHECK_THROWS_WITH(Store::Change(sat.store, seen), Contains("changed meanwhile"));
        CHECK_NOTHROW(Store::Change(sat.store));
    }
}
