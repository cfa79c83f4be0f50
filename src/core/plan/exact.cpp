#include "core/plan/exact.hpp"

#include <algorithm>
#include <limits>
#include <type_traits>

namespace inkturn::board {
namespace {

/// Items, a bit each.
using Set = std::uint32_t;

bool has(Set set, Index i) {
    return (set >> i & 1U) != 0;
}

int size_of(Set set) {
    int size = 0;
    for (; set != 0; set &= set - 1)
        ++size;
    return size;
}

constexpr Fare least_not_free{0, 0, 0, 1};

/// What costs less has a free fare, and the other way round.
template <typename Cost>
Cost end_of_free();
template <>
Fare end_of_free() {
    return least_not_free;
}
template <>
Price end_of_free() {
    Price price;
    price.fare = least_not_free;
    price.broken = std::numeric_limits<int>::min();
    return price;
}

/// Finds the least cost of having done each set of the items, day by day. A set from which no days that cost
/// less than a limit lead on is left out: at least each item costs its cheapest day to come as if it were
/// alone, where evenness is counted along a line that touches its curve from below where the items' work were
/// spread evenly.
template <typename Cost>
class SetsByDay {
  public:
    SetsByDay(const Board& board, const std::vector<Index>& items, const std::optional<Cost>& below)
        : board_(board), items_(items), all_((Set{1} << items.size()) - 1), below_(below) {
        for (Index x = 0; x < items.size(); ++x) {
            follow_.push_back(set_of(board.item(items[x]).before));
            const std::optional<Index> half = board.item(items[x]).half;
            half_.push_back(half ? set_of({*half}) : 0);
            without_.push_back(cost_without(x));
        }
    }

    /// With days inside the windows alone where these suffice for a free fare.
    std::optional<Best<Cost>> best() {
        const std::optional<Cost> below = below_;
        const Cost end = end_of_free<Cost>();
        const bool knows_free = below && *below < end;
        below_ = knows_free ? *below : end;
        if (auto found = search(true))
            return found;
        if (knows_free)
            return std::nullopt;
        below_ = below;
        return search(false);
    }

  private:
    /// Some items on one day.
    struct Handful {
        Set set = 0;
        Amount work = 0;
        bool has_paper = false;
        Cost cost{};
    };

    /// A set that is done at the end of a day.
    struct Done {
        Set set;
        Set last; ///< of it, what is done on that day
        Cost cost;
    };

    Set set_of(const std::vector<Index>& items) const {
        Set set = 0;
        for (Index x = 0; x < items_.size(); ++x)
            if (std::find(items.begin(), items.end(), items_[x]) != items.end())
                set |= Set{1} << x;
        return set;
    }

    /// What a span's days cost is never free outside the window, but for a retry to come.
    template <typename Visit>
    void visit_spans(bool windows_alone, Visit visit) const {
        for (Index x = 0; x < items_.size(); ++x) {
            const Item& item = board_.item(items_[x]);
            for (const Span& span : item.spans)
                if (!windows_alone || span.rank == 0 || item.brought_by)
                    visit(x, span);
        }
    }

    void read_costs(bool windows_alone) {
        first_ = board_.days();
        end_ = 0;
        visit_spans(windows_alone, [&](Index, const Span& span) {
            first_ = std::min(first_, span.first);
            end_ = std::max(end_, span.last + 1);
        });
        first_ = std::min(first_, end_);
        if constexpr (std::is_same_v<Cost, Price>)
            spread_evenly();
        costs_.assign(items_.size() * (end_ - first_), std::nullopt);
        visit_spans(windows_alone, [&](Index x, const Span& span) {
            for (Index t = span.first; t <= span.last; ++t)
                if (board_.fits(items_[x], t) && !(windows_alone && board_.day(t).exam))
                    cost(x, t) = cost_on(x, t);
        });
    }

    /// What each day has of the items' work if that is spread in any pieces over all their days, to one
    /// share.
    void spread_evenly() {
        Amount work = 0;
        for (const Index i : items_)
            work += board_.item(i).work;
        std::vector<Index> open;
        for (Index t = first_; t < end_; ++t)
            if (board_.day(t).available > 0)
                open.push_back(t);
        even_work_.assign(end_ - first_, 0);
        for (bool any_fuller = true; any_fuller && !open.empty();) {
            Amount load = work;
            Amount available = 0;
            for (const Index t : open) {
                load += board_.day(t).load;
                available += board_.day(t).available;
            }
            const double share = static_cast<double>(load) / static_cast<double>(available);
            const auto even = [&](Index t) {
                return static_cast<Amount>(share * static_cast<double>(board_.day(t).available)) -
                       board_.day(t).load;
            };
            const auto fuller =
                std::remove_if(open.begin(), open.end(), [&](Index t) { return even(t) < 0; });
            any_fuller = fuller != open.end();
            open.erase(fuller, open.end());
            if (!any_fuller)
                for (const Index t : open)
                    even_work_[t - first_] = even(t);
        }
    }

    std::optional<Cost>& cost(Index x, Index t) { return costs_[(t - first_) * items_.size() + x]; }

    Cost cost_on(Index x, Index t) const;
    Cost cost_without(Index x) const;
    Cost offset_on(Index t) const;
    void count_evenness(Handful& handful, Index t) const;
    void count_broken(Cost& cost, Set here, Set before) const;

    /// The least that each item costs from a day on, by day, and then what it costs without one.
    void look_ahead() {
        ahead_.resize(items_.size() * (end_ - first_ + 1));
        offset_ahead_.assign(end_ - first_ + 1, Cost{});
        std::copy(without_.begin(), without_.end(),
                  ahead_.end() - static_cast<std::ptrdiff_t>(items_.size()));
        for (Index t = end_; t-- > first_;) {
            offset_ahead_[t - first_] = offset_ahead_[t - first_ + 1] + offset_on(t);
            for (Index x = 0; x < items_.size(); ++x) {
                const std::optional<Cost>& here = cost(x, t);
                const Cost& later = ahead(x, t + 1);
                ahead(x, t) = here && *here < later ? *here : later;
            }
        }
    }

    Cost& ahead(Index x, Index t) { return ahead_[(t - first_) * items_.size() + x]; }

    /// What a set done before a day costs at least in the end, with its cost so far.
    Cost least_in_end(const Cost& so_far, Set set, Index t) {
        Cost sum = so_far + offset_ahead_[t - first_];
        for (Index x = 0; x < items_.size(); ++x)
            if (!has(set, x))
                sum = sum + ahead(x, t);
        return sum;
    }

    bool may_lead_on(const Cost& so_far, Set set, Index t) {
        return !below_ || least_in_end(so_far, set, t) < *below_;
    }

    /// The sets that have room on a day.
    std::vector<Handful> handfuls(Index t) {
        std::vector<Handful> found(1);
        for (Index x = 0; x < items_.size(); ++x) {
            const std::optional<Cost>& here = cost(x, t);
            if (!here)
                continue;
            const Item& item = board_.item(items_[x]);
            const std::size_t before = found.size();
            for (std::size_t i = 0; i < before; ++i) {
                const Amount work = found[i].work + item.work;
                if (work > board_.room(t) || (found[i].has_paper && item.paper))
                    continue;
                const Set set = found[i].set | Set{1} << x;
                const Cost cost = found[i].cost + *here;
                if (may_lead_on(cost, set, first_))
                    found.push_back({set, work, found[i].has_paper || item.paper, cost});
            }
        }
        found.erase(found.begin());
        for (Handful& one : found)
            count_evenness(one, t);
        return found;
    }

    std::optional<Best<Cost>> search(bool windows_alone) {
        read_costs(windows_alone);
        look_ahead();
        if (!may_lead_on({}, 0, first_))
            return std::nullopt;
        std::vector<std::vector<Done>> by_day; ///< of each day looked at
        std::vector<Index> days;
        std::vector<Done> done{{0, 0, {}}};
        for (Index t = first_; t < end_ && !done.empty(); ++t) {
            const std::vector<Handful> all_here = handfuls(t);
            if (all_here.empty())
                continue;
            done = done_after(t, done, all_here);
            by_day.push_back(done);
            days.push_back(t);
        }
        const auto last = best_of(done);
        if (!last)
            return std::nullopt;
        return Best<Cost>{last->cost, days_of(last->set, by_day, days)};
    }

    std::vector<Done> done_after(Index t, const std::vector<Done>& before,
                                 const std::vector<Handful>& all_here) {
        std::vector<Done> after;
        places_.assign(std::size_t{all_} + 1, std::nullopt);
        const auto take = [&](const Done& one) {
            std::optional<std::size_t>& place = places_[one.set];
            if ((place && !(one.cost < after[*place].cost)) || !may_lead_on(one.cost, one.set, t + 1))
                return;
            if (place) {
                after[*place] = one;
            } else {
                place = after.size();
                after.push_back(one);
            }
        };
        for (const Done& one : before)
            take({one.set, 0, one.cost});
        for (const Handful& here : all_here)
            for (const Done& one : before) {
                if ((one.set & here.set) != 0)
                    continue;
                Cost cost = one.cost + here.cost;
                count_broken(cost, here.set, one.set);
                take({one.set | here.set, here.set, cost});
            }
        return after;
    }

    /// Of equal ones the first set.
    std::optional<Done> best_of(const std::vector<Done>& done) {
        std::optional<Done> best;
        for (const Done& one : done) {
            const Cost cost = least_in_end(one.cost, one.set, end_);
            if (below_ && !(cost < *below_))
                continue;
            if (!best || cost < best->cost || (!(best->cost < cost) && one.set < best->set))
                best = Done{one.set, one.last, cost};
        }
        return best;
    }

    std::vector<MaybeDay> days_of(Set set, const std::vector<std::vector<Done>>& by_day,
                                  const std::vector<Index>& days) const {
        std::vector<MaybeDay> found(items_.size());
        for (std::size_t i = days.size(); i-- > 0;) {
            const auto done = std::find_if(by_day[i].begin(), by_day[i].end(),
                                           [set](const Done& one) { return one.set == set; });
            for (Index x = 0; x < items_.size(); ++x)
                if (has(done->last, x))
                    found[x] = days[i];
            set &= ~done->last;
        }
        return found;
    }

    const Board& board_;
    const std::vector<Index>& items_;
    Set all_;
    std::vector<Set> follow_; ///< those that come after each
    std::vector<Set> half_;
    std::vector<Cost> without_;              ///< of each item without a day
    std::optional<Cost> below_;              ///< what days have to cost less than
    Index first_ = 0;                        ///< of the days that the spans hold
    Index end_ = 0;                          ///< after the last of them
    std::vector<std::optional<Cost>> costs_; ///< of each item on each day where it fits, by day
    std::vector<Amount> even_work_;
    std::vector<Cost> ahead_;
    std::vector<Cost> offset_ahead_;                 ///< from a day on, by day
    std::vector<std::optional<std::size_t>> places_; ///< of each set among those that are done
};

template <>
Fare SetsByDay<Fare>::cost_on(Index x, Index t) const {
    return board_.fare(items_[x], t);
}

template <>
Price SetsByDay<Price>::cost_on(Index x, Index t) const {
    const Item& item = board_.item(items_[x]);
    Price price;
    price.fare = board_.fare(items_[x], t);
    price.broken = board_.broken(items_[x], t);
    if (item.brought_by && static_cast<Amount>(t) > item.closes)
        price.reserved_outside = item.work;
    price.off_near = board_.off_near(items_[x], t);
    price.uneven = 2 * (board_.day(t).load + even_work_[t - first_]) * item.work * board_.day(t).per_square;
    price.days = t;
    price.turns = static_cast<Amount>(t) * static_cast<Amount>(items_.size() - x);
    return price;
}

template <>
Fare SetsByDay<Fare>::cost_without(Index x) const {
    return board_.fare(items_[x], std::nullopt);
}

template <>
Price SetsByDay<Price>::cost_without(Index x) const {
    Price price;
    price.fare = board_.fare(items_[x], std::nullopt);
    price.turns = static_cast<Amount>(board_.days()) * static_cast<Amount>(items_.size() - x);
    if (board_.item(items_[x]).brought_by)
        price.unreserved = board_.item(items_[x]).work;
    return price;
}

template <>
Fare SetsByDay<Fare>::offset_on(Index /*t*/) const {
    return {};
}

/// Of the line of evenness where nothing comes.
template <>
Price SetsByDay<Price>::offset_on(Index t) const {
    Price price;
    price.uneven = -even_work_[t - first_] * even_work_[t - first_] * board_.day(t).per_square;
    return price;
}

template <>
void SetsByDay<Fare>::count_evenness(Handful& /*handful*/, Index /*t*/) const {}

/// As it is, not along the line.
template <>
void SetsByDay<Price>::count_evenness(Handful& handful, Index t) const {
    handful.cost.uneven = board_.grown(t, handful.work);
}

template <>
void SetsByDay<Fare>::count_broken(Fare& /*fare*/, Set /*here*/, Set /*before*/) const {}

/// Orders broken since something comes on a day while what should come later, or its half, came before.
template <>
void SetsByDay<Price>::count_broken(Price& price, Set here, Set before) const {
    for (Index x = 0; x < items_.size(); ++x)
        if (has(here, x))
            price.broken += size_of(follow_[x] & (before | here)) + size_of(half_[x] & before);
}

} // namespace

double steps_of_exact(const Board& board, const std::vector<Index>& items) {
    Index first = board.days(); // of the days that any may take
    Index end = 0;
    double of_other_day = 1;
    for (const Index i : items) {
        of_other_day *= 2.0;
        for (const Span& span : board.item(i).spans) {
            first = std::min(first, span.first);
            end = std::max(end, span.last + 1);
        }
    }
    double steps = of_other_day * static_cast<double>(board.days() - (end > first ? end - first : 0));
    for (Index t = first; t < end; ++t) {
        double of_day = 1;
        for (const Index i : items)
            of_day *= board.fits(i, t) ? 3.0 : 2.0;
        steps += of_day;
    }
    return steps;
}

std::optional<Best<Price>> place_exactly(const Board& board, const std::vector<Index>& items,
                                         const std::optional<Price>& below) {
    return SetsByDay<Price>(board, items, below).best();
}

std::optional<Best<Fare>> place_at_least_fare(const Board& board, const std::vector<Index>& items,
                                              const std::optional<Fare>& below) {
    return SetsByDay<Fare>(board, items, below).best();
}

} // namespace inkturn::board
