#include "exchange/calendar/ical.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <cassert>

namespace inkturn {
namespace {

constexpr std::size_t max_octets = 75; // without the line break

bool is_control(char octet) {
    return static_cast<unsigned char>(octet) < 0x20 || octet == 0x7F;
}

/// ISO 8601's basic form, `20261125`, of its extended one, `2026-11-25`.
std::string basic(std::string extended) {
    extended.erase(
        std::remove_if(extended.begin(), extended.end(), [](char c) { return c == '-' || c == ':'; }),
        extended.end());
    return extended;
}

/// Floating: no time zone is named (RFC 5545, 3.3.5).
std::string lines_of(const EventTime& time, Day day) {
    return content_line("DTSTART:" + basic(iso(day) + "T" + time_of_day_text(time.start))) +
           content_line("DURATION:PT" + std::to_string(time.duration.count()) + "S");
}

std::string lines_of_days(const CalendarEvent& event) {
    return content_line("DTSTART;VALUE=DATE:" + basic(iso(event.first))) +
           content_line("DTEND;VALUE=DATE:" + basic(iso(event.last + Days{1})));
}

std::string event_lines(const CalendarEvent& event, Moment stamp) {
    return content_line("BEGIN:VEVENT") + content_line("UID:" + text_value(event.uid)) +
           content_line("DTSTAMP:" + basic(iso(stamp))) +
           content_line("SEQUENCE:" + std::to_string(event.revision)) +
           content_line(event.cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED") +
           (event.time ? lines_of(*event.time, event.first) : lines_of_days(event)) +
           content_line("SUMMARY:" + text_value(event.summary)) +
           content_line("DESCRIPTION:" + text_value(event.description)) +
           (event.time ? "" : content_line("TRANSP:TRANSPARENT")) + // does not take up the day
           content_line("END:VEVENT");
}

} // namespace

std::string content_line(std::string_view text) {
    std::string line;
    std::size_t room = max_octets;
    while (text.size() > room) {
        std::size_t end = room;
        while (end > room - 3 && continues_character(text[end])) // a character has at most four octets
            --end;
        line.append(text.substr(0, end)).append("\r\n ");
        text.remove_prefix(end);
        room = max_octets - 1; // beside the blank
    }
    return line.append(text).append("\r\n");
}

std::string text_value(std::string_view text) {
    std::string value;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool is_break = c == '\n' || c == '\r';
        if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n')
            ++i;
        if (is_break)
            value += "\\n";
        else if (c == '\\' || c == ';' || c == ',')
            (value += '\\') += c;
        else if (c == '\t' || !is_control(c))
            value += c;
    }
    return value;
}

std::string to_ical(const std::vector<CalendarEvent>& events, Moment stamp) {
    assert(!events.empty());
    std::string calendar = content_line("BEGIN:VCALENDAR") + content_line("VERSION:2.0") +
                           content_line("PRODID:-//inkturn//inkturn//EN");
    for (const CalendarEvent& event : events)
        calendar += event_lines(event, stamp);
    return calendar + content_line("END:VCALENDAR");
}

} // namespace inkturn
