#include "core/plan/mend.hpp"

#include "core/plan/exact.hpp"

#include <algorithm>

namespace inkturn::board {
namespace {

constexpr std::size_t most_together = 7;
constexpr double most_mending_steps = 2.5e6;

class Mender {
  public:
    explicit Mender(Board& board) : board_(board) {}

    void mend(const std::vector<Index>& items) {
        bool has_changed = true;
        while (has_changed) {
            has_changed = false;
            for (const Index i : items)
                has_changed = mend_round(i, items) || has_changed;
        }
    }

  private:
    bool has_fare(Index i) const { return !board_.fare(i, board_.day_of(i)).is_free(); }
    bool may_move(Index i) const { return !board_.item(i).stands && !board_.item(i).late; }

    /// Together with what stands on days of its spans, from one such day on after another.
    bool mend_round(Index i, const std::vector<Index>& items) {
        bool any = false;
        for (const Span& span : board_.item(i).spans)
            for (Index start = span.first; start <= span.last; ++start) {
                if (!has_fare(i) || steps_ > most_mending_steps)
                    return any;
                any = place_anew(together_with(i, items, start, span.last)) || any;
            }
        return any;
    }

    std::vector<Index> together_with(Index i, const std::vector<Index>& items, Index start,
                                     Index last) const {
        std::vector<Index> together{i};
        const auto add = [&](Index other) {
            if (together.size() < most_together && may_move(other) &&
                std::find(together.begin(), together.end(), other) == together.end())
                together.push_back(other);
        };
        for (const Index other : items) // one more that has none, so that the two may change places
            if (together.size() < 2 && !board_.day_of(other) && other != i)
                add(other);
        for (Index t = start; t <= last; ++t)
            for (const Index other : board_.day(t).items)
                add(other);
        return together;
    }

    bool place_anew(const std::vector<Index>& together) {
        std::vector<MaybeDay> before;
        Fare fare;
        for (const Index i : together) {
            before.push_back(board_.day_of(i));
            fare = fare + board_.fare(i, before.back());
            if (before.back())
                board_.take(i);
        }
        steps_ += steps_of_exact(board_, together);
        const Best best = place_exactly(board_, together, Until::fare);
        const bool is_better = best.price.fare < fare;
        for (std::size_t i = 0; i < together.size(); ++i)
            if (const MaybeDay to = is_better ? best.days[i] : before[i])
                board_.put(together[i], *to);
        return is_better;
    }

    Board& board_;
    double steps_ = 0;
};

} // namespace

void mend(Board& board, const std::vector<Index>& items) {
    Mender(board).mend(items);
}

} // namespace inkturn::board
