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

namespace {

/// K07 sat two papers and re-attempted a question of the first twice.
Document with_reattempts() {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(paper_called("first"));
        open.add_paper(paper_called("second"));
        const SittingId id =
            open.add_sitting("K07", paper_called("first"),
                             {today - Days{40}, ExtraTime(), parse_line(paper_called("first"), "1")});
        open.add_sitting("K07", paper_called("second"),
                         {today - Days{3}, ExtraTime(), parse_line(paper_called("second"), "1")});
        for (const int turn : {1, 2})
            open.add_reattempt(
                id, {"1", turn, today - Days{30 - 10 * turn}, {parse_part_marks("1", Marks(4))}, {}, {}});
    });
    return of_member(document_of(store));
}

const CollectedRecord second_sitting{"second", today - Days{3}, "", 0};

CollectedRecord turn_of_first(int turn) {
    return {"first", today - Days{40}, "1", turn};
}

} // namespace

TEST_CASE("what was collected and is no longer on file is left out, with what hangs on it") {
    Document document = with_reattempts();
    const std::set<CollectedRecord> all = records_of(document);
    CHECK(all.size() == 4);
    Candidate here = document.candidates[0].candidate;
    CHECK(leave_out_removed(document, here, all).empty()); // all of it is on file
    here.sittings[0].reattempts.clear();
    here.sittings.pop_back();
    const auto removed = leave_out_removed(document, here, all);
    CHECK(removed.size() == 3);
    CHECK(removed.count(second_sitting) == 1);
    CHECK(removed.count(turn_of_first(1)) == 1);
    REQUIRE(document.candidates[0].candidate.sittings.size() == 1);
    CHECK(document.candidates[0].candidate.sittings[0].reattempts.empty());
    CHECK(document.papers.size() == 1);
}

TEST_CASE("what never came before is not left out, and a turn goes with those after it") {
    Document document = with_reattempts();
    Candidate here = document.candidates[0].candidate;
    here.sittings.pop_back();
    CHECK(leave_out_removed(document, here, {}).empty());
    CHECK(document.candidates[0].candidate.sittings.size() == 2);
    here = document.candidates[0].candidate;
    here.sittings[0].reattempts.clear();
    CHECK(leave_out_removed(document, here, {turn_of_first(1)}).size() == 1);
    CHECK(document.candidates[0].candidate.sittings[0].reattempts.empty());
}
