#include "inkturn/store/awards.hpp"

#include "award.hpp"
#include "boundary_set.hpp"
#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/check.hpp"
#include "refusal.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

struct AwardsStore : StoreOnFile {
    bool add(const Award& award) {
        return change([&](Store::Change& open) { return AwardsOnFile(open).add(award); });
    }
    bool add_set(const BoundarySet& set) {
        return change([&](Store::Change& open) { return BoundarySets(open).add(set); });
    }
    std::vector<Award> all() { return AwardsOnFile::all(store); }
};

Award another(const std::string& name) {
    return {name, "mechanics", {{"M1", Marks(50), parse_weight("1.25", "weight")}}, {}};
}

} // namespace

TEST_CASE("awards come back whole, by subject, then name") {
    AwardsStore on;
    CHECK(on.add(two_of_three()));
    CHECK(on.add(another("B")));
    CHECK(on.add(two_units()));
    CHECK_FALSE(on.add(two_of_three()));
    on.reopen();
    REQUIRE(on.all().size() == 3);
    CHECK(on.all()[0] == another("B"));
    CHECK(on.all()[1] == two_of_three());
    CHECK(on.all()[2] == two_units());
    CHECK(faults_of(on.store).empty());
}

TEST_CASE("an award that differs from the one of its name is refused, and one that shares a component") {
    AwardsStore on;
    on.add(three_papers());
    Award other = three_papers();
    other.components[0].marks = Marks(80);
    CHECK_THAT(refusal_of([&] { on.add(other); }), Contains("is on file with other components"));
    other = {"Another", "pure", {{"Paper 1", Marks(100)}}, {}};
    CHECK_THAT(refusal_of([&] { on.add(other); }), Contains("would belong to both"));
    CHECK(on.all().size() == 1);
}

TEST_CASE("an award goes with its boundary sets, and a paper keeps the name of its component") {
    AwardsStore on;
    on.add(three_papers());
    on.add_set(set_of_award("2019", three_papers(), {{"A", Marks(200)}}));
    on.add_set(set_of_component("2019", three_papers(), 0, {{"A", Marks(70)}}));
    on.change([](Store::Change& open) {
        open.add_paper(*paper_of_component("p1", 100, "Paper 1"));
        AwardsOnFile(open).remove("A level");
    });
    on.reopen();
    CHECK(on.all().empty());
    CHECK(BoundarySets::all(on.store).empty());
    CHECK(on.store.find_paper("p1")->component() == "Paper 1");
    CHECK_THAT(
        refusal_of([&] { on.change([](Store::Change& open) { AwardsOnFile(open).remove("A level"); }); }),
        Contains("no award 'A level' on file"));
}

TEST_CASE("sets of an award, of its components and of papers may share a name, and come back whole") {
    AwardsStore on;
    on.add(two_units());
    BoundarySet unit = set_of_component("2019", two_units(), 1, {{"A", Marks(60)}, {"B", Marks(52)}},
                                        {Marks(80), Marks(70)});
    unit.cap = Marks(72);
    BoundarySet whole = set_of_award("2019", two_units(), {{"A", Marks(160)}});
    whole.is_guess = true;
    CHECK(on.add_set(unit));
    CHECK(on.add_set(whole));
    CHECK(on.add_set(set_of("2019", 75, {{"A", 60}})));
    CHECK_FALSE(on.add_set(unit));
    on.reopen();
    const auto sets = BoundarySets::all(on.store);
    REQUIRE(sets.size() == 3);
    CHECK(sets[0].set.award.empty());
    CHECK(sets[1].set == whole);
    CHECK(sets[2].set == unit);
    CHECK_THAT(refusal_of([&] {
                   on.add_set(set_of_award("2020", three_papers(), {{"A", Marks(200)}}));
               }),
               Contains("no award 'A level' on file"));
    whole.is_guess = false;
    CHECK_THAT(refusal_of([&] { on.add_set(whole); }), Contains("is on file with other marks, as a guess"));
}

TEST_CASE("an award is replaced under its sets, where they are still its own") {
    AwardsStore on;
    on.add(three_papers());
    on.add_set(set_of_component("2019", three_papers(), 0, {{"A", Marks(70)}}));
    Award renamed = three_papers();
    renamed.components[2].name = "Paper 4";
    on.change([&](Store::Change& open) { AwardsOnFile(open).replace(renamed); });
    CHECK(on.all().at(0) == renamed);
    renamed.components[0].marks = Marks(80);
    CHECK_THAT(
        refusal_of([&] { on.change([&](Store::Change& open) { AwardsOnFile(open).replace(renamed); }); }),
        Contains("is out of 100, but component Paper 1 is out of 80"));
}

TEST_CASE("a store of version 13 keeps its boundary sets, and gets awards") {
    AwardsStore on;
    BoundarySet filled = set_of("2019", 75, {{"A", 60}, {"B", 50}, {"C", 40}});
    filled.filled = FillRule::halves;
    on.add_set(set_of("2018", 75, {{"A", 61}}, ""));
    on.add_set(filled);
    on.change([](Store::Change& open) { open.add_paper(*paper_of("p", {5})); });
    SQLite::Database(on.file, SQLite::OPEN_READWRITE)
        .exec(std::string(drop_since_13) + "PRAGMA user_version = 13");
    on.reopen();
    const auto sets = BoundarySets::all(on.store);
    REQUIRE(sets.size() == 2);
    CHECK(sets[1].set == filled);
    CHECK(sets[1].set.filled == FillRule::halves);
    CHECK(static_cast<int>(sets[1].id) == 2);
    CHECK(on.store.find_paper("p")->component().empty());
    CHECK(on.add(three_papers()));
    CHECK(on.add_set(set_of_award("2019", three_papers(), {{"A", Marks(200)}})));
}
