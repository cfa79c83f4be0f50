#pragma once

#include "core/plan/board.hpp"

#include <utility>
#include <vector>

namespace inkturn::board {

/// Finds room for items, where need be by moving others. What it does is bounded by a number of steps.
class Fitter {
  public:
    explicit Fitter(Board& board) : board_(board) {}

    /// Places the items, longest first, at the least fare that it finds; then tries again what has a fare.
    void place(std::vector<Index> items);

    /// Puts the item on the day though others have to make room; false, with all as before, where those would
    /// then have a greater fare than they have.
    bool force(Index i, Index t);

    /// The same, and nothing but late work stays or comes on that day.
    bool force_alone(Index i, Index t);

    /// Moves what breaks an order where that costs no fare.
    void put_in_order();

    /// Gives retries to come their days, longest first; moves others only within their windows.
    void reserve(std::vector<Index> items);

  private:
    struct Change {
        Index item;
        MaybeDay before;
        std::size_t position; ///< among the items of the day before
    };

    void move(Index i, MaybeDay to);
    void undo_to(std::size_t length);
    MaybeDay evenest(Index i) const;
    MaybeDay cheapest(Index i) const;
    bool make_room(Index i, Index t, int depth);
    bool evict(Index i, Index t);
    void find_places(std::size_t first, int depth);
    std::optional<Index> one_to_evict(Index i, Index t) const;
    bool find_place(Index i, int depth);
    bool exchange(Index a, Index b);
    bool move_whole(Index i, Index t);
    bool is_spent() const { return steps_ <= 0; }

    template <typename IsBetter>
    bool try_on(Index i, Index t, int depth, IsBetter is_better);

    Board& board_;
    std::vector<Change> changes_;
    std::vector<Index> evicted_; ///< by each make_room() under way, the innermost last
    mutable Amount steps_ = 4'000'000;
};

} // namespace inkturn::board
