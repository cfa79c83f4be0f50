#include "exchange/calendar/revisions.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"

#include <map>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr DaySpan week{monday, monday + Days{6}};

CalendarEvent event_on(const std::string& uid, int distance) {
    return {uid, monday + Days{distance}, monday + Days{distance}, "work", ""};
}

WrittenEvent before(const std::string& uid, int distance, int revision = 0, bool cancelled = false) {
    return {uid, monday + Days{distance}, revision, cancelled};
}

std::string text_of(const std::vector<CalendarEvent>& events) {
    std::string text;
    for (const CalendarEvent& event : events)
        text += event.uid + " " + std::to_string((event.first - monday).count()) + " " +
                std::to_string(event.revision) + (event.cancelled ? " cancelled; " : "; ");
    return text;
}

} // namespace

TEST_CASE("what was never written begins at revision 0, and what stays as it was keeps its own") {
    CHECK(text_of(revised({event_on("a", 1), event_on("b", 2)}, {before("b", 2, 4)}, week, monday)) ==
          "a 1 0; b 2 4; ");
}

TEST_CASE("what moved to another day, or comes back, is a revision") {
    CHECK(text_of(revised({event_on("a", 1), event_on("b", 2)}, {before("a", 2, 4), before("b", 2, 1, true)},
                          week, monday)) == "a 1 5; b 2 2; ");
}

TEST_CASE("what was written for a day of the span and is not planned any more is cancelled, on its day") {
    const auto events = revised({event_on("a", 1)}, {before("b", 0), before("c", 6, 2)}, week, monday);
    CHECK(text_of(events) == "a 1 0; b 0 1 cancelled; c 6 3 cancelled; ");
    CHECK(events[1].last == monday);
    CHECK(events[1].summary == "Cancelled");
    CHECK(text_of(revised({}, {before("b", 3)}, week, monday)) == "b 3 1 cancelled; ");
}

TEST_CASE("days outside the span and days that have passed are left as they were written") {
    CHECK(revised({}, {before("a", -1), before("b", 7)}, week, monday).empty());
    CHECK(text_of(revised({}, {before("a", 1), before("b", 2)}, week, monday + Days{2})) ==
          "b 2 1 cancelled; ");
}

TEST_CASE("a cancellation is repeated as it was until its day has passed") {
    CHECK(text_of(revised({}, {before("a", 1, 3, true)}, week, monday)) == "a 1 3 cancelled; ");
    CHECK(revised({}, {before("a", 1, 3, true)}, week, monday + Days{2}).empty());
}

TEST_CASE("what is remembered of a calendar is what the next one goes by") {
    const auto events = revised({event_on("a", 1)}, {before("b", 0, 2)}, week, monday);
    const auto remembered = events_written(events);
    REQUIRE(remembered.size() == 2);
    CHECK(remembered[1].uid == "b");
    CHECK(remembered[1].day == monday);
    CHECK(remembered[1].revision == 3);
    CHECK(remembered[1].cancelled);
    CHECK(text_of(revised({event_on("a", 1)}, remembered, week, monday)) == text_of(events));
}

TEST_CASE("whoever imports some calendars of a series has what the last of them says") {
    std::mt19937 dice(20261125);
    for (int round = 0; round < 300; ++round) {
        std::map<std::string, WrittenEvent> remembered;
        std::map<std::string, CalendarEvent> imported;
        for (int file = 0; file < 6; ++file) {
            std::vector<CalendarEvent> planned;
            for (const std::string uid : {"a", "b", "c", "d"})
                if (dice() % 3 > 0)
                    planned.push_back(event_on(uid, static_cast<int>(dice() % 7)));
            std::vector<WrittenEvent> known;
            for (const auto& [uid, event] : remembered)
                known.push_back(event);
            const auto written = revised(planned, known, week, monday);
            for (const WrittenEvent& event : events_written(written))
                remembered[event.uid] = event;
            if (file < 5 && dice() % 2 == 0)
                continue; // not imported
            for (const CalendarEvent& event : written) {
                const auto there = imported.find(event.uid);
                if (there != imported.end()) {
                    const bool same =
                        there->second.first == event.first && there->second.cancelled == event.cancelled;
                    REQUIRE(event.revision >= there->second.revision + (same ? 0 : 1));
                }
                imported[event.uid] = event;
            }
            std::map<std::string, Day> live;
            for (const auto& [uid, event] : imported)
                if (!event.cancelled)
                    live[uid] = event.first;
            std::map<std::string, Day> expected;
            for (const CalendarEvent& event : planned)
                expected[event.uid] = event.first;
            REQUIRE(live == expected);
        }
    }
}
