#include "inkturn/lesson/lesson.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

constexpr std::size_t max_id_length = 40;
constexpr std::size_t max_text_length = 200;
constexpr std::array<std::string_view, 5> state_names{"asked", "offered", "confirmed", "declined",
                                                      "attended"};
constexpr std::array<std::string_view, 2> order_names{"asked", "marks"};

bool is_in_id(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
}

void check_id(const std::string& id) {
    if (id.empty() || id.size() > max_id_length || !std::all_of(id.begin(), id.end(), is_in_id))
        throw Error("lesson '" + id + "': use 1 to " + std::to_string(max_id_length) +
                    " lower-case letters, digits, '.', '_' or '-'");
}

void check_time(const Lesson& lesson) {
    constexpr std::chrono::hours day{24};
    if (lesson.duration < std::chrono::minutes{1} || lesson.duration > day)
        throw Error("a lesson takes 1 to 1440 minutes");
    if (lesson.start && (*lesson.start < Seconds(0) || *lesson.start + lesson.duration > day))
        throw Error("a lesson begins and ends on its day: give an earlier start or fewer minutes");
}

/// Ascending, each once and stated.
void check_topics(const std::vector<std::string>& topics) {
    for (std::size_t i = 0; i < topics.size(); ++i) {
        if (topics[i].empty())
            throw Error("a topic has no name");
        check_printable(topics[i], max_text_length, "topic");
        if (i > 0 && topics[i] <= topics[i - 1])
            throw Error("topic '" + topics[i] + "' is named twice, or out of order");
    }
}

/// Whether a place is taken by who is in this state.
bool takes_place(PlaceState state) {
    return state == PlaceState::offered || comes(state);
}

PlaceAsked& get_asked(Lesson& lesson, const std::string& candidate) {
    for (PlaceAsked& asked : lesson.asked)
        if (asked.candidate == candidate)
            return asked;
    throw Error("candidate " + candidate + " has not asked for a place in lesson " + lesson.id,
                Error::Kind::not_found);
}

void put_in_order(Lesson& lesson) {
    std::stable_sort(lesson.asked.begin(), lesson.asked.end(),
                     [](const PlaceAsked& a, const PlaceAsked& b) { return a.at < b.at; });
}

/// Throws Error where no place can be offered or confirmed.
void check_place_is_free(const Lesson& lesson, const PlaceAsked& asked, Day today) {
    if (lesson.day < today)
        throw Error("lesson " + lesson.id + " was on " + iso(lesson.day), Error::Kind::conflict);
    if (!takes_place(asked.state) && free_places(lesson) == 0)
        throw Error("lesson " + lesson.id + " has " + std::to_string(lesson.places) +
                        (lesson.places == 1 ? " place" : " places") +
                        ": no free place is left for candidate " + asked.candidate,
                    Error::Kind::conflict);
}

void check_can_become(const Lesson& lesson, const PlaceAsked& asked, PlaceState to, Day today) {
    if (asked.state == PlaceState::attended)
        throw Error("candidate " + asked.candidate + " attended lesson " + lesson.id, Error::Kind::conflict);
    if (to == PlaceState::offered && asked.state == PlaceState::confirmed)
        throw Error("candidate " + asked.candidate + " has confirmed the place in lesson " + lesson.id,
                    Error::Kind::conflict);
    if (to == PlaceState::offered || to == PlaceState::confirmed)
        check_place_is_free(lesson, asked, today);
}

} // namespace

std::string_view name(PlaceState state) noexcept {
    return state_names[static_cast<std::size_t>(state)];
}

std::optional<PlaceState> place_state_named(std::string_view text) noexcept {
    for (std::size_t i = 0; i < state_names.size(); ++i)
        if (text == state_names[i])
            return static_cast<PlaceState>(i);
    return std::nullopt;
}

std::string_view name(PlaceOrder order) noexcept {
    return order_names[static_cast<std::size_t>(order)];
}

std::optional<PlaceOrder> place_order_named(std::string_view text) noexcept {
    for (std::size_t i = 0; i < order_names.size(); ++i)
        if (text == order_names[i])
            return static_cast<PlaceOrder>(i);
    return std::nullopt;
}

std::string topics_text(const std::vector<std::string>& topics) {
    std::string text;
    for (const std::string& topic : topics)
        text += (text.empty() ? "" : ", ") + topic;
    return text;
}

void check_lesson(const Lesson& lesson) {
    check_id(lesson.id);
    check_day(lesson.day);
    check_time(lesson);
    check_printable(lesson.subject, max_text_length, "subject");
    if (lesson.topics.empty())
        throw Error("a lesson needs a topic");
    check_topics(lesson.topics);
    check_printable(topics_text(lesson.topics), Lesson::max_topics_length, "topics of a lesson together");
    if (lesson.places < 1 || lesson.places > Lesson::max_places)
        throw Error("a lesson has 1 to " + std::to_string(Lesson::max_places) + " places");
}

void check_is_ahead(Day day, Day today) {
    if (day < today)
        throw Error("--on " + iso(day) + " has passed; a lesson is planned for today or later");
}

void check_can_be_asked_for(const Lesson& lesson, Day asked_on) {
    if (lesson.day < asked_on)
        throw Error("lesson " + lesson.id + " was on " + iso(lesson.day) +
                        ": if they asked for a place by then, say when with --on",
                    Error::Kind::conflict);
}

void drop_topics_gone(Lesson& lesson) {
    for (PlaceAsked& asked : lesson.asked)
        asked.topics.erase(std::remove_if(asked.topics.begin(), asked.topics.end(),
                                          [&](const std::string& topic) {
                                              return !std::binary_search(lesson.topics.begin(),
                                                                         lesson.topics.end(), topic);
                                          }),
                           asked.topics.end());
}

void check_asked(const Lesson& lesson, const PlaceAsked& asked) {
    check_topics(asked.topics);
    for (const std::string& topic : asked.topics)
        if (!std::binary_search(lesson.topics.begin(), lesson.topics.end(), topic))
            throw Error("lesson " + lesson.id + " is not on '" + topic + "', but on " +
                        topics_text(lesson.topics));
    check_printable(asked.remark, max_text_length, "remark");
}

const PlaceAsked* find_asked(const Lesson& lesson, std::string_view candidate) {
    const auto found = std::find_if(lesson.asked.begin(), lesson.asked.end(),
                                    [&](const PlaceAsked& asked) { return asked.candidate == candidate; });
    return found == lesson.asked.end() ? nullptr : &*found;
}

std::vector<std::string> in_state(const Lesson& lesson, PlaceState state) {
    std::vector<std::string> codes;
    for (const PlaceAsked& asked : lesson.asked)
        if (asked.state == state)
            codes.push_back(asked.candidate);
    return codes;
}

std::vector<std::string> those_who_come(const Lesson& lesson) {
    std::vector<std::string> codes;
    for (const PlaceAsked& asked : lesson.asked)
        if (comes(asked.state))
            codes.push_back(asked.candidate);
    return codes;
}

std::size_t free_places(const Lesson& lesson) {
    const auto taken =
        static_cast<std::size_t>(std::count_if(lesson.asked.begin(), lesson.asked.end(),
                                               [](const PlaceAsked& one) { return takes_place(one.state); }));
    return taken < lesson.places ? lesson.places - taken : 0; // some may have come without a place
}

std::vector<std::string> next_in_line(const Lesson& lesson, const LostByCandidate& lost,
                                      const Elsewhere& elsewhere) {
    std::vector<std::string> codes = in_state(lesson, PlaceState::asked);
    codes.erase(std::remove_if(codes.begin(), codes.end(),
                               [&](const std::string& code) { return elsewhere.count(code) > 0; }),
                codes.end());
    if (lesson.order == PlaceOrder::asked)
        return codes;
    const auto marks_of = [&](const std::string& code) {
        const auto found = lost.find(code);
        return found == lost.end() ? std::optional<Marks>() : found->second;
    };
    std::stable_sort(codes.begin(), codes.end(), [&](const std::string& a, const std::string& b) {
        const auto of_a = marks_of(a);
        const auto of_b = marks_of(b);
        return of_a && of_b ? *of_a > *of_b : of_a.has_value() && !of_b;
    });
    return codes;
}

bool ask_for_place(Lesson& lesson, PlaceAsked asked) {
    check_asked(lesson, asked);
    const auto here = std::find_if(lesson.asked.begin(), lesson.asked.end(), [&](const PlaceAsked& other) {
        return other.candidate == asked.candidate;
    });
    if (here == lesson.asked.end()) {
        lesson.asked.push_back(std::move(asked));
        put_in_order(lesson);
        return true;
    }
    const bool anew = here->state == PlaceState::declined;
    if (!anew && here->topics == asked.topics && here->remark == asked.remark)
        return false;
    here->topics = std::move(asked.topics);
    here->remark = std::move(asked.remark);
    if (anew) {
        here->at = asked.at;
        here->state = PlaceState::asked;
        put_in_order(lesson);
    }
    return true;
}

bool settle_place(Lesson& lesson, const std::string& candidate, PlaceState to, Day today, Moment at) {
    if (to == PlaceState::attended && lesson.day > today)
        throw Error("lesson " + lesson.id + " is on " + iso(lesson.day) + ", after today",
                    Error::Kind::conflict);
    if (to != PlaceState::declined && !find_asked(lesson, candidate))
        ask_for_place(lesson, {candidate, at, {}, "", PlaceState::asked});
    PlaceAsked& asked = get_asked(lesson, candidate);
    if (asked.state == to)
        return false;
    check_can_become(lesson, asked, to, today);
    asked.state = to;
    return true;
}

std::vector<std::string> offer_free_places(Lesson& lesson, const LostByCandidate& lost, Day today,
                                           std::size_t max, const Elsewhere& elsewhere) {
    std::vector<std::string> offered = next_in_line(lesson, lost, elsewhere);
    offered.resize(std::min({offered.size(), max, lesson.day < today ? 0 : free_places(lesson)}));
    for (const std::string& candidate : offered)
        get_asked(lesson, candidate).state = PlaceState::offered;
    return offered;
}

std::vector<std::string> decline_places(Lesson& lesson, const std::vector<std::string>& candidates,
                                        const LostByCandidate& lost, Day today, Moment at,
                                        const Elsewhere& elsewhere) {
    const std::size_t before = free_places(lesson);
    for (const std::string& candidate : candidates)
        settle_place(lesson, candidate, PlaceState::declined, today, at);
    return offer_free_places(lesson, lost, today, free_places(lesson) - before, elsewhere);
}

} // namespace inkturn
