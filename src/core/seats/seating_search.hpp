#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn::seats {

using Amount = std::int64_t;
using Index = std::size_t;

/// Marks lost by candidates on topics. There is a column for each topic on each date, 0 for who can't come
/// then, so that a lesson on a date has columns of that date alone.
struct Losses {
    Index candidates = 0;
    Index topics = 0;          ///< columns, `topics_a_date` for each date
    std::vector<Amount> marks; ///< one row per candidate
    Index topics_a_date = 0;
    /// What a seat is worth for those who must have one, more than all marks together, in the last column of
    /// each date; 0: nobody must, and there is no such column.
    Amount must = 0;

    Amount at(Index candidate, Index column) const { return marks[candidate * topics + column]; }
    Index dates() const { return topics / topics_a_date; }
    Index topic_of(Index column) const { return column % topics_a_date; }
    Index date_of(Index column) const { return column / topics_a_date; }
    Index column(Index date, Index topic) const { return date * topics_a_date + topic; }
};

/// How much may still be done, in elementary steps: a plan stops after a fixed amount of work.
struct Budget {
    Amount remaining;

    void spend(Index steps) { remaining -= static_cast<Amount>(steps); }
    bool is_spent() const { return remaining <= 0; }
};

/// Parallel lessons of the same topics. A candidate sits at most one of them.
struct Group {
    std::vector<Index> topics; ///< columns of one date
    Index places;              ///< in all its lessons
};

/// Groups, one bit each.
using GroupSet = std::uint64_t;

constexpr GroupSet only(Index group) {
    return GroupSet{1} << group;
}

inline bool has(GroupSet set, Index group) {
    return (set >> group & 1U) != 0;
}

inline Index size_of(GroupSet set) {
    Index size = 0;
    for (; set != 0; set &= set - 1)
        ++size;
    return size;
}

/// Who sits where: the groups of each candidate.
struct Seating {
    std::vector<GroupSet> groups_of;
    Amount marks = 0;
};

/// The seats of groups whose topics are given.
class SeatingSearch {
  public:
    /// At most 64 groups, no two of the same topics.
    SeatingSearch(const Losses& losses, std::vector<Group> groups, Index max_lessons_each);

    /// Whether no candidate can sit two groups that share a topic: then best_seating() is the best there is.
    bool is_additive() const { return is_additive_; }

    /// Seats candidates by the best chain of moves, from the seating given, until no chain wins anything.
    /// `prices` then holds what one more place in each group would win.
    Seating best_seating(Seating from, Budget& budget);
    Seating best_seating(Budget& budget) { return best_seating(nobody_seated(), budget); }

    /// The same with fewer seats where the marks stay, none of them for nothing.
    Seating with_fewest_seats(Seating from, Budget& budget);

    /// What a search of all seatings found.
    struct SearchResult {
        Amount bound;                ///< no seating wins more
        std::optional<Seating> best; ///< the best one, where it wins more than what was to be beaten
    };
    /// Looks for the best seating that wins more than `to_beat`; starts from the prices that best_seating()
    /// left. Its body is in overlap.cpp.
    SearchResult search(Amount to_beat, Budget& budget) const;

    Amount worth(Index candidate, GroupSet set) const;
    Amount worth(const Seating& seating) const;

  private:
    struct Move {
        Amount gain;
        Index candidate;
    };
    struct Weighing {
        Amount mark;
        Amount seat;
    };

    Seating nobody_seated() const { return {std::vector<GroupSet>(losses_->candidates, 0), 0}; }
    Amount added(Index candidate, Index group, GroupSet to) const;
    Amount weight(Index candidate, GroupSet set, Weighing weighing) const;
    void collect_moves(const Seating& seating, Weighing weighing);
    void offer(Index from, Index to, Amount gain, Index candidate);
    bool take_best_chain(Seating& seating, Weighing weighing);
    std::vector<Index> best_chain();
    std::vector<Index> circle(const std::vector<Index>& before, Index group) const;
    std::vector<Index> chain_to_nowhere(const std::vector<Index>& before) const;
    bool take_chain(const std::vector<Index>& chain, Seating& seating, Weighing weighing) const;
    Seating improved(Seating seating, Weighing weighing, Budget& budget);

    const Losses* losses_;
    std::vector<Group> groups_;
    Index max_lessons_each_;
    bool is_additive_ = true;
    std::vector<Amount> alone_;                  ///< worth of a group by itself, one row per candidate
    std::vector<GroupSet> overlaps_;             ///< the other groups that share a topic with one
    std::vector<std::vector<GroupSet>> sharing_; ///< the other groups that take a group's topic
    std::vector<Move> moves_; ///< the best from a group (or from nowhere, the last row) to another
    std::vector<Index> loads_;
    std::vector<Amount> reach_; ///< the best chain from nowhere to a group
    std::vector<Amount> prices_;
};

} // namespace inkturn::seats
