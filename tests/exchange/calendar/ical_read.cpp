// Reads a calendar with libical and prints what it found of each event: the values of UID, DTSTAMP, DTSTART,
// DTEND, SUMMARY, DESCRIPTION, TRANSP, SEQUENCE and STATUS, each ended by a NUL. Fails where libical finds
// anything wrong.

#include <libical/ical.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <string>

namespace {

using Component = std::unique_ptr<icalcomponent, void (*)(icalcomponent*)>;

void print(const char* value) {
    std::cout << (value ? value : "") << '\0';
}

/// Opaque is what an event is that does not say.
const char* transparency_of(icalcomponent* event) {
    const icalproperty* transparency = icalcomponent_get_first_property(event, ICAL_TRANSP_PROPERTY);
    return transparency && icalproperty_get_transp(transparency) == ICAL_TRANSP_TRANSPARENT ? "TRANSPARENT"
                                                                                            : "OPAQUE";
}

void print_event(icalcomponent* event) {
    print(icalcomponent_get_uid(event));
    print(icaltime_as_ical_string(icalcomponent_get_dtstamp(event)));
    print(icaltime_as_ical_string(icalcomponent_get_dtstart(event)));
    print(icaltime_as_ical_string(icalcomponent_get_dtend(event)));
    print(icalcomponent_get_summary(event));
    print(icalcomponent_get_description(event));
    print(transparency_of(event));
    print(std::to_string(icalcomponent_get_sequence(event)).c_str());
    print(icalproperty_status_to_string(icalcomponent_get_status(event)));
}

} // namespace

int main(int count, char** arguments) {
    if (count != 2)
        return 2;
    std::ifstream file(arguments[1], std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const Component calendar(icalparser_parse_string(text.c_str()), icalcomponent_free);
    if (!calendar || icalcomponent_isa(calendar.get()) != ICAL_VCALENDAR_COMPONENT ||
        !icalrestriction_check(calendar.get()) || icalcomponent_count_errors(calendar.get()) > 0) {
        std::cerr << "libical finds something wrong\n";
        return 1;
    }
    for (icalcomponent* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
         event; event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT))
        print_event(event);
}
