#include "exchange/class/class_import.hpp"
#include "catch.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"

#include <sstream>

using namespace inkturn;
using namespace inkturn::test;

TEST_CASE("marks that a class's file replaces leave the clock of the sitting") {
    const Paper paper({"pure-1", "", "", std::nullopt, RetryBy::question},
                      {{"1", Marks(4), "", ""}, {"2", Marks(3), "", ""}});
    const Moment nine = today + std::chrono::hours{9};
    const std::vector<ClockEvent> clock{{ClockEventKind::start, nine, 1},
                                        {ClockEventKind::hand_in, nine + Seconds(500)}};
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(paper);
        open.add_sitting("K07", paper, {today, ExtraTime(25), parse_line(paper, "4 1"), clock});
    });
    std::istringstream in("candidate,1,2\nK07,4,2\n");
    CsvReader rows(in, {});
    change(store, [&](Store::Change& open) {
        const ClassImport done = import_class(open, rows, {{"pure-1", today, today}, true});
        CHECK(done.problems.empty());
        CHECK(done.sittings_replaced == 1);
    });
    const Sitting sitting = store.candidate("K07").sittings.at(0).sitting;
    CHECK(to_line(sitting.parts) == "4 2");
    REQUIRE(sitting.clock.size() == 2);
    CHECK(sitting.clock[0].part == 1);
    CHECK(sitting.clock[1].at == nine + Seconds(500));
}

TEST_CASE("a problem that undoing a re-attempt would settle says which one") {
    const Paper paper({"pure-1", "", "", std::nullopt, RetryBy::question}, {{"1", Marks(4), "", ""}});
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(paper);
        const SittingId id =
            open.add_sitting("K07", paper, {today - Days{20}, ExtraTime(), parse_line(paper, "3")});
        open.add_reattempt(id, {"1", 1, today, parse_line(paper, "4")});
    });
    std::istringstream in("candidate,1\nK07,4\n");
    CsvReader rows(in, {});
    Store::Change open(store);
    const ClassImport done = import_class(open, rows, {{"pure-1", today - Days{20}, today}, true});
    REQUIRE(done.problems.items.size() == 1);
    CHECK(done.problems.items[0].line == 2);
    CHECK(done.problems.items[0].remedy == Error::Remedy::undo_retry_first);
    CHECK(done.problems.items[0].about == "1q1");
}

TEST_CASE("the retries that an import brings are counted by each candidate's wishes and the paper's shares") {
    const Paper paper({"essay-1", "", "", std::nullopt, RetryBy::question, GotAt(80)},
                      {{"1", Marks(25), "", ""}, {"2", Marks(5), "", "", GotAt(100)}});
    Store store = empty_store();
    PlanWishes from_two;
    from_two.retries.missed_from = Marks(2);
    change(store, [&](Store::Change& open) {
        open.add_paper(paper);
        PlanOnFile(open).set_wishes("K08", from_two);
    });
    const auto added = [&](const std::string& rows, bool replace) {
        std::istringstream in("candidate,1,2\n" + rows);
        CsvReader reader(in, {});
        std::size_t retries = 0;
        change(store, [&](Store::Change& open) {
            const ClassImport done = import_class(open, reader, {{"essay-1", today, today}, replace});
            CHECK(done.problems.empty());
            retries = done.retries_added;
        });
        return retries;
    };
    CHECK(added("K07,19,4\nK08,19,4\nK09,20,5\n", false) == 3);
    CHECK(open_retries(store.candidate("K07"), today).size() == 2);
    CHECK(open_retries(store.candidate("K08"), today).size() == 1);
    CHECK(open_retries(store.candidate("K09"), today).empty());
    CHECK(added("K07,19,4\nK08,20,3\nK09,19,5\n", true) == 2);
}

TEST_CASE("each of many candidates has the days that they would have alone") {
    const Paper paper({"pure-1", "", "", std::nullopt, RetryBy::question},
                      {{"1", Marks(40), "", ""}, {"2", Marks(30), "", ""}, {"3", Marks(50), "", ""}});
    constexpr int candidates = 300;
    const auto code = [](int candidate) { return "K" + std::to_string(1000 + candidate); };
    Store store = empty_store();
    std::string rows = "candidate,1,2,3\n";
    change(store, [&](Store::Change& open) {
        open.add_paper(paper);
        for (int i = 0; i < candidates; i += 7) {
            Availability little;
            little.dates[today + Days{14 + i % 5}] = std::chrono::minutes(90);
            open.set_times(code(i), stated(little));
        }
    });
    for (int i = candidates; i-- > 0;)
        rows += code(i) + "," + std::to_string(i % 41) + "," + std::to_string(i % 31) + "," +
                std::to_string(i % 51) + "\n";
    std::istringstream in(rows);
    CsvReader reader(in, {});
    change(store, [&](Store::Change& open) {
        CHECK(import_class(open, reader, {{"pure-1", today, today}, false}).sittings_added == candidates);
    });
    for (int i = 0; i < candidates; ++i) {
        const Candidate on_file = store.candidate(code(i));
        Candidate anew = on_file;
        anew.placements.clear();
        anew.planned_for.reset();
        const std::vector<Retry> retries = open_retries(anew, today);
        CAPTURE(code(i));
        CHECK(on_file.planned_for == today);
        REQUIRE(on_file.placements.size() == retries.size());
        for (const Retry& retry : retries)
            for (const Placement& placement : on_file.placements)
                if (placement.question == retry.id.question)
                    CHECK(placement.day == retry.day);
    }
}
