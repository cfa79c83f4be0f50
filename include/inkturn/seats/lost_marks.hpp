#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/seats/seats.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// By what revision classes are filled.
enum class SeatMeasure : std::uint8_t {
    hour, ///< the marks that an hour can win back
    marks ///< the marks lost
};

std::string_view name(SeatMeasure measure) noexcept;
std::optional<SeatMeasure> seat_measure_named(std::string_view name) noexcept;

/// What one candidate lost on one topic.
struct TopicLosses {
    Marks marks;                  ///< own marks short of the maximum
    SeatWeight tenths_in_an_hour; ///< see tenths_in_an_hour()
};

/// What an hour on the topic can win back, in tenths of a mark, a half rounded up, so that it is a whole
/// number; never more than there is to win back. 0 where the topic is firm, or states no advice.
SeatWeight tenths_in_an_hour(const TopicDiagnosis& topic);

/// By topic; what states no topic is left out.
std::map<std::string, TopicLosses> losses_by_topic(const std::vector<TopicDiagnosis>& topics);

/// One candidate's.
struct CandidateLosses {
    std::string candidate;
    std::map<std::string, TopicLosses> by_topic;
};

/// What candidates have lost, topic by topic: a row a candidate, an entry a topic; 0 where nothing was lost.
struct LostMarks {

    std::vector<std::string> candidates; ///< codes, in the order given
    std::vector<std::string> topics;     ///< ascending
    std::vector<std::vector<Marks>> marks;
    std::vector<std::vector<SeatWeight>> tenths_in_an_hour;

    /// What plan_seats() takes.
    std::vector<std::vector<SeatWeight>> rows_by(SeatMeasure measure) const;
};

LostMarks lost_marks(const std::vector<CandidateLosses>& candidates);

/// A candidate who asks for a place in a revision class.
struct Wish {
    std::string candidate;
    std::string topic; ///< empty: any
};

/// Leaves of the marks those that were asked for: of a candidate without a wish nothing, of one who named
/// topics what was lost on these.
void keep_wishes(LostMarks& lost, const std::vector<Wish>& wishes);

/// What the rows hold for a seat: of the topics of its class those that are in no earlier one of the
/// candidate's.
struct SeatLosses {
    Marks marks;
    SeatWeight tenths_in_an_hour;
};

/// A row a class of the plan, an entry a seat.
std::vector<std::vector<SeatLosses>> losses_by_seat(const SeatPlan& plan, const LostMarks& lost);

/// Over all seats.
SeatLosses total_losses(const std::vector<std::vector<SeatLosses>>& seats);

/// Codes of those who weigh something and sit in no class of the plan.
std::vector<std::string> left_out_of(const SeatPlan& plan, const LostMarks& lost, SeatMeasure measure);

} // namespace inkturn
