#include "inkturn/lesson/places.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <iterator>

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

/// Those on file that overlap this one.
std::vector<Lesson> others_then(const Lesson& lesson, const std::vector<Lesson>& on_file) {
    std::vector<Lesson> others;
    std::copy_if(on_file.begin(), on_file.end(), std::back_inserter(others),
                 [&](const Lesson& other) { return other.id != lesson.id && overlap(lesson, other); });
    return others;
}

/// Whether there is a place for the candidate, and so none for somebody else.
bool holds_place(PlaceState state) {
    return comes(state) || state == PlaceState::offered;
}

[[noreturn]] void refuse_both(const Lesson& other, const PlaceAsked& there) {
    const bool attended = there.state == PlaceState::attended;
    const char* has = attended                               ? " attended"
                      : there.state == PlaceState::confirmed ? " comes to"
                                                             : " is offered a place in";
    throw Error("candidate " + there.candidate + has + " lesson " + other.id + " at the same time on " +
                    iso(other.day) + ": nobody can be in both" +
                    (attended ? "" : ", so decline that place first"),
                Error::Kind::conflict);
}

} // namespace

std::vector<std::string> placed_out_of_turn(const Lesson& lesson, const LostByCandidate& lost,
                                            const Elsewhere& elsewhere) {
    std::vector<std::string> placed;
    bool anyone_waits = false;
    for (const std::string& candidate : next_in_line(with_all_waiting(lesson), lost, elsewhere))
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

Elsewhere elsewhere_then(const Lesson& lesson, const std::vector<Lesson>& on_file, Day today) {
    Elsewhere elsewhere;
    for (const Lesson& other : others_then(lesson, on_file))
        for (const PlaceAsked& there : other.asked) {
            const bool has_place = lesson.day < today ? comes(there.state) : holds_place(there.state);
            if (!has_place || !find_asked(lesson, there.candidate))
                continue;
            const auto [place, is_first] =
                elsewhere.try_emplace(there.candidate, PlaceElsewhere{other.id, there.state});
            if (!is_first && !comes(place->second.state))
                place->second = {other.id, there.state};
        }
    return elsewhere;
}

void check_is_not_elsewhere(const Lesson& lesson, const std::string& candidate,
                            const std::vector<Lesson>& on_file) {
    for (const Lesson& other : others_then(lesson, on_file)) {
        const PlaceAsked* there = find_asked(other, candidate);
        if (there && holds_place(there->state))
            refuse_both(other, *there);
    }
}

std::vector<std::string> offered_elsewhere(const Lesson& lesson, const std::string& candidate,
                                           const std::vector<Lesson>& on_file) {
    std::vector<std::string> ids;
    for (const Lesson& other : others_then(lesson, on_file)) {
        const PlaceAsked* there = find_asked(other, candidate);
        if (there && there->state == PlaceState::offered)
            ids.push_back(other.id);
    }
    return ids;
}

void check_nobody_is_in_two(const Lesson& lesson, const std::vector<Lesson>& on_file) {
    for (const Lesson& other : others_then(lesson, on_file))
        for (const PlaceAsked& asked : lesson.asked) {
            const PlaceAsked* there = find_asked(other, asked.candidate);
            if (there && clash(there->state, asked.state))
                refuse_both(other, *there);
        }
}

void check_can_be_changed(const Lesson& before, const Lesson& after) {
    const bool is_moved =
        before.day != after.day || before.start != after.start || before.duration != after.duration;
    if (is_moved && !in_state(before, PlaceState::attended).empty())
        throw Error("lesson " + before.id + " was attended on " + iso(before.day) +
                        ", so it can't be moved: plan another for what is still to come",
                    Error::Kind::conflict);
    const std::size_t taken = those_who_come(after).size() + in_state(after, PlaceState::offered).size();
    if (after.places < before.places && after.places < taken)
        throw Error("lesson " + before.id + " has " + std::to_string(taken) +
                        " places offered or confirmed, so it can't have " + std::to_string(after.places) +
                        ": decline some first, and leave them free",
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
