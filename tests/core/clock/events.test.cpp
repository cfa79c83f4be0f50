#include "inkturn/clock/events.hpp"

#include "catch.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"
#include "problems.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Kind = ClockEventKind;

constexpr Day sitting_day{date::year{2026} / date::November / 25};
const std::vector<std::string> labels{"1", "2a", "2b", "A3"};

struct Reading {
    std::vector<ClockEvent> events;
    std::vector<Problem> problems;
};

Reading read(const std::string& text, const std::vector<std::string>& parts = labels) {
    Reading reading;
    reading.events = read_events(text, parts, sitting_day, reading.problems);
    return reading;
}

/// `1:7 message` for each problem, the line and the column before it.
std::vector<std::string> problems_of(const std::string& text,
                                     const std::vector<std::string>& parts = labels) {
    return test::texts_of(read(text, parts).problems);
}

using List = std::vector<std::string>;

/// `32400 start 0` for each event: seconds since midnight, kind, part.
std::vector<std::string> events_of(const std::string& text) {
    const Reading reading = read(text);
    CHECK(reading.problems.empty());
    const std::vector<std::string> names{"start", "go", "rest", "work", "hand in"};
    std::vector<std::string> list;
    for (const ClockEvent& event : reading.events)
        list.push_back(std::to_string((event.at - sitting_day).count()) + " " +
                       names[static_cast<std::size_t>(event.kind)] + " " + std::to_string(event.part));
    return list;
}

} // namespace

TEST_CASE("a sitting noted by hand is read line by line") {
    CHECK(events_of("09:00 start 1\n09:06:30 2a\n09:40 rest\n09:45 work\n10:31 hand in\n") ==
          List{"32400 start 0", "32790 go 1", "34800 rest 0", "35100 work 0", "37860 hand in 0"});
}

TEST_CASE("a start without a part takes the first one in hand") {
    CHECK(events_of("9:00 start\n9:01 hand in") == List{"32400 start 0", "32460 hand in 0"});
    CHECK(events_of("9:00 start 2b\n9:01 hand in") == List{"32400 start 2", "32460 hand in 0"});
}

TEST_CASE("comments, empty lines, blanks and upper case make no difference") {
    CHECK(events_of("\xEF\xBB\xBF# mock of 25 November\r\n\r\n  9:00\tSTART   q1 # late\r\n"
                    "9:05  Q2 (a)\r\n \t\r\n9:06 a3#x\r\n9:07  Hand \t in  \r\n") ==
          List{"32400 start 0", "32700 go 1", "32760 go 3", "32820 hand in 0"});
}

TEST_CASE("a sitting may pass midnight once") {
    CHECK(events_of("23:00 start\n23:59:59 2a\n00:00 2b\n1:10 hand in") ==
          List{"82800 start 0", "86399 go 1", "86400 go 2", "90600 hand in 0"});
    CHECK(problems_of("23:00 start\n00:10 2a\n23:00 2b\n00:20 hand in") ==
          List{"4:1 '00:20' is 22:40:00 before the line above: give events in order of time"});
}

TEST_CASE("a time twelve hours earlier is out of order, a second more is the next day") {
    CHECK(problems_of("13:00 start\n01:00 hand in") ==
          List{"2:1 '01:00' is 12:00:00 before the line above: give events in order of time"});
    CHECK(events_of("13:00:01 start\n01:00 hand in") == List{"46801 start 0", "90000 hand in 0"});
}

TEST_CASE("a time out of order is reported once, where it turns back") {
    CHECK(problems_of("09:00 start\n10:40 2a\n09:45 2b\n09:50 hand in") ==
          List{"3:1 '09:45' is 55:00 before the line above: give events in order of time"});
    CHECK(events_of("09:00 start\n09:00 2a\n09:00 hand in").size() == 3);
}

TEST_CASE("what isn't a time, a word or a part is reported with its line and column") {
    CHECK(problems_of("09:00 start\n  9.30 2a\n09:31 brake\n09:32 9c\n09:33\n09:34 hand in") ==
          List{"2:3 '9.30' is not a time of day: write it as 09:00 or 09:00:30",
               "3:7 'brake' is not an event: write start, a part, rest, work or hand in",
               "4:7 there is no part 9c: write one of 1, 2a, 2b, A3",
               "5:6 a time without an event: write start, a part, rest, work or hand in"});
    CHECK(problems_of("09:00 start\n09:10 rest 5\n09:34 hand in") ==
          List{"2:7 'rest 5' is not an event: write start, a part, rest, work or hand in"});
}

TEST_CASE("what follows from a line that can't be read is not reported again") {
    CHECK(problems_of("09:00 start 7\n09:10 2a\n09:34 hand in") ==
          List{"1:13 there is no part 7: write one of 1, 2a, 2b, A3"});
    CHECK(problems_of("9.00 start\n09:10 2a\n09:34 hand in").size() == 1);
    CHECK(problems_of("09:00 start\n9.10 rest\n09:15 work\n09:34 hand in").size() == 1);
    CHECK(problems_of("09:00 start\n09:34 handin") ==
          List{"2:7 'handin' is not an event: write start, a part, rest, work or hand in"});
}

TEST_CASE("a long list of parts is told by its ends") {
    List many;
    for (int i = 1; i <= 11; ++i)
        many.push_back(std::to_string(i));
    CHECK(problems_of("09:00 start\n09:10 12\n09:34 hand in", many) ==
          List{"2:7 there is no part 12: the 11 parts go from 1 to 11"});
}

TEST_CASE("a column counts characters") {
    CHECK(problems_of("09:00 start\n09:10 \xC3\xA9 # \xC3\xA9\n\xC2\xA0"
                      "9:20 2a\n09:34 hand in") ==
          List{"2:7 '\xC3\xA9' is not an event: write start, a part, rest, work or hand in",
               "3:1 '\xC2\xA0"
               "9:20' is not a time of day: write it as 09:00 or 09:00:30"});
}

TEST_CASE("a sitting begins with start and ends with handing in") {
    CHECK(problems_of("09:00 2a\n09:10 2b\n09:34 hand in") ==
          List{"1:0 the first event is not 'start': add it with its time"});
    CHECK(problems_of("09:00 2a").size() == 2);
    CHECK(problems_of("09:00 start\n09:10 2b\n\n# no more") ==
          List{"2:0 the last event is not 'hand in': add it with its time"});
    for (const char* const text : {"", "\n", "# nothing\n\n", "\xEF\xBB\xBF"})
        CHECK(problems_of(text) == List{"0:0 there are no events: begin with a line such as '09:00 start'"});
}

TEST_CASE("what a clock refuses is reported with its line") {
    CHECK(problems_of("09:00 start\n09:01 start 2a\n09:02 work\n09:03 rest\n09:04 rest\n09:05 2a\n"
                      "09:06 work\n09:07 hand in\n09:08 2b\n09:09 hand in") ==
          List{"2:0 the clock has started already: it starts once",
               "3:0 the clock is running: there is no break to come back from",
               "5:0 the break has begun already: go back to work before the next one",
               "6:0 no part can be started during a break: go back to work first",
               "9:0 the work is handed in: nothing comes after that",
               "10:0 the work is handed in: nothing comes after that"});
}

TEST_CASE("events that were read are taken by a clock of the same parts") {
    const Reading reading =
        read("23:50 start\n23:55 rest\n00:05 work\n00:06 2a\n00:06 1\n00:30 A3\n00:31 hand in");
    REQUIRE(reading.problems.empty());
    Clock clock({{"1", Marks(5), Seconds(360)},
                 {"2a", Marks(5), Seconds(360)},
                 {"2b", Marks(5), Seconds(360)},
                 {"A3", Marks(5), Seconds(360)}});
    for (const ClockEvent& event : reading.events)
        clock.take(event);
    CHECK(clock.state(clock.record(sitting_day).breaks.at(0).to).worked == std::chrono::minutes{31});
    CHECK(clock.record(sitting_day).ink_changed_at ==
          Moment(sitting_day + std::chrono::hours{24} + std::chrono::minutes{24}));
}

TEST_CASE("whatever the bytes are, each problem has a line of the text") {
    std::string text = "09:00 start\n09:10 2a\n09:20 rest\n09:25 work\n10:00 hand in\n";
    const std::string bytes = std::string("\n\r #:09azQ(\xFF\x7F") + '\0';
    for (std::size_t i = 0; i < text.size(); ++i) {
        for (const char byte : bytes) {
            std::string changed = text;
            changed[i] = byte;
            for (const Problem& problem : read(changed).problems)
                CHECK(problem.line <= 6);
        }
    }
}
