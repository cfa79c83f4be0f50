#include "core/plan/evenness.hpp"

#include <algorithm>
#include <cstdlib>
#include <deque>
#include <numeric>
#include <tuple>
#include <utility>

namespace inkturn::board {
namespace {

constexpr Amount max_steps = 12'000'000;

/// A day that work may come to.
struct EvenDay {
    Index t;
    Amount available;
    Amount load;
    Amount per_square;
    Index earliest;             ///< first day that shares a window with this one
    Index latest;               ///< last day that shares a window with this one
    std::vector<Index> loose{}; ///< what may move, by ascending work
    bool is_waiting = false;
};

/// An item that may move, or two halves of an hour on the same day.
struct Loose {
    std::vector<Index> items;
    Index first; ///< position of a day
    Index last;  ///< included
    Amount work;
    Index day;
};

/// A change of evenness, then of the sum of days.
struct Gain {
    Amount uneven = 0;
    Amount days = 0;
};

bool operator<(const Gain& a, const Gain& b) {
    return std::tie(a.uneven, a.days) < std::tie(b.uneven, b.days);
}

Gain operator+(const Gain& a, const Gain& b) {
    return {a.uneven + b.uneven, a.days + b.days};
}

/// The days from the first to the last, in which an item costs no fare and breaks no order.
struct Leeway {
    Index first;
    Index last;
};

std::optional<Leeway> window_of(const Item& item) {
    for (const Span& span : item.spans)
        if (span.rank == 0)
            return Leeway{span.first, span.last};
    return std::nullopt;
}

/// Whether it may go to another day of its window.
bool may_move(const Board& board, Index i) {
    const Item& item = board.item(i);
    const MaybeDay day = board.day_of(i);
    const auto window = window_of(item);
    return day && window && !item.stands && !item.paper && !item.late && window->first <= *day &&
           *day <= window->last;
}

/// The first day that is left to the later of two items in order; the earlier one has the days before it.
Index parting(const Board& board, Index earlier, Index later) {
    const Index its_day = *board.day_of(later);
    if (!may_move(board, later))
        return its_day;
    return std::max(*board.day_of(earlier) + 1, std::min(its_day, window_of(board.item(later))->first));
}

/// The days on which it breaks no order that it keeps now, wherever the others go.
Leeway in_order(const Board& board, Index i, Leeway leeway) {
    const Index day = *board.day_of(i);
    for (const Index later : board.item(i).before)
        if (const MaybeDay its_day = board.day_of(later); its_day && day < *its_day)
            leeway.last = std::min(leeway.last, parting(board, i, later) - 1);
    for (const Index earlier : board.item(i).after)
        if (const MaybeDay its_day = board.day_of(earlier); its_day && *its_day < day)
            leeway.first = std::max(leeway.first, parting(board, earlier, i));
    return leeway;
}

class Descent {
  public:
    explicit Descent(Board& board) : board_(board), position_(board.days()) {
        for (Index t = 0; t < board.days(); ++t) {
            const DayState& day = board.day(t);
            if (day.available == 0 || day.exam || day.closed)
                continue;
            position_[t] = static_cast<Index>(days_.size());
            const Index at = *position_[t];
            days_.push_back({t, day.available, day.load, day.per_square, at, at});
        }
        gather();
    }

    void run() {
        for (Index i = 0; i < days_.size(); ++i)
            wait(i);
        even_waiting_days();
        bool has_changed = true;
        while (has_changed) {
            has_changed = false;
            for (Index middle = 0; middle < days_.size(); ++middle)
                while (take(best_chain_through(middle))) {
                    even_waiting_days();
                    has_changed = true;
                }
        }
        for (const Loose& loose : loose_)
            for (const Index i : loose.items)
                if (*board_.day_of(i) != days_[loose.day].t) {
                    board_.take(i);
                    board_.put(i, days_[loose.day].t);
                }
    }

  private:
    /// One goes to another day; one from there, if any, comes back or goes on to a third.
    struct Step {
        Gain gain;
        std::optional<Index> first{};
        std::optional<Index> second{};
        Index middle = 0;
        Index to = 0;
    };

    void gather() {
        for (Index i = 0; i < board_.size(); ++i) {
            const Item& item = board_.item(i);
            const MaybeDay day = board_.day_of(i);
            if (!may_move(board_, i) || !position_[*day])
                continue;
            Loose loose{{i}, 0, 0, item.work, *position_[*day]};
            Leeway leeway = in_order(board_, i, *window_of(item));
            if (item.half && board_.day_of(*item.half) == day) {
                if (*item.half < i || !may_move(board_, *item.half))
                    continue; // gathered with the other, or held by it
                const Leeway other = in_order(board_, *item.half, *window_of(board_.item(*item.half)));
                leeway = {std::max(leeway.first, other.first), std::min(leeway.last, other.last)};
                loose.items.push_back(*item.half);
                loose.work *= 2;
            }
            if (add_leeway(loose, leeway))
                add(std::move(loose));
        }
        for (EvenDay& day : days_)
            std::stable_sort(day.loose.begin(), day.loose.end(),
                             [this](Index a, Index b) { return loose_[a].work < loose_[b].work; });
    }

    /// False where there is no other day.
    bool add_leeway(Loose& loose, Leeway leeway) const {
        while (!position_[leeway.first])
            ++leeway.first;
        while (!position_[leeway.last])
            --leeway.last;
        loose.first = *position_[leeway.first];
        loose.last = *position_[leeway.last];
        return loose.first < loose.last;
    }

    void add(Loose loose) {
        const auto number = static_cast<Index>(loose_.size());
        for (Index i = loose.first; i <= loose.last; ++i) {
            days_[i].earliest = std::min(days_[i].earliest, loose.first);
            days_[i].latest = std::max(days_[i].latest, loose.last);
        }
        days_[loose.day].loose.push_back(number);
        loose_.push_back(std::move(loose));
    }

    bool may_go(Index i, Index day) const { return loose_[i].first <= day && day <= loose_[i].last; }

    Amount grown(Index i, Amount by) const {
        const EvenDay& day = days_[i];
        return by * (2 * day.load + by) * day.per_square;
    }

    bool has_room(Index i, Amount for_more) const { return days_[i].load + for_more <= days_[i].available; }

    Amount offset(Index i) const { return days_[i].t; }
    bool is_spent() const { return steps_ >= max_steps; }

    void even_waiting_days() {
        while (!waiting_.empty() && !is_spent()) {
            const Index one = waiting_.front();
            waiting_.pop_front();
            days_[one].is_waiting = false;
            for (Index other = days_[one].earliest; other <= days_[one].latest; ++other)
                if (other != one && !days_[other].is_waiting && even_out_two(one, other))
                    break;
        }
    }

    bool even_out_two(Index one, Index other) {
        const EvenDay& a = days_[one];
        const EvenDay& b = days_[other];
        const Amount lead = a.load * b.available - b.load * a.available;
        const Amount ideal = std::abs(lead) / (a.available + b.available);
        return take(lead > 0 ? best_exchange(one, other, ideal) : best_exchange(other, one, ideal));
    }

    /// One of those that shift the most work up to the ideal or the least beyond it: the cost is convex.
    Step best_exchange(Index from, Index to, Amount ideal) {
        Step best;
        const std::vector<Index>& gives = days_[from].loose;
        const std::vector<Index>& returns = days_[to].loose;
        const auto consider = [&](Index given, std::optional<Index> returned) {
            const Amount work = loose_[given].work - (returned ? loose_[*returned].work : 0);
            if (!has_room(to, work) || !has_room(from, -work))
                return;
            const Gain gain{grown(from, -work) + grown(to, work),
                            (offset(to) - offset(from)) * (returned ? 0 : 1)};
            if (gain < best.gain)
                best = {gain, given, returned, to, from};
        };
        std::optional<Index> returned;
        std::size_t longer = next_for(from, returns, 0);
        for (std::size_t given = next_for(to, gives, 0); given < gives.size();
             given = next_for(to, gives, given + 1)) {
            while (longer < returns.size() &&
                   loose_[gives[given]].work - loose_[returns[longer]].work > ideal) {
                returned = returns[longer];
                longer = next_for(from, returns, longer + 1);
            }
            consider(gives[given], returned);
            if (longer < returns.size())
                consider(gives[given], returns[longer]);
        }
        return best;
    }

    /// The position, from `i` on, of the next that may go there.
    std::size_t next_for(Index there, const std::vector<Index>& loose, std::size_t i) {
        ++steps_;
        while (i < loose.size() && !may_go(loose[i], there)) {
            ++i;
            ++steps_;
        }
        return i;
    }

    /// Where one can go at the least cost.
    struct WayOn {
        Index loose;
        std::optional<Index> to{};
        Gain gain{};
    };

    WayOn cheapest_way(Index i, Index but) const {
        WayOn best{i};
        const Amount work = loose_[i].work;
        for (Index to = loose_[i].first; to <= loose_[i].last; ++to) {
            if (to == but || !has_room(to, work))
                continue;
            const Gain gain{grown(to, work), offset(to)};
            if (!best.to || gain < best.gain) {
                best.to = to;
                best.gain = gain;
            }
        }
        return best;
    }

    Step best_chain_through(Index middle) {
        Step best;
        ways_on_.clear();
        for (const Index i : days_[middle].loose)
            ways_on_.push_back(cheapest_way(i, middle));
        if (ways_on_.empty())
            return best;
        for (Index from = days_[middle].earliest; from <= days_[middle].latest && !is_spent(); ++from) {
            if (from == middle)
                continue;
            Amount tried = 0;
            const std::vector<Index>& loose = days_[from].loose;
            for (std::size_t i = next_for(middle, loose, 0); i < loose.size();
                 i = next_for(middle, loose, i + 1)) {
                if (loose_[loose[i]].work != tried)
                    extend(best, loose[i], middle);
                tried = loose_[loose[i]].work;
            }
        }
        return best;
    }

    void extend(Step& best, Index first, Index middle) {
        const Index from = loose_[first].day;
        const Amount work = loose_[first].work;
        const Gain start{grown(from, -work), -offset(from)};
        for (const WayOn& way : ways_on_) {
            if (!way.to || *way.to == from || !has_room(middle, work - loose_[way.loose].work))
                continue;
            const Gain gain = start + Gain{grown(middle, work - loose_[way.loose].work), 0} + way.gain;
            if (gain < best.gain)
                best = {gain, first, way.loose, middle, *way.to};
        }
        steps_ += static_cast<Amount>(ways_on_.size());
    }

    /// False where there is no step.
    bool take(const Step& step) {
        if (!step.first || is_spent())
            return false;
        wait(loose_[*step.first].day);
        wait(step.middle);
        wait(step.to);
        move(*step.first, step.middle);
        if (step.second)
            move(*step.second, step.to);
        return true;
    }

    void move(Index i, Index to) {
        Loose& loose = loose_[i];
        std::vector<Index>& from = days_[loose.day].loose;
        from.erase(std::find(from.begin(), from.end(), i));
        days_[loose.day].load -= loose.work;
        std::vector<Index>& there = days_[to].loose;
        there.insert(std::find_if(there.begin(), there.end(),
                                  [&](Index other) { return loose_[other].work >= loose.work; }),
                     i);
        days_[to].load += loose.work;
        loose.day = to;
    }

    void wait(Index i) {
        if (!std::exchange(days_[i].is_waiting, true))
            waiting_.push_back(i);
    }

    Board& board_;
    std::vector<MaybeDay> position_; ///< of each day among those that take part
    std::vector<EvenDay> days_;
    std::vector<Loose> loose_;
    std::deque<Index> waiting_;
    std::vector<WayOn> ways_on_;
    Amount steps_ = 0;
};

} // namespace

void even_out(Board& board) {
    Descent(board).run();
}

} // namespace inkturn::board
