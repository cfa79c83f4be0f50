#include "exchange/calendar/ical.hpp"

#include "catch.hpp"
#include "exchange/calendar/ical_lines.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/base/utf8.hpp"

#include <iterator>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day wednesday{date::year{2026} / date::November / 25};
constexpr Moment stamp = wednesday + Seconds{9 * 3600 + 5};

/// Octets of each line that a text is folded into.
std::vector<std::size_t> octets(const std::string& text) {
    std::vector<std::size_t> counts;
    for (const std::string& line : physical_lines(content_line(text)))
        counts.push_back(line.size());
    return counts;
}

std::string unfolded(const std::string& lines) {
    std::string text;
    for (const std::string& line : physical_lines(lines))
        text += text.empty() ? line : line.substr(1);
    return text;
}

std::string random_text(std::mt19937& dice) {
    const std::string pieces[] = {"a",  "\\",        "\\n",          ";",
                                  ",",  ":",         "\n",           " ",
                                  "\"", "\xC3\xA9",  "\xE7\xA9\x8D", "\xF0\x9F\x96\x8B",
                                  "\t", "e\xCC\x81", "retry 1q7",    "BEGIN:VEVENT"};
    std::string text;
    for (auto count = dice() % 120; count > 0; --count)
        text += pieces[dice() % std::size(pieces)];
    return text;
}

std::vector<Property> expected(const std::vector<CalendarEvent>& events) {
    std::vector<Property> all{
        {"BEGIN", "VCALENDAR"}, {"VERSION", "2.0"}, {"PRODID", "-//inkturn//inkturn//EN"}};
    for (const CalendarEvent& event : events)
        all.insert(all.end(), {{"BEGIN", "VEVENT"},
                               {"UID", event.uid},
                               {"DTSTAMP", "20261125T090005Z"},
                               {"SEQUENCE", "0"},
                               {"STATUS", "CONFIRMED"},
                               {"DTSTART;VALUE=DATE", "20261125"},
                               {"DTEND;VALUE=DATE", "20261126"},
                               {"SUMMARY", event.summary},
                               {"DESCRIPTION", event.description},
                               {"TRANSP", "TRANSPARENT"},
                               {"END", "VEVENT"}});
    all.emplace_back("END", "VCALENDAR");
    return all;
}

} // namespace

TEST_CASE("a calendar is written line by line, each ended by CRLF") {
    CHECK(to_ical({{"inkturn-day-1", wednesday, wednesday, "2 retries, 17 min", "one\ntwo, with a comma"}},
                  stamp) == "BEGIN:VCALENDAR\r\n"
                            "VERSION:2.0\r\n"
                            "PRODID:-//inkturn//inkturn//EN\r\n"
                            "BEGIN:VEVENT\r\n"
                            "UID:inkturn-day-1\r\n"
                            "DTSTAMP:20261125T090005Z\r\n"
                            "SEQUENCE:0\r\n"
                            "STATUS:CONFIRMED\r\n"
                            "DTSTART;VALUE=DATE:20261125\r\n"
                            "DTEND;VALUE=DATE:20261126\r\n"
                            "SUMMARY:2 retries\\, 17 min\r\n"
                            "DESCRIPTION:one\\ntwo\\, with a comma\r\n"
                            "TRANSP:TRANSPARENT\r\n"
                            "END:VEVENT\r\n"
                            "END:VCALENDAR\r\n");
}

TEST_CASE("the last day of an event is in it, over the ends of months and years and of the calendar") {
    const auto end_of = [](Day first, Day last) {
        return properties(to_ical({{"1", first, last, "", ""}}, stamp)).at(9);
    };
    constexpr Day new_years_eve{date::year{2026} / date::December / 31};
    CHECK(end_of(wednesday, new_years_eve) == Property("DTEND;VALUE=DATE", "20270101"));
    CHECK(end_of(Day{date::year{2028} / 2 / 28}, Day{date::year{2028} / 2 / 28}).second == "20280229");
    CHECK(end_of(latest_day, latest_day).second == "22010101");
    CHECK(end_of(earliest_day, earliest_day).second == "19000102");
}

TEST_CASE("a cancelled event says so, and its sequence is its revision") {
    CalendarEvent event{"1", wednesday, wednesday, "Cancelled", ""};
    event.revision = 12;
    event.cancelled = true;
    const auto written = properties(to_ical({event}, stamp));
    CHECK(written.at(6) == Property("SEQUENCE", "12"));
    CHECK(written.at(7) == Property("STATUS", "CANCELLED"));
}

TEST_CASE("a line of 75 octets is whole, a longer one goes on behind a blank") {
    using Octets = std::vector<std::size_t>;
    CHECK(octets("") == Octets{0});
    CHECK(octets(std::string(75, 'x')) == Octets{75});
    CHECK(octets(std::string(76, 'x')) == Octets{75, 2});
    CHECK(octets(std::string(75 + 74, 'x')) == Octets{75, 75});
    CHECK(octets(std::string(75 + 74 + 1, 'x')) == Octets{75, 75, 2});
    CHECK(content_line(std::string(75, 'x') + " y") == std::string(75, 'x') + "\r\n  y\r\n");
}

TEST_CASE("a line is never folded inside a character, and no earlier than it must be") {
    for (const std::string character : {"\xC3\xA9", "\xE7\xA9\x8D", "\xF0\x9F\x96\x8B"})
        for (std::size_t before = 60; before <= 80; ++before) {
            std::string text(before, 'x');
            for (int i = 0; i < 60; ++i)
                text += character;
            const auto lines = physical_lines(content_line(text));
            for (std::size_t i = 0; i < lines.size(); ++i) {
                CAPTURE(character, before, i, lines[i]);
                CHECK(lines[i].size() <= 75);
                CHECK(is_utf8(lines[i]));
                if (i + 1 < lines.size())
                    CHECK(lines[i].size() + character.size() > 75);
            }
            CHECK(unfolded(content_line(text)) == text);
        }
}

TEST_CASE("in a text backslashes, semicolons, commas and line breaks are escaped, and colons are not") {
    CHECK(text_value(R"(a\b;c,d:e"f)") == R"(a\\b\;c\,d:e"f)");
    CHECK(text_value("a\nb") == "a\\nb");
    CHECK(text_value("a\r\nb\rc\n\nd\r") == "a\\nb\\nc\\n\\nd\\n");
    CHECK(text_value("\\n") == "\\\\n");
    CHECK(text_value("") == "");
}

TEST_CASE("control characters that no calendar may hold are left out, and tabs stay") {
    CHECK(text_value("a\x01\x1B\x7F\tb") == "a\tb");
    CHECK(text_value(std::string("a\0b", 3)) == "ab");
}

TEST_CASE("whatever the texts, lines are short and whole, and read back as the same") {
    std::mt19937 dice(20261125);
    for (int round = 0; round < 400; ++round) {
        std::vector<CalendarEvent> events;
        for (auto count = 1 + dice() % 3; count > 0; --count)
            events.push_back({random_text(dice), wednesday, wednesday, random_text(dice), random_text(dice)});
        const std::string calendar = to_ical(events, stamp);
        CAPTURE(calendar);
        for (const std::string& line : physical_lines(calendar)) {
            REQUIRE(line.size() <= 75);
            REQUIRE(is_utf8(line));
            REQUIRE(line.find_first_of("\r\n") == std::string::npos);
        }
        auto read = properties(calendar);
        for (auto& [name, value] : read)
            if (name == "UID" || name == "SUMMARY" || name == "DESCRIPTION")
                value = unescaped(value);
        REQUIRE(read == expected(events));
    }
}

TEST_CASE("an event with a time begins then by any wall clock, and takes its time up") {
    CalendarEvent event{"uid", wednesday, wednesday, "Lesson", ""};
    event.time = EventTime{std::chrono::hours{16} + std::chrono::minutes{5}, Seconds(5400)};
    const std::string text = to_ical({event}, stamp);
    CHECK(text.find("\r\nDTSTART:20261125T160500\r\nDURATION:PT5400S\r\n") != std::string::npos);
    CHECK(text.find("DTEND") == std::string::npos);
    CHECK(text.find("TRANSP") == std::string::npos);
}
