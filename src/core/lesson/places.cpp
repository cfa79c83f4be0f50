#include "inkturn/lesson/places.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Whether a place in one lesson can't go with a place in another at the same time: who attended one may
/// have confirmed the other.
bool clash(PlaceState there, PlaceState here) {
    if (here == PlaceState::confirmed)
        return comes(there);
    return here == PlaceState::attended && there == PlaceState::attended;
}

/// The lesson as if those with a place, or who came, were waiting too.
Lesson with_all_waiting(Lesson lesson) {
    for (PlaceAsked& asked : lesson.asked)
        if (asked.state != PlaceState::declined)
            asked.state = PlaceState::asked;
    return lesson;
}

} // namespace

std::vector<std::string> placed_out_of_turn(const Lesson& lesson, const LostByCandidate& lost) {
    std::vector<std::string> placed;
    bool anyone_waits = false;
    for (const std::string& candidate : next_in_line(with_all_waiting(lesson), lost))
        if (find_asked(lesson, candidate)->state == PlaceState::asked)
            anyone_waits = true;
        else if (anyone_waits)
            placed.push_back(candidate);
    return placed;
}

bool overlap(const Lesson& a, const Lesson& b) {
    return a.day == b.day && a.start && b.start && *a.start < *b.start + b.duration &&
           *b.start < *a.start + a.duration;
}

void check_nobody_is_in_two(const Lesson& lesson, const std::vector<Lesson>& on_file) {
    for (const Lesson& other : on_file) {
        if (other.id == lesson.id || !overlap(lesson, other))
            continue;
        for (const PlaceAsked& asked : lesson.asked) {
            const PlaceAsked* there = find_asked(other, asked.candidate);
            if (there && clash(there->state, asked.state))
                throw Error("candidate " + asked.candidate +
                                (there->state == PlaceState::attended ? " attended" : " comes to") +
                                " lesson " + other.id + " at the same time on " + iso(other.day) +
                                ": nobody can be in both",
                            Error::Kind::conflict);
        }
    }
}

void check_can_be_changed(const Lesson& before, const Lesson& after) {
    const bool is_moved =
        before.day != after.day || before.start != after.start || before.duration != after.duration;
    if (is_moved && !in_state(before, PlaceState::attended).empty())
        throw Error("lesson " + before.id + " was attended on " + iso(before.day) +
                        ", so it can't be moved: plan another for what is still to come",
                    Error::Kind::conflict);
}

void take_back_attendance(Lesson& lesson, const std::string& candidate) {
    const auto found = std::find_if(lesson.asked.begin(), lesson.asked.end(), [&](const PlaceAsked& asked) {
        return asked.candidate == candidate && asked.state == PlaceState::attended;
    });
    if (found == lesson.asked.end())
        throw Error("candidate " + candidate + " is not on file as having attended lesson " + lesson.id,
                    Error::Kind::conflict);
    found->state = PlaceState::confirmed;
}

} // namespace inkturn
