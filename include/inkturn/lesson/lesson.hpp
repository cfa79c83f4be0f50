#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// How far it is settled whether a candidate comes.
enum class PlaceState : std::uint8_t { asked, offered, confirmed, declined, attended };

std::string_view name(PlaceState state) noexcept;
std::optional<PlaceState> place_state_named(std::string_view text) noexcept;

/// Who is offered a place before others.
enum class PlaceOrder : std::uint8_t {
    asked, ///< who asked first
    marks  ///< who lost most marks on the topics wanted; who asked first if tied
};

std::string_view name(PlaceOrder order) noexcept;
std::optional<PlaceOrder> place_order_named(std::string_view text) noexcept;

/// A candidate who asked for a place in a lesson, and what came of it.
struct PlaceAsked {
    std::string candidate;
    Moment at;
    std::vector<std::string> topics; ///< of the lesson's those wanted, ascending; empty: all
    std::string remark;              ///< empty: none
    PlaceState state = PlaceState::asked;
};

/// A revision lesson on a day, for a limited number of candidates.
struct Lesson {
    std::string id; ///< lower-case letters, digits, `.`, `_`, `-`
    Day day;
    std::optional<Seconds> start; ///< since midnight; nothing: not stated
    Seconds duration{3600};
    std::string subject;             ///< of its topics; empty: of papers without one
    std::vector<std::string> topics; ///< ascending, one or more
    std::size_t places = 1;
    PlaceOrder order = PlaceOrder::asked;
    std::vector<PlaceAsked> asked{}; ///< by time, then as they were entered

    static constexpr std::size_t max_places = 10'000;
    static constexpr std::size_t max_topics_length = 200; ///< characters of topics_text()
};

/// A lesson that a candidate comes to, or came to.
struct LessonPlace {
    std::string lesson; ///< its id
    Day day;
    std::optional<Seconds> start;
    Seconds duration;
    std::string subject;
    std::vector<std::string> topics;
    PlaceState state; ///< confirmed or attended
};

/// Whether a candidate in this state comes, or came.
constexpr bool comes(PlaceState state) {
    return state == PlaceState::confirmed || state == PlaceState::attended;
}

/// `series, vectors`.
std::string topics_text(const std::vector<std::string>& topics);

/// Throws Error where the day has passed, which may be a slip.
void check_is_ahead(Day day, Day today);

/// Throws Error where somebody is to have asked for a place after the lesson's day.
void check_can_be_asked_for(const Lesson& lesson, Day asked_on);

/// Throws Error unless a lesson of this id, day, time, topics and places can be.
void check_lesson(const Lesson& lesson);

/// Drops what candidates want of topics that the lesson is no longer on.
void drop_topics_gone(Lesson& lesson);

/// Throws Error unless the topics are the lesson's, each once, and the remark has at most 200 printable
/// characters.
void check_asked(const Lesson& lesson, const PlaceAsked& asked);

/// Null where the candidate has not asked.
const PlaceAsked* find_asked(const Lesson& lesson, std::string_view candidate);

/// Those in this state, in their order.
std::vector<std::string> in_state(const Lesson& lesson, PlaceState state);

/// Those who come or came, in their order.
std::vector<std::string> those_who_come(const Lesson& lesson);

/// Places neither offered, nor confirmed, nor taken by who came.
std::size_t free_places(const Lesson& lesson);

/// Marks lost on the topics wanted, by candidate; nothing: no paper with one of them was sat.
using LostByCandidate = std::map<std::string, std::optional<Marks>>;

/// A candidate's place in another lesson at the same time.
struct PlaceElsewhere {
    std::string lesson; ///< its id
    PlaceState state;   ///< offered, confirmed or attended
};
using Elsewhere = std::map<std::string, PlaceElsewhere>; ///< by candidate

/// Those who asked and wait for an offer, the next one first, by the lesson's order. Without marks comes
/// last; who is elsewhere is left out.
std::vector<std::string> next_in_line(const Lesson& lesson, const LostByCandidate& lost,
                                      const Elsewhere& elsewhere = {});

/// Adds the candidate, or takes over topics, remark and time of asking of one who is there. A candidate who
/// declined asks anew. False where nothing changes. Throws Error as check_asked() does.
bool ask_for_place(Lesson& lesson, PlaceAsked asked);

/// Takes a place forward: a place is offered or confirmed while there is a free one, and before the lesson is
/// over; attended is who came, on its day at the earliest. Who has not asked is taken to ask at `at`, unless
/// they decline. False where the candidate is in this state already. Throws Error where it can't be.
bool settle_place(Lesson& lesson, const std::string& candidate, PlaceState to, Day today, Moment at);

/// Offers the free places, at most so many, to the next in line; returns who they are. None once the lesson
/// is over.
std::vector<std::string> offer_free_places(Lesson& lesson, const LostByCandidate& lost, Day today,
                                           std::size_t max = Lesson::max_places,
                                           const Elsewhere& elsewhere = {});

/// The candidates don't come; each place that this frees is offered to the next in line. Returns to whom.
/// Throws Error where one has not asked, or attended.
std::vector<std::string> decline_places(Lesson& lesson, const std::vector<std::string>& candidates,
                                        const LostByCandidate& lost, Day today, Moment at,
                                        const Elsewhere& elsewhere = {});

} // namespace inkturn
