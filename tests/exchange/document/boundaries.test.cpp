#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/change.hpp"

#include <functional>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

BoundarySet june(int a, const std::string& subject = "pure") {
    return {"June 2025", subject, Marks(75), {{"A", Marks(a)}, {"B", Marks(40)}}};
}

Store store_with(const std::vector<BoundarySet>& sets) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        for (const BoundarySet& set : sets)
            BoundarySets(open).add(set);
    });
    return store;
}

Json written(const std::vector<BoundarySet>& sets) {
    return value_of(document_of(store_with(sets)));
}

} // namespace

TEST_CASE("boundary sets go along, by subject and name, and are read back") {
    const Document document =
        document_of(store_with({june(50), june(60, ""), {"A", "pure", Marks(9), {{"P", Marks(0)}}}}));
    REQUIRE(document.boundaries.size() == 3);
    CHECK(document.boundaries[0].subject.empty());
    CHECK(document.boundaries[1].name == "A");
    const Document again = read(value_of(document));
    CHECK(std::equal(document.boundaries.begin(), document.boundaries.end(), again.boundaries.begin(),
                     again.boundaries.end()));
}

TEST_CASE("a document without boundary sets does not name them") {
    CHECK_FALSE(written({}).contains("boundaries"));
    CHECK(read(written({})).boundaries.empty());
}

TEST_CASE("a set that is not on file is added, the same one left, another one a conflict") {
    Store here = empty_store();
    CHECK(merge_into(here, document_of(store_with({june(50)}))).boundary_sets_added == 1);
    CHECK(merge_into(here, document_of(store_with({june(50)}))).boundary_sets_unchanged == 1);
    CHECK(merge_into(here, document_of(store_with({june(50, "")}))).boundary_sets_added == 1);

    const Document other = document_of(store_with({june(51)}));
    const Merge refused = merge_into(here, other);
    REQUIRE(refused.conflicts.size() == 1);
    CHECK(refused.conflicts[0] == "boundary set 'June 2025' of pure: its marks here are others than in the "
                                  "file; --replace takes the file's");
    CHECK(BoundarySets::all(here)[1].set == june(50));

    CHECK(merge_into(here, other, true).boundary_sets_replaced == 1);
    REQUIRE(BoundarySets::all(here).size() == 2);
    CHECK(BoundarySets::all(here)[1].set == june(51));
}

TEST_CASE("boundary sets that a store would not take are refused with the way to them") {
    const auto refusal = [](const std::function<void(Json&)>& spoil) -> std::string {
        Json json = written({june(50)});
        spoil(json["boundaries"]);
        return test::refusal(json);
    };
    CHECK_THAT(refusal([](Json& sets) { sets[0]["grades"][1]["mark"] = 50; }), Contains("boundaries[0]"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["grades"][0]["mark"] = 76; }), Contains("boundaries[0]"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["grades"] = Json::array(); }), Contains("boundaries[0]"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["grades"][1]["grade"] = "A"; }), Contains("boundaries[0]"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["grades"][1]["mark"] = -1; }),
               Contains("boundaries[0].grades[1].mark"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["total"] = 0; }), Contains("boundaries[0].total"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["subject"] = ""; }), Contains("boundaries[0].subject"));
    CHECK_THAT(refusal([](Json& sets) { sets[0]["series"] = 1; }), Contains("boundaries[0]"));
    CHECK_THAT(refusal([](Json& sets) { sets.push_back(sets[0]); }), Contains("boundaries[1]"));
    CHECK_THAT(refusal([](Json& sets) { sets = 1; }), Contains("boundaries"));
}
