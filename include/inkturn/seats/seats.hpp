#pragma once

#include "inkturn/base/day.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// What decides who gets a place in a lesson: a count of marks, or of hundredths of a mark. Never
/// below 0.
class SeatWeight {
  public:
    constexpr SeatWeight() = default;
    /// Throws Error below 0.
    explicit SeatWeight(int count);
    constexpr int count() const { return count_; }

    SeatWeight& operator+=(SeatWeight other) {
        count_ += other.count_;
        return *this;
    }
    friend constexpr bool operator==(SeatWeight a, SeatWeight b) { return a.count_ == b.count_; }
    friend constexpr bool operator!=(SeatWeight a, SeatWeight b) { return !(a == b); }
    friend constexpr bool operator<(SeatWeight a, SeatWeight b) { return a.count_ < b.count_; }
    friend constexpr bool operator>(SeatWeight a, SeatWeight b) { return b < a; }
    friend constexpr bool operator<=(SeatWeight a, SeatWeight b) { return !(b < a); }
    friend constexpr bool operator>=(SeatWeight a, SeatWeight b) { return !(a < b); }

  private:
    int count_ = 0;
};

/// The lessons there is room for.
struct SeatsRequest {
    std::size_t lessons;              ///< 1 to 64
    std::size_t places;               ///< in each lesson; 1 or more
    std::size_t topics_each = 1;      ///< the most topics that one lesson takes; 1 or more
    std::size_t max_lessons_each = 1; ///< the most lessons that one candidate sits; 1 or more
    std::vector<Day> dates{};         ///< of each lesson, ascending; empty: everybody can come to each
};

/// What a candidate's seats have to meet.
struct SeatTerms {
    bool must = false;        ///< has a seat, whatever it wins
    bool never = false;       ///< has none
    std::vector<Day> dates{}; ///< on which the candidate can come; empty: on all
};

/// Positions of candidates who must have a seat and for whom there is no place beside the others who must, on
/// the dates on which they can come; as few as possible. `terms` as for plan_seats().
std::vector<std::size_t> musts_without_place(const SeatsRequest& request,
                                             const std::vector<SeatTerms>& terms);

/// Which topics each lesson takes, and who sits in it.
struct SeatPlan {
    struct Seat {
        std::size_t candidate;
        SeatWeight weight; ///< what is won here and in no earlier lesson of the plan; 0 only for a seat that
                           ///< must be
    };
    struct SeatedLesson {
        std::vector<std::size_t> topics; ///< ascending; each wins marks for somebody seated here, if any does
        std::vector<Seat> seats;         ///< by candidate
        std::optional<Day> date{};
    };
    std::vector<SeatedLesson> lessons; ///< as many as were asked for; by date, those nobody needs last
    SeatWeight weight;                 ///< over all seats
    SeatWeight bound; ///< no plan wins more; where it equals the weight the plan is proven best
};

/// Chooses the topics and candidates of each lesson so that as much as possible may be won back: summed over
/// the candidates, what they lost on the topics of their lessons, each topic once. `lost` has one row per
/// candidate, all of one length, with the weight of each topic. Throws Error where rows differ in length, or
/// `request` is outside its ranges, or the weights add up to more than 1,000,000,000. Two lessons may take
/// the same topics. `terms` has one for each candidate, or none at all. Those who must have a seat have one
/// before anything is won; throws Error where musts_without_place() names any. Among plans with the same
/// topics, fewer seats are preferred where that is cheap to tell. The same input always gives the same plan:
/// the search stops after a fixed amount of work, not after a time, and the bound then lies above the weight.
SeatPlan plan_seats(const SeatsRequest& request, const std::vector<std::vector<SeatWeight>>& lost,
                    const std::vector<SeatTerms>& terms = {});

} // namespace inkturn
