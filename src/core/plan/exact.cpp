#include "core/plan/exact.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace inkturn::board {
namespace {

/// Items, a bit each.
using Set = std::uint32_t;

auto in_order(const Price& price) {
    return std::tie(price.fare.without, price.fare.on_exam, price.fare.outside, price.fare.away, price.broken,
                    price.unreserved, price.reserved_outside, price.off_near, price.uneven, price.days,
                    price.turns);
}

bool has(Set set, Index i) {
    return (set >> i & 1U) != 0;
}

int size_of(Set set) {
    int size = 0;
    for (; set != 0; set &= set - 1)
        ++size;
    return size;
}

/// Some items on one day.
struct Handful {
    Set set;
    Price price;
};

class SetsByDay {
  public:
    SetsByDay(const Board& board, const std::vector<Index>& items, Until until)
        : board_(board), items_(items), until_(until), all_((Set{1} << items.size()) - 1) {
        for (Index x = 0; x < items.size(); ++x) {
            follow_.push_back(set_of(board.item(items[x]).before));
            const std::optional<Index> half = board.item(items[x]).half;
            half_.push_back(half ? set_of({*half}) : 0);
        }
    }

    /// With days inside the windows alone where these suffice for a free fare.
    Best best() {
        Best found = search(true);
        return found.price.fare.is_free() ? found : search(false);
    }

  private:
    Set set_of(const std::vector<Index>& items) const {
        Set set = 0;
        for (Index x = 0; x < items_.size(); ++x)
            if (std::find(items.begin(), items.end(), items_[x]) != items.end())
                set |= Set{1} << x;
        return set;
    }

    Price price_on(Index x, Index t) const {
        Price price;
        price.fare = board_.fare(items_[x], t);
        if (until_ == Until::fare)
            return price;
        const Item& item = board_.item(items_[x]);
        price.broken = board_.broken(items_[x], t);
        if (item.brought_by && static_cast<Amount>(t) > item.closes)
            price.reserved_outside = item.work;
        price.off_near = board_.off_near(items_[x], t);
        price.days = t;
        price.turns = static_cast<Amount>(t) * static_cast<Amount>(items_.size() - x);
        return price;
    }

    Price price_without(Set left) const {
        Price price;
        for (Index x = 0; x < items_.size(); ++x)
            if (has(left, x)) {
                price.fare = price.fare + board_.fare(items_[x], std::nullopt);
                price.turns += static_cast<Amount>(board_.days()) * static_cast<Amount>(items_.size() - x);
                if (until_ == Until::evenness && board_.item(items_[x]).brought_by)
                    price.unreserved += board_.item(items_[x]).work;
            }
        return price;
    }

    /// The sets that have room on a day.
    std::vector<Handful> handfuls(Index t, bool windows_alone) const {
        std::vector<Handful> found{{0, {}}};
        std::vector<Amount> work{0};
        std::vector<bool> has_paper{false};
        for (Index x = 0; x < items_.size(); ++x) {
            if (!board_.fits(items_[x], t))
                continue;
            const Price price = price_on(x, t);
            if (windows_alone && !price.fare.is_free())
                continue;
            const Item& item = board_.item(items_[x]);
            const std::size_t before = found.size();
            for (std::size_t i = 0; i < before; ++i) {
                if (work[i] + item.work > board_.room(t) || (has_paper[i] && item.paper))
                    continue;
                found.push_back({found[i].set | Set{1} << x, found[i].price + price});
                work.push_back(work[i] + item.work);
                has_paper.push_back(has_paper[i] || item.paper);
            }
        }
        if (until_ == Until::evenness)
            for (std::size_t i = 0; i < found.size(); ++i)
                found[i].price.uneven = board_.grown(t, work[i]);
        found.erase(found.begin());
        return found;
    }

    /// Orders broken since something comes on a day while what should come later, or its half, came before.
    int broken_by(Set here, Set done) const {
        int count = 0;
        for (Index x = 0; x < items_.size(); ++x)
            if (has(here, x))
                count += size_of(follow_[x] & (done | here)) + size_of(half_[x] & done);
        return count;
    }

    Best search(bool windows_alone) const {
        std::vector<std::optional<Price>> least(std::size_t{all_} + 1);
        std::vector<std::vector<Set>> taken; ///< of each day looked at, by the set done after it
        std::vector<Index> days;
        least[0] = Price();
        for (Index t = 0; t < board_.days(); ++t) {
            const std::vector<Handful> all_here = handfuls(t, windows_alone);
            if (all_here.empty())
                continue;
            std::vector<std::optional<Price>> next = least;
            std::vector<Set> took(least.size(), 0);
            for (const Handful& here : all_here) {
                const Set others = all_ & ~here.set;
                for (Set done = others;; done = (done - 1) & others) {
                    if (least[done]) {
                        Price price = *least[done] + here.price;
                        if (until_ == Until::evenness)
                            price.broken += broken_by(here.set, done);
                        std::optional<Price>& held = next[done | here.set];
                        if (!held || price < *held) {
                            held = price;
                            took[done | here.set] = here.set;
                        }
                    }
                    if (done == 0)
                        break;
                }
            }
            least = std::move(next);
            taken.push_back(std::move(took));
            days.push_back(t);
        }

        Best best{{}, std::vector<MaybeDay>(items_.size())};
        Set done = 0;
        for (Set set = 0; set <= all_; ++set)
            if (least[set]) {
                const Price price = *least[set] + price_without(all_ & ~set);
                if (set == 0 || price < best.price) {
                    best.price = price;
                    done = set;
                }
            }
        for (std::size_t i = days.size(); i-- > 0;) {
            const Set here = taken[i][done];
            for (Index x = 0; x < items_.size(); ++x)
                if (has(here, x))
                    best.days[x] = days[i];
            done &= ~here;
        }
        return best;
    }

    const Board& board_;
    const std::vector<Index>& items_;
    Until until_;
    Set all_;
    std::vector<Set> follow_; ///< those that come after each
    std::vector<Set> half_;
};

} // namespace

bool operator<(const Price& a, const Price& b) {
    return in_order(a) < in_order(b);
}

Price operator+(const Price& a, const Price& b) {
    return {a.fare + b.fare,
            a.broken + b.broken,
            a.unreserved + b.unreserved,
            a.reserved_outside + b.reserved_outside,
            a.off_near + b.off_near,
            a.uneven + b.uneven,
            a.days + b.days,
            a.turns + b.turns};
}

double steps_of_exact(const Board& board, const std::vector<Index>& items) {
    double steps = 0;
    for (Index t = 0; t < board.days(); ++t) {
        std::size_t open = 0;
        for (const Index i : items)
            open += board.fits(i, t) ? 1U : 0U;
        steps += std::pow(3.0, static_cast<double>(open)) *
                 std::pow(2.0, static_cast<double>(items.size() - open));
    }
    return steps;
}

Best place_exactly(const Board& board, const std::vector<Index>& items, Until until) {
    return SetsByDay(board, items, until).best();
}

} // namespace inkturn::board
