#include "inkturn/lesson/touched.hpp"

#include <set>

namespace inkturn {
namespace {

/// Nothing where the candidate doesn't come.
std::optional<PlaceState> coming(const std::optional<Lesson>& lesson, const std::string& candidate) {
    const PlaceAsked* asked = lesson ? find_asked(*lesson, candidate) : nullptr;
    return asked && comes(asked->state) ? std::optional(asked->state) : std::nullopt;
}

bool same_work(const Lesson& a, const Lesson& b) {
    return a.day == b.day && a.duration == b.duration && a.subject == b.subject && a.topics == b.topics;
}

} // namespace

std::vector<std::string> touched_by(const Lesson& before, const std::optional<Lesson>& after) {
    std::set<std::string> touched;
    for (const std::string& candidate : those_who_come(before))
        if (coming(after, candidate) != coming(before, candidate) || !same_work(before, *after))
            touched.insert(candidate);
    if (after)
        for (const std::string& candidate : those_who_come(*after))
            if (coming(before, candidate) != coming(after, candidate))
                touched.insert(candidate);
    return {touched.begin(), touched.end()};
}

} // namespace inkturn
