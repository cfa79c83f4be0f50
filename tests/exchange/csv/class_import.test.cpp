#include "exchange/csv/class_import.hpp"
#include "catch.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/store/change.hpp"

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
    change(store, [&](Store::Change& open) {
        const ClassImport done = import_class(open, in, {{{}, "pure-1", today, today}, true});
        CHECK(done.problems.empty());
        CHECK(done.sittings_replaced == 1);
    });
    const Sitting sitting = store.candidate("K07").sittings.at(0).sitting;
    CHECK(to_line(sitting.parts) == "4 2");
    REQUIRE(sitting.clock.size() == 2);
    CHECK(sitting.clock[0].part == 1);
    CHECK(sitting.clock[1].at == nine + Seconds(500));
}
