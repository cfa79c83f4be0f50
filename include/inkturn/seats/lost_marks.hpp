#pragma once

#include "inkturn/lesson/wish.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/seats/seats.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What lessons are filled by.
enum class SeatMeasure : std::uint8_t {
    hour, ///< the marks a paper that an hour wins back, if it teaches what is assumed
    marks ///< the marks lost
};

std::string_view name(SeatMeasure measure) noexcept;
std::optional<SeatMeasure> seat_measure_named(std::string_view text) noexcept;

/// What one candidate lost on one topic.
struct TopicLosses {
    Marks marks;               ///< unaided marks short of the maximum, in parts not seen before
    SeatWeight won_in_an_hour; ///< see won_in_an_hour()
};

/// The marks a paper that an hour on the topic wins back, if it teaches what is assumed, in hundredths of a
/// mark, a half rounded up, so that it is a whole number. 0 without an outlook, and
/// where the topic is firm or probably so.
SeatWeight won_in_an_hour(const TopicDiagnosis& topic);

/// By topic; parts without a topic are left out.
std::map<std::string, TopicLosses> losses_by_topic(const std::vector<TopicDiagnosis>& topics);

/// On these topics together; nothing where no part on any of them was sat.
std::optional<Marks> marks_lost_on(const std::vector<TopicDiagnosis>& topics,
                                   const std::vector<std::string>& names);

/// One candidate's.
struct CandidateLosses {
    std::string candidate;
    std::map<std::string, TopicLosses> by_topic;
};

/// What candidates have lost, topic by topic: one row per candidate, one entry per topic; 0 where nothing was
/// lost. What takes it throws Error where rows or entries are missing, or a plan is of others.
struct LostMarks {
    std::vector<std::string> candidates; ///< codes, in the order given
    std::vector<std::string> topics;     ///< ascending
    std::vector<std::vector<Marks>> marks;
    std::vector<std::vector<SeatWeight>> won_in_an_hour;
    std::vector<std::vector<bool>> met{}; ///< whether the candidate sat a part on the topic

    /// What plan_seats() takes.
    std::vector<std::vector<SeatWeight>> rows_by(SeatMeasure measure) const;
};

LostMarks lost_marks(const std::vector<CandidateLosses>& candidates);

/// Keeps only the marks that were wished for: none for a candidate without a wish, and those lost on the
/// topics named for one who named topics.
void keep_wishes(LostMarks& lost, const std::vector<Wish>& wishes);

/// What the rows hold for a seat: the topics of its lesson, less those of the candidate's earlier lessons.
struct SeatLosses {
    Marks marks;
    SeatWeight won_in_an_hour;
};

/// One row per lesson of the plan, one entry per seat.
std::vector<std::vector<SeatLosses>> losses_by_seat(const SeatPlan& plan, const LostMarks& lost);

/// Over all seats.
SeatLosses total_losses(const std::vector<std::vector<SeatLosses>>& seats);

/// Why a candidate has no seat.
enum class NoSeat : std::uint8_t {
    never,        ///< was not to have one
    not_asked,    ///< wishes are on file, and none is the candidate's
    no_marks,     ///< sat nothing that counts here
    no_part,      ///< sat no part on what was wanted
    full_marks,   ///< lost none there
    firm,         ///< lost some, and an hour would win back none
    other_dates,  ///< can come on none of the dates
    other_topics, ///< no lesson on a date that suits is on what the candidate needs
    no_room
};

std::string_view name(NoSeat why) noexcept;

struct WithoutSeat {
    std::string candidate;
    NoSeat why;
};

/// What seats were planned from.
struct SeatsBasis {
    const LostMarks& lost; ///< before keep_wishes()
    SeatMeasure measure;
    const SeatsRequest& request;
    const std::vector<SeatTerms>& terms;            ///< one for each candidate, or none at all
    const std::optional<std::vector<Wish>>& wishes; ///< nothing: everybody may be seated
    std::set<std::string> with_marks{};             ///< codes of those who have any, whatever the topics
};

/// All candidates who sit in no lesson of the plan, in their order.
std::vector<WithoutSeat> without_seat(const SeatPlan& plan, const SeatsBasis& basis);

} // namespace inkturn
