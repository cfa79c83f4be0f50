#include "core/plan/mend.hpp"

#include "core/plan/exact.hpp"

#include <algorithm>
#include <map>

namespace inkturn::board {
namespace {

constexpr std::size_t max_together = 7;
constexpr double max_mending_steps = 2.5e6;
constexpr double max_polishing_steps = 4e5;

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
        std::vector<Index> tried;
        for (const Span& span : board_.item(i).spans)
            for (Index start = span.first; start <= span.last; ++start) {
                if (!has_fare(i) || steps_ > max_mending_steps)
                    return any;
                std::vector<Index> together = together_with(i, items, start, span.last);
                if (together.size() < 2 || together == tried) // alone it has its best day already
                    continue;
                any = place_anew(together) || any;
                tried = std::move(together);
            }
        return any;
    }

    std::vector<Index> together_with(Index i, const std::vector<Index>& items, Index start,
                                     Index last) const {
        std::vector<Index> together{i};
        const auto add = [&](Index other) {
            if (together.size() < max_together && may_move(other) &&
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
        std::vector<std::size_t> positions;
        Fare fare;
        for (const Index i : together) {
            before.push_back(board_.day_of(i));
            fare = fare + board_.fare(i, before.back());
            positions.push_back(before.back() ? board_.take(i) : 0);
        }
        steps_ += steps_of_exact(board_, together);
        const auto better = place_at_least_fare(board_, together, fare);
        for (std::size_t i = 0; better && i < together.size(); ++i)
            if (better->days[i])
                board_.put(together[i], *better->days[i]);
        for (std::size_t i = together.size(); !better && i-- > 0;)
            if (before[i])
                board_.put_back(together[i], *before[i], positions[i]);
        return better.has_value();
    }

    Board& board_;
    double steps_ = 0;
};

class Polisher {
  public:
    explicit Polisher(Board& board) : board_(board) {}

    void polish() {
        bool has_changed = true;
        while (has_changed) {
            has_changed = false;
            for (Index t = 0; t < board_.days(); ++t)
                if (const Index end = end_of_windows(t); end > t)
                    for (Index u = t + 1; u <= end && steps_ < max_polishing_steps; ++u)
                        has_changed = place_anew(together(t, u)) || has_changed;
        }
    }

  private:
    bool may_move(Index i) const {
        const Item& item = board_.item(i);
        return !item.stands && !item.late && !item.paper && board_.fare(i, board_.day_of(i)).is_free();
    }

    /// The last day of the windows of what may move on a day.
    Index end_of_windows(Index t) const {
        Index end = t;
        for (const Index i : board_.day(t).items)
            if (may_move(i))
                end = std::max(end, board_.item(i).spans.front().last);
        return end;
    }

    std::vector<Index> together(Index t, Index u) const {
        std::vector<Index> items;
        for (const Index day : {t, u})
            for (const Index i : board_.day(day).items)
                if (may_move(i))
                    items.push_back(i);
        std::sort(items.begin(), items.end());
        return items;
    }

    /// Puts the items on days; what they cost there, in the order of a search.
    Price put(const std::vector<Index>& items, const std::vector<MaybeDay>& days) {
        Price price;
        const Amount before = board_.uneven();
        for (std::size_t x = 0; x < items.size(); ++x) {
            const Index i = items[x];
            const Index t = *days[x];
            const Item& item = board_.item(i);
            price.fare = price.fare + board_.fare(i, t);
            price.broken += board_.broken(i, t);
            price.reserved_outside += item.brought_by && static_cast<Amount>(t) > item.closes ? item.work : 0;
            price.off_near += board_.off_near(i, t);
            price.days += t;
            price.turns += static_cast<Amount>(t) * static_cast<Amount>(items.size() - x);
            board_.put(i, t);
        }
        price.uneven = board_.uneven() - before;
        return price;
    }

    std::vector<MaybeDay> take(const std::vector<Index>& items) {
        std::vector<MaybeDay> days;
        for (const Index i : items) {
            days.push_back(board_.day_of(i));
            board_.take(i);
        }
        return days;
    }

    bool place_anew(const std::vector<Index>& items) {
        if (items.empty() || items.size() > max_together)
            return false;
        const auto [tried, is_new] = tried_.try_emplace(items, 0);
        if (!is_new) {
            steps_ += tried->second; // as if it were tried again
            return false;
        }
        const std::vector<MaybeDay> before = take(items);
        tried->second = steps_of_exact(board_, items);
        steps_ += tried->second;
        const Price price = put(items, before);
        take(items);
        const auto better = place_exactly(board_, items, price);
        put(items, better ? better->days : before);
        if (better)
            tried_.clear();
        return better.has_value();
    }

    Board& board_;
    double steps_ = 0;
    std::map<std::vector<Index>, double> tried_; ///< in vain since the last change: the steps that each took
};

} // namespace

void polish(Board& board) {
    Polisher(board).polish();
}

void mend(Board& board, const std::vector<Index>& items) {
    Mender(board).mend(items);
}

} // namespace inkturn::board
