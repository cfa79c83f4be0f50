#pragma once

#include "core/seats/seating_search.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

namespace inkturn::seats {

/// The bound is worked out in whole parts of a mark, so it holds to the last digit.
constexpr Amount parts_of_a_mark = 256;

/// All sets of topics that a lesson may take, each of the same size, by date.
struct Family {
    Index topics_each = 0;
    std::vector<std::uint32_t> topics; ///< columns, one set after another

    Index size() const { return topics.size() / topics_each; }
    std::vector<Index> set(Index position) const;
};

/// All sets of `topics_each` of the topics named, in their order; no more than `most` of them, or none at
/// all.
Family all_sets(const std::vector<Index>& topics, Index topics_each, Index most);

/// What the bound charges.
struct Charges {
    std::vector<Amount> seat;  ///< by candidate, in parts of a mark: for each seat they take
    std::vector<Amount> topic; ///< by topic, then candidate: for counting it once, on whichever date; empty:
                               ///< no topic counts twice
};

/// Some lessons' topics chosen, the others' to be chosen among members of the family.
struct PartialPlan {
    std::vector<Index> fixed;   ///< positions in the family, ascending; one may be there many times
    std::vector<Index> members; ///< positions in the family
    std::vector<Index> open;    ///< by date, lessons whose topics are to be chosen

    bool is_whole() const {
        return std::all_of(open.begin(), open.end(), [](Index lessons) { return lessons == 0; });
    }
};

/// What no way of choosing can beat.
struct Bound {
    Amount parts = 0;              ///< of a mark
    std::vector<Amount> of_member; ///< the same where that member of PartialPlan::members is taken
    std::vector<Index> picks; ///< the topics of all lessons that the bound takes: positions in the family

    Amount marks() const { return parts / parts_of_a_mark; }
};

enum class BoundDetail : std::uint8_t {
    total,     ///< Bound::of_member stays empty
    of_members ///< more work
};

/// Lagrange's bound on the marks of seats. The limits on a candidate's lessons, and on counting a topic more
/// than once, are given up for charges; then each lesson is filled by itself with those who win most there.
class SeatBound {
  public:
    SeatBound(const Losses& losses, const Family& family, Index places, Index max_lessons_each);

    /// None, but for the seats of those who must have one, which leave it as if they needn't.
    Charges first_charges() const;
    Bound bound(const PartialPlan& partial, const Charges& charges, BoundDetail telling, Budget& budget);

    /// Moves the charges by at most so many steps so as to lower the bound; returns the lowest bound met,
    /// with its charges in `charges`, of each member. Stops once it is proven that no more than `to_beat`
    /// marks can be won.
    template <typename Seen>
    Bound lowered(const PartialPlan& partial, Charges& charges, Index steps, Amount to_beat, Budget& budget,
                  Seen seen) {
        Bound lowest = bound(partial, charges, BoundDetail::total, budget);
        Charges at = charges;
        Bound last = lowest;
        Amount pace = max_pace;
        Index without_gain = 0;
        for (Index step = 0; step < steps && lowest.marks() > to_beat && !budget.is_spent(); ++step) {
            seen(last);
            if (!take_step(last, to_beat, pace, at))
                break;
            last = bound(partial, at, BoundDetail::total, budget);
            if (last.parts < lowest.parts) {
                lowest = last;
                charges = at;
                without_gain = 0;
            } else if (++without_gain % 10 == 0) {
                pace = pace * 2 / 3;
            }
        }
        return lowest.marks() > to_beat ? bound(partial, charges, BoundDetail::of_members, budget) : lowest;
    }

  private:
    static constexpr Amount max_pace = 256;

    void charge(const Charges& charges);
    Amount one_more(Index position, Index lessons, const Charges& charges, Budget& budget);
    Index date_of(Index position) const {
        return losses_.date_of(family_.topics[position * family_.topics_each]);
    }
    void weigh(Index set, const Charges& charges);
    Amount best_places(Index lessons);
    bool take_step(const Bound& last, Amount to_beat, Amount pace, Charges& charges);

    const Losses& losses_;
    const Family& family_;
    Index places_;
    Index max_lessons_each_;
    std::vector<Amount> kept_; ///< marks less the topic's charge, in parts, by column, then candidate
    std::vector<Amount> seat_charges_;
    std::vector<Amount> best_of_set_; ///< that one lesson of each set of the family is worth
    std::vector<Amount> weight_;      ///< by candidate, of the set weighed last
    std::vector<Amount> above_;
};

} // namespace inkturn::seats
