#include "exchange/document/member.hpp"

#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/facts.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;

namespace {

Paper paper_called(const std::string& id) {
    return Paper({id, "", "pure", std::nullopt, RetryBy::question}, {{"1", Marks(4), "", ""}});
}

/// K07 sat one of two papers, and recalls one of two facts.
Store member_store() {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(paper_called("met"));
        open.add_paper(paper_called("unmet"));
        open.add_sitting("K07", paper_called("met"),
                         {today - Days{3}, ExtraTime(25), parse_line(paper_called("met"), "1")});
        open.set_extra_time("K07", ExtraTime(25));
        open.add_class("own");
        open.add_member("own", "K07");
        open.add_exam({"Paper 1", today + Days{30}, "pure"});
        BoundarySets(open).add({"2025", "pure", Marks(4), {{"A", Marks(3)}}});
        FactsOnFile facts(open);
        const FactId asked = facts.add({FactId{}, "a^0", "1", "", ""});
        facts.add({FactId{}, "a^1", "a", "", ""});
        facts.add_sheet("K07", sheet_of({asked}, today));
    });
    return store;
}

} // namespace

TEST_CASE("of a member's export only what is about the member is taken") {
    const Document document = of_member(document_of(member_store()));
    REQUIRE(document.papers.size() == 1);
    CHECK(document.papers[0]->id() == "met");
    REQUIRE(document.facts.size() == 1);
    CHECK(document.facts[0].prompt == "a^0");
    CHECK((document.exams.empty() && document.boundaries.empty() && document.classes.empty()));
    const ExportedCandidate& member = document.candidates.at(0);
    CHECK(member.classes.empty());
    CHECK_FALSE(member.candidate.extra_time);
    CHECK(member.candidate.sittings.at(0).sitting.extra_time.percent() == 25);
    CHECK(member.sheets.size() == 1);
}

TEST_CASE("what is taken merges, and brings nothing the second time") {
    const Document document = of_member(document_of(member_store()));
    Store here = empty_store();
    for (const std::size_t added : {1U, 0U})
        change(here, [&](Store::Change& open) {
            const Merge merged = merge(open, document, {today});
            CHECK(merged.conflicts.empty());
            CHECK(merged.sittings_added == added);
            CHECK(merged.sheets_added == added);
            CHECK(merged.exams_added == 0);
        });
}

TEST_CASE("a member's own time and wishes take the place of those on file") {
    Store member = member_store();
    Availability own;
    own.week[0] = Seconds(600);
    change(member, [&](Store::Change& open) { open.set_times("K07", stated(own)); });
    Store here = empty_store();
    change(here, [&](Store::Change& open) {
        Availability other;
        other.week[0] = Seconds(1200);
        open.set_times("K07", stated(other));
    });
    const Document document = of_member(document_of(member));
    change(here, [&](Store::Change& open) { CHECK(merge(open, document, {today}).conflicts.size() == 1); });
    MergeOptions how{today};
    how.own_plan = true;
    change(here, [&](Store::Change& open) {
        const Merge merged = merge(open, document, how);
        CHECK(merged.conflicts.empty());
        CHECK(merged.availabilities_replaced == 1);
    });
    CHECK(here.candidate("K07").availability.week[0] == Seconds(600));
}

TEST_CASE("an export of several candidates, or of none, is no member's") {
    Store store = member_store();
    change(store, [&](Store::Change& open) {
        open.add_sitting("K08", paper_called("met"),
                         {today - Days{3}, ExtraTime(), parse_line(paper_called("met"), "1")});
    });
    CHECK_THROWS_WITH(of_member(document_of(store)), Catch::Matchers::Contains("it holds 2 candidates"));
    CHECK_THROWS_WITH(of_member(Document{}), Catch::Matchers::Contains("it holds 0 candidates"));
}
