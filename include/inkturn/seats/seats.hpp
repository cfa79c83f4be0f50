#pragma once

#include <cstddef>
#include <vector>

namespace inkturn {

/// What decides who gets a place in a revision class: a count of marks, or of hundredths of a mark. Never
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

/// The revision classes there is room for.
struct SeatsRequest {
    std::size_t classes;              ///< 1 to 64
    std::size_t places;               ///< in each class; 1 or more
    std::size_t topics_each = 1;      ///< the most topics that one class takes; 1 or more
    std::size_t max_classes_each = 1; ///< the most classes that one candidate sits; 1 or more
};

/// Which topics each revision class takes, and who sits in it.
struct SeatPlan {
    struct Seat {
        std::size_t candidate;
        SeatWeight weight; ///< what is won here and in no earlier class of the plan; above 0
    };
    struct RevisionClass {
        std::vector<std::size_t> topics; ///< ascending; each wins marks for somebody seated here
        std::vector<Seat> seats;         ///< by candidate
    };
    std::vector<RevisionClass> classes; ///< as many as were asked for; those nobody needs are empty, and last
    SeatWeight weight;                  ///< over all seats
    SeatWeight bound; ///< no plan wins more; where it equals the weight the plan is proven best
};

/// Chooses the topics and candidates of each class so that as much as possible may be won back: summed over
/// the candidates, what they lost on the topics of their classes, each topic once. `lost` has one row per
/// candidate, all of one length, with the weight of each topic. Throws Error where rows differ in length, or
/// `request` is outside its ranges, or the weights add up to more than 1,000,000,000. Two classes may take
/// the same topics. Among plans with the same topics, fewer seats are preferred where that is cheap to tell.
/// The same input always gives the same plan: the search stops after a fixed amount of work, not after a
/// time, and the bound then lies above the weight.
SeatPlan plan_seats(const SeatsRequest& request, const std::vector<std::vector<SeatWeight>>& lost);

} // namespace inkturn
