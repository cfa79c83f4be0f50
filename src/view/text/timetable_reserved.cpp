#include "view/text/timetable.hpp"

#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <cmath>

namespace inkturn {
namespace {

std::string paragraph(const std::string& text) {
    return wrapped(text, text_width()) + '\n';
}

/// For the first turns of what papers to sit will bring; empty where there is nothing.
std::string of_papers(const Timetable& timetable) {
    if (timetable.expected == Seconds(0))
        return {};
    const std::string share = std::to_string(std::lround(100 * timetable.share.share)) + "%";
    const std::string whose = timetable.share.of == ShareOf::candidate ? " comes back, as in your sittings"
                              : timetable.share.of == ShareOf::members
                                  ? " comes back, as in the class's sittings"
                                  : " comes back, a guess until a paper is sat";
    return paragraph("Reserved for the retries that these papers will bring: " +
                     length_text(timetable.expected) + " (" + share + " of a paper" + whose + ").");
}

/// For their later turns, and those of open retries.
std::string of_later_turns(const Timetable& timetable) {
    if (timetable.expected_again == Seconds(0))
        return {};
    std::string by = " (three in five are usually got at a turn";
    if (timetable.reattempts > 0)
        by += "; your " + count_text(timetable.reattempts, "re-attempt") +
              (timetable.reattempts == 1 ? " counts too" : " count too");
    by += ")";
    const Seconds reserved = timetable.expected_again - timetable.again_without_room;
    const std::string all = length_text(timetable.expected_again);
    if (reserved == Seconds(0))
        return paragraph("No room is left for what is missed once more, " + all + by + ".");
    const bool is_all = timetable.again_without_room == Seconds(0);
    return paragraph("Reserved for what is missed once more: " +
                     (is_all
                          ? all + by + "."
                          : length_text(reserved) + " of " + all + by + "; no room is left for the rest."));
}

} // namespace

std::string expected_text(const Timetable& timetable) {
    return of_papers(timetable) + of_later_turns(timetable);
}

} // namespace inkturn
