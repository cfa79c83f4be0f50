#include "view/text/timetable.hpp"

#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <cmath>

namespace inkturn {
namespace {

/// What of it comes back once more; empty where nothing does.
std::string again(const Timetable& timetable) {
    if (timetable.expected_again == Seconds(0))
        return {};
    Seconds without_room = timetable.expected_again;
    for (const Reservation& room : timetable.reservations)
        without_room -= room.turn > 1 ? room.duration : Seconds(0);
    return ", " + length_text(timetable.expected_again) + " of it for what is missed once more" +
           (without_room > Seconds(0) ? " (no room for " + length_text(without_room) + " of that)" : "");
}

} // namespace

std::string expected_text(const Timetable& timetable) {
    if (timetable.expected == Seconds(0))
        return {};
    const std::string share = std::to_string(std::lround(100 * timetable.share.share)) + "%";
    const std::string whose = timetable.share.of == ShareOf::candidate ? " comes back, as in your sittings"
                              : timetable.share.of == ShareOf::members
                                  ? " comes back, as in the class's sittings"
                                  : " comes back, a guess until a sitting is on file";
    return wrapped(
               "Reserved for the retries that these papers will bring: " + length_text(timetable.expected) +
                   " (" + share + " of a paper" + whose + ")" + again(timetable) + ".",
               text_width()) +
           '\n';
}

} // namespace inkturn
