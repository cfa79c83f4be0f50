#include "inkturn/store/calendar.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/store.hpp"
#include "store/store_on_file.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct CalendarRows : StoreOnFile {
    void keep(const std::vector<WrittenEvent>& events, const std::string& code = "K07") {
        change([&](Store::Change& open) { CalendarOnFile(open).keep(code, events); });
    }

    std::string events(const std::string& code = "K07") const {
        std::string text;
        for (const WrittenEvent& event : CalendarOnFile::events(store, code))
            text += event.uid + " " + std::to_string((event.day - monday).count()) + " " +
                    std::to_string(event.revision) + (event.cancelled ? " cancelled; " : "; ");
        return text;
    }
};

} // namespace

TEST_CASE("what a calendar was written with is read back by day, and each candidate has their own") {
    CalendarRows on;
    CHECK(on.events().empty());
    on.keep({{"b", monday + Days{1}, 0, false}, {"a", monday + Days{2}, 3, true}});
    on.keep({{"b", monday, 1, false}}, "K08");
    CHECK(on.events() == "b 1 0; a 2 3 cancelled; ");
    CHECK(on.events("K08") == "b 0 1; ");
}

TEST_CASE("an event that is written again takes the place of the one before") {
    CalendarRows on;
    on.keep({{"a", monday, 0, false}, {"b", monday, 0, false}});
    on.keep({{"a", monday + Days{4}, 1, true}});
    CHECK(on.events() == "b 0 0; a 4 1 cancelled; ");
}

TEST_CASE("events of the days before a day are forgotten, that day's are not") {
    CalendarRows on;
    on.keep({{"a", monday, 0, false}, {"b", monday + Days{1}, 0, false}});
    on.keep({{"a", monday, 0, false}}, "K08");
    on.change([](Store::Change& open) { CalendarOnFile(open).forget_before("K07", monday + Days{1}); });
    CHECK(on.events() == "b 1 0; ");
    CHECK(on.events("K08") == "a 0 0; ");
}

TEST_CASE("what was written goes with its candidate, and with their code, which its UIDs tell") {
    CalendarRows on;
    on.keep({{"a", monday, 0, false}});
    on.keep({{"a", monday, 0, false}}, "K08");
    on.change([](Store::Change& open) { open.rename_candidate("K07", "K09"); });
    CHECK(on.events("K09").empty());
    on.keep({{"b", monday, 0, false}}, "K09");
    on.change([](Store::Change& open) { open.erase_candidate("K09"); });
    on.keep({{"c", monday, 0, false}}, "K09");
    CHECK(on.events("K09") == "c 0 0; ");
    CHECK(on.events("K08") == "a 0 0; ");
}

TEST_CASE("a candidate stays on file while a calendar holds events that can be cancelled") {
    const Relearned vectors{"pure", "vectors", monday};
    const auto stays_with = [&](bool cancelled) {
        CalendarRows on;
        on.keep({{"a", monday, 0, cancelled}});
        on.change([&](Store::Change& open) { PlanOnFile(open).add_relearned("K07", vectors); });
        on.change([&](Store::Change& open) { CHECK(PlanOnFile(open).remove_relearned("K07", vectors)); });
        return on.store.has_candidate("K07");
    };
    CHECK(stays_with(false));
    CHECK_FALSE(stays_with(true));
}

TEST_CASE("an event without a UID is refused, and one of a revision below 0") {
    CalendarRows on;
    CHECK_THROWS_AS(on.keep({{"", monday, 0, false}}), Error);
    CHECK_THROWS_AS(on.keep({{"a", monday, -1, false}}), Error);
    CHECK(on.events().empty());
}
