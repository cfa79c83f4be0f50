#include "inkturn/plan/spread.hpp"

#include <algorithm>
#include <cassert>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <deque>
#include <limits>
#include <numeric>
#include <tuple>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

using Index = std::uint32_t;
using Amount = std::int64_t; ///< of time, in the unit of its stretch, or of unevenness
using RealSeconds = std::chrono::duration<double>;

constexpr Index none = std::numeric_limits<Index>::max();
constexpr Amount longest_time = Amount{1} << 26; ///< of a day, in units
constexpr double max_unevenness = 0x1p61;        ///< of a stretch: its sums stay within Amount
constexpr std::size_t max_exact_pieces = 7;
constexpr long max_descent_steps = 30'000'000; ///< about a tenth of a second

/// A change of Weight in whole numbers, so that a tie is a tie.
struct Cost {
    Amount over = 0;
    Amount uneven = 0;
    Amount days = 0;
};

Cost operator+(const Cost& one, const Cost& other) {
    return {one.over + other.over, one.uneven + other.uneven, one.days + other.days};
}

bool operator<(const Cost& one, const Cost& other) {
    return std::tie(one.over, one.uneven, one.days) < std::tie(other.over, other.uneven, other.days);
}

/// A day with availability.
struct OpenDay {
    Amount offset; ///< days from the capacity's first
    Amount available;
    Amount planned = 0;
    Amount most = 0;       ///< asked if every piece that may come does
    Amount per_square = 0; ///< unevenness of asked²
    Index earliest = none; ///< first day that shares a window with this one
    Index latest = 0;      ///< last day that shares a window with this one
    Index shortest = none; ///< piece; the others here follow it by ascending work
    bool is_waiting = false;
};

/// A load with a day to choose.
struct Piece {
    Index first;
    Index last; ///< included
    Amount work;
    std::size_t load;
    Index day = none;
    Index next = none; ///< piece on the same day
};

/// Neighbouring open days linked by the windows of the pieces on them; nothing else competes for them.
struct Stretch {
    std::vector<OpenDay> days;
    std::vector<Piece> pieces; ///< by first, last, work, load
};

bool may_go(const Piece& piece, Index day) {
    return piece.first <= day && day <= piece.last;
}

Cost grown(const OpenDay& day, Amount by) {
    const Amount free = day.available - day.planned;
    const Amount uneven = by * (2 * day.planned + by) * day.per_square;
    return {std::max<Amount>(by - free, 0) - std::max<Amount>(-free, 0), uneven, 0};
}

void count_what_may_come(Stretch& stretch) {
    for (OpenDay& day : stretch.days)
        day.most = day.planned;
    for (const Piece& piece : stretch.pieces)
        for (Index i = piece.first; i <= piece.last; ++i) {
            OpenDay& day = stretch.days[i];
            day.most += piece.work;
            day.earliest = std::min(day.earliest, piece.first);
            day.latest = std::max(day.latest, piece.last);
        }
}

/// Seconds, unless years of work may come to a day: then times are rounded up to a coarser unit.
void choose_unit(Stretch& stretch) {
    Amount longest = 0;
    for (const OpenDay& day : stretch.days)
        longest = std::max({longest, day.available, day.most});
    const Amount unit = longest / longest_time + 1;
    const auto in_units = [unit](Amount time) { return (time + unit - 1) / unit; };
    for (OpenDay& day : stretch.days) {
        day.available = in_units(day.available);
        day.planned = in_units(day.planned);
        day.most = in_units(day.most);
    }
    for (Piece& piece : stretch.pieces)
        piece.work = in_units(piece.work);
}

/// A common multiple of what the days have, or `most` if there is none up to it.
Amount common_multiple(const std::vector<OpenDay>& days, Amount most) {
    Amount multiple = 1;
    for (const OpenDay& day : days) {
        const Amount missing = day.available / std::gcd(day.available, multiple);
        if (missing > most / multiple)
            return most;
        multiple *= missing;
    }
    return multiple;
}

/// Weights 1 ÷ available in whole numbers: exactly where a common multiple leaves room for the sums, else as
/// finely as they do.
void weigh_days(std::vector<OpenDay>& days) {
    double peak = 1;
    for (const OpenDay& day : days)
        peak += static_cast<double>(day.most) * static_cast<double>(day.most) /
                static_cast<double>(day.available);
    const Amount whole = common_multiple(days, static_cast<Amount>(max_unevenness / peak));
    for (OpenDay& day : days)
        day.per_square = std::max<Amount>(1, (whole + day.available / 2) / day.available);
}

/// Pieces of a small stretch, a bit each.
using Set = Index;

template <typename Rule>
Set pieces_that(const std::vector<Piece>& pieces, Rule rule) {
    Set set = 0;
    for (Index i = 0; i < pieces.size(); ++i)
        set |= rule(pieces[i]) ? Set{1} << i : 0;
    return set;
}

Cost cost_of(const Stretch& stretch, Set set, Index day) {
    Amount work = 0;
    Amount day_sum = 0;
    for (Index i = 0; set >> i != 0; ++i)
        if ((set >> i & 1U) != 0) {
            work += stretch.pieces[i].work;
            day_sum += stretch.days[day].offset;
        }
    return grown(stretch.days[day], work) + Cost{0, 0, day_sum};
}

/// Finds, day by day, the least cost of having each set of pieces done.
void place_best(Stretch& stretch) {
    const std::size_t sets = std::size_t{1} << stretch.pieces.size();
    std::vector<Cost> least(sets, Cost{std::numeric_limits<Amount>::max() / 4, 0, 0});
    std::vector<Cost> cost_here(sets);
    std::vector<Set> done_here(stretch.days.size() * sets);
    least[0] = Cost{};
    for (Index day = 0; day < stretch.days.size(); ++day) {
        const Set open =
            pieces_that(stretch.pieces, [day](const Piece& piece) { return may_go(piece, day); });
        const Set past = pieces_that(stretch.pieces, [day](const Piece& piece) { return piece.last < day; });
        for (Set here = open; here != 0; here = (here - 1) & open)
            cost_here[here] = cost_of(stretch, here, day);
        for (Set done = open; done != 0; done = (done - 1) & open) {
            Cost best = least[past | done];
            for (Set here = done; here != 0; here = (here - 1) & done) {
                const Cost cost = least[past | (done ^ here)] + cost_here[here];
                if (cost < best) {
                    best = cost;
                    done_here[day * sets + (past | done)] = here;
                }
            }
            least[past | done] = best;
        }
    }

    Set done = static_cast<Set>(sets - 1);
    for (auto day = static_cast<Index>(stretch.days.size()); day-- > 0;) {
        const Set here = done_here[day * sets + done];
        for (Index i = 0; here >> i != 0; ++i)
            if ((here >> i & 1U) != 0)
                stretch.pieces[i].day = day;
        done ^= here;
    }
}

/// A piece goes to another day; one from there, if any, comes back or goes on to a third.
struct Step {
    Cost cost;
    Index first = none;
    Index middle = none;
    Index second = none;
    Index to = none;
};

/// Where a piece can go at the least cost.
struct WayOn {
    Index piece;
    Amount work;
    Index to = none;
    Cost cost = {};
};

class Descent {
  public:
    explicit Descent(Stretch& stretch) : stretch_(stretch) {}

    void place() {
        place_longest_first();
        even_waiting_days();
        bool has_changed = true;
        while (has_changed) {
            has_changed = false;
            for (Index middle = 0; middle < stretch_.days.size(); ++middle)
                while (take(best_chain_through(middle))) {
                    even_waiting_days();
                    has_changed = true;
                }
        }
    }

  private:
    void place_longest_first() {
        std::vector<Index> order(stretch_.pieces.size());
        std::iota(order.begin(), order.end(), Index{0});
        std::stable_sort(order.begin(), order.end(),
                         [this](Index one, Index other) { return piece(one).work > piece(other).work; });
        for (const Index i : order)
            put(i, cheapest_way(i, none).to);
        for (Index i = 0; i < stretch_.days.size(); ++i)
            wait(i);
    }

    WayOn cheapest_way(Index i, Index but) {
        WayOn best{i, piece(i).work};
        for (Index to = piece(i).first; to <= piece(i).last; ++to) {
            const Cost cost = grown(day(to), best.work) + Cost{0, 0, day(to).offset};
            if (to != but && (best.to == none || cost < best.cost)) {
                best.to = to;
                best.cost = cost;
            }
        }
        return best;
    }

    bool is_spent() const { return steps_ >= max_descent_steps; }

    void even_waiting_days() {
        while (!waiting_.empty() && !is_spent()) {
            const Index one = waiting_.front();
            waiting_.pop_front();
            day(one).is_waiting = false;
            for (Index other = day(one).earliest; other <= day(one).latest; ++other)
                if (other != one && !day(other).is_waiting && even_out(one, other))
                    break;
        }
    }

    bool even_out(Index one, Index other) {
        const Amount lead = day(one).planned * day(other).available - day(other).planned * day(one).available;
        const Amount ideal = std::abs(lead) / (day(one).available + day(other).available);
        return take(lead > 0 ? best_exchange(one, other, ideal) : best_exchange(other, one, ideal));
    }

    /// One of those that shift the most work up to the ideal or the least beyond it: the cost is convex.
    Step best_exchange(Index from, Index to, Amount ideal) {
        Step best;
        const auto consider = [&](Index given, Index returned) {
            const Amount work = piece(given).work - (returned == none ? 0 : piece(returned).work);
            Cost cost = grown(day(from), -work) + grown(day(to), work);
            cost.days = returned == none ? day(to).offset - day(from).offset : 0;
            if (cost < best.cost)
                best = {cost, given, to, returned, from};
        };
        Index returned = none;
        Index longer = next_for(from, day(to).shortest);
        for (Index given = next_for(to, day(from).shortest); given != none;
             given = next_for(to, piece(given).next)) {
            while (longer != none && piece(given).work - piece(longer).work > ideal) {
                returned = longer;
                longer = next_for(from, piece(longer).next);
            }
            consider(given, returned);
            if (longer != none)
                consider(given, longer);
        }
        return best;
    }

    /// The piece, or the next on its day, that may go there.
    Index next_for(Index there, Index i) {
        ++steps_;
        while (i != none && !may_go(piece(i), there)) {
            i = piece(i).next;
            ++steps_;
        }
        return i;
    }

    Step best_chain_through(Index middle) {
        Step best;
        ways_on_.clear();
        for (Index i = day(middle).shortest; i != none; i = piece(i).next)
            ways_on_.push_back(cheapest_way(i, middle));
        for (Index from = day(middle).earliest; from <= day(middle).latest && !is_spent(); ++from) {
            Amount tried = 0;
            for (Index i = next_for(middle, day(from).shortest); i != none;
                 i = next_for(middle, piece(i).next)) {
                if (from != middle && piece(i).work != tried)
                    extend(best, i, middle);
                tried = piece(i).work;
            }
        }
        return best;
    }

    void extend(Step& best, Index first, Index middle) {
        const Index from = piece(first).day;
        const Amount work = piece(first).work;
        const Cost start = grown(day(from), -work) + Cost{0, 0, -day(from).offset};
        for (const WayOn& way : ways_on_) {
            const Cost cost = start + grown(day(middle), work - way.work) + way.cost;
            if (way.to != from && cost < best.cost)
                best = {cost, first, middle, way.piece, way.to};
        }
        steps_ += static_cast<long>(ways_on_.size());
    }

    /// Nothing if the step is none.
    bool take(const Step& step) {
        if (step.first == none || is_spent())
            return false;
        wait(piece(step.first).day);
        wait(step.middle);
        wait(step.to);
        move(step.first, step.middle);
        if (step.second != none)
            move(step.second, step.to);
        return true;
    }

    void move(Index i, Index to) {
        OpenDay& from = day(piece(i).day);
        Index* link = &from.shortest;
        while (*link != i)
            link = &piece(*link).next;
        *link = piece(i).next;
        from.planned -= piece(i).work;
        put(i, to);
    }

    void put(Index i, Index to) {
        Index* link = &day(to).shortest;
        while (*link != none && piece(*link).work < piece(i).work)
            link = &piece(*link).next;
        piece(i).next = std::exchange(*link, i);
        piece(i).day = to;
        day(to).planned += piece(i).work;
    }

    void wait(Index i) {
        if (!std::exchange(day(i).is_waiting, true))
            waiting_.push_back(i);
    }

    OpenDay& day(Index i) { return stretch_.days[i]; }
    Piece& piece(Index i) { return stretch_.pieces[i]; }

    Stretch& stretch_;
    std::deque<Index> waiting_;
    std::vector<WayOn> ways_on_;
    long steps_ = 0;
};

/// First, last, work.
auto kind(const Piece& piece) {
    return std::tie(piece.first, piece.last, piece.work);
}

/// Of loads of a kind the first in the list comes first.
void order_the_alike(std::vector<Piece>& pieces) {
    std::vector<Piece> by_day = pieces;
    std::sort(by_day.begin(), by_day.end(), [](const Piece& one, const Piece& other) {
        return std::tuple(kind(one), one.day) < std::tuple(kind(other), other.day);
    });
    for (std::size_t i = 0; i < pieces.size(); ++i)
        pieces[i].day = by_day[i].day;
}

void place(Stretch& stretch, bool is_small) {
    count_what_may_come(stretch);
    choose_unit(stretch);
    weigh_days(stretch.days);
    if (is_small)
        place_best(stretch);
    else
        Descent(stretch).place();
    order_the_alike(stretch.pieces);
}

/// The pieces that compete with one at the front of the rest, and the days they compete for.
Stretch stretch_from(const std::vector<OpenDay>& days, const std::vector<Piece>& pieces, std::size_t from) {
    const Index first_day = pieces[from].first;
    Index last_day = pieces[from].last;
    Stretch stretch;
    for (std::size_t i = from; i < pieces.size() && pieces[i].first <= last_day; ++i) {
        last_day = std::max(last_day, pieces[i].last);
        stretch.pieces.push_back(pieces[i]);
        stretch.pieces.back().first -= first_day;
        stretch.pieces.back().last -= first_day;
    }
    stretch.days.assign(days.begin() + first_day, days.begin() + last_day + 1);
    return stretch;
}

std::size_t offset(const Capacity& capacity, Day day) {
    const auto distance = static_cast<std::size_t>((day - capacity.first).count());
    assert(distance < capacity.available.size());
    return distance;
}

std::vector<Seconds> planned_by_day(const Capacity& capacity, const std::vector<Load>& loads,
                                    const std::vector<Day>& days) {
    assert(days.size() == loads.size());
    std::vector<Seconds> planned(capacity.available.size(), Seconds{0});
    for (std::size_t i = 0; i < loads.size(); ++i)
        planned[offset(capacity, days[i])] += loads[i].work;
    return planned;
}

} // namespace

std::vector<Day> spread(const Capacity& capacity, const std::vector<Load>& loads) {
    std::vector<OpenDay> open;
    std::vector<Index> open_before{0};
    for (std::size_t i = 0; i < capacity.available.size(); ++i) {
        if (capacity.available[i] > Seconds{0})
            open.push_back({static_cast<Amount>(i), capacity.available[i].count()});
        open_before.push_back(static_cast<Index>(open.size()));
    }

    std::vector<Day> days(loads.size());
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < loads.size(); ++i) {
        const Load& load = loads[i];
        const Index first = open_before[offset(capacity, load.fixed_day.value_or(load.opens))];
        const Index end = open_before[offset(capacity, load.fixed_day.value_or(load.closes)) + 1];
        days[i] =
            first == end ? load.fixed_day.value_or(load.opens) : capacity.first + Days{open[first].offset};
        if (end - first == 1)
            open[first].planned += load.work.count();
        else if (first != end)
            pieces.push_back({first, end - 1, load.work.count(), i});
    }
    std::sort(pieces.begin(), pieces.end(), [](const Piece& one, const Piece& other) {
        return std::tuple(kind(one), one.load) < std::tuple(kind(other), other.load);
    });

    for (std::size_t placed = 0; placed < pieces.size();) {
        Stretch stretch = stretch_from(open, pieces, placed);
        place(stretch, pieces.size() <= max_exact_pieces);
        for (const Piece& piece : stretch.pieces)
            days[piece.load] = capacity.first + Days{stretch.days[piece.day].offset};
        placed += stretch.pieces.size();
    }
    return days;
}

PlacementCost placement_cost(const Capacity& capacity, const std::vector<Load>& loads,
                             const std::vector<Day>& days) {
    const std::vector<Seconds> planned = planned_by_day(capacity, loads, days);
    PlacementCost weight;
    for (std::size_t i = 0; i < planned.size(); ++i) {
        const Seconds available = capacity.available[i];
        weight.over += std::max(planned[i] - available, Seconds{0});
        if (available > Seconds{0})
            weight.evenness += RealSeconds(planned[i]).count() * (RealSeconds(planned[i]) / available);
    }
    for (const Day day : days)
        weight.day_sum += (day - capacity.first).count();
    return weight;
}

double fullest_share(const Capacity& capacity, const std::vector<Load>& loads, const std::vector<Day>& days) {
    const std::vector<Seconds> planned = planned_by_day(capacity, loads, days);
    double fullest = 0;
    for (std::size_t i = 0; i < planned.size(); ++i)
        if (capacity.available[i] > Seconds{0})
            fullest = std::max(fullest, RealSeconds(planned[i]) / capacity.available[i]);
    return fullest;
}

} // namespace inkturn
