#include "cli/lesson/no_seat.hpp"

namespace inkturn {
std::string reason_text(NoSeat why, bool wished) {
    switch (why) {
    case NoSeat::never:
        return "not to be seated (--not)";
    case NoSeat::not_asked:
        return "did not ask";
    case NoSeat::no_marks:
        return wished ? "no marks on what they asked for: absent, or not marked"
                      : "no marks: absent, or not marked";
    case NoSeat::no_part:
        return wished ? "no marks on a topic that they asked for" : "marks, but on no part with a topic";
    case NoSeat::full_marks:
        return "full marks";
    case NoSeat::firm:
        return "hardly any marks likely to be lost again";
    case NoSeat::other_dates:
        return "can't come on these days";
    case NoSeat::other_topics:
        return "no lesson is on what they need";
    case NoSeat::no_room:
        return "no room";
    }
    return "";
}

} // namespace inkturn
