#include "core/plan/fitter.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn::board {
namespace {

constexpr int deepest = 2; ///< a piece makes room for one that makes room for one

using Position = std::vector<Index>::iterator;

void sort_longest_first(const Board& board, Position begin, Position end) {
    if (end - begin < 2) // mostly, and a sort that keeps the order would take memory
        return;
    std::stable_sort(begin, end, [&](Index a, Index b) { return board.item(a).work > board.item(b).work; });
}

/// Days of the window on which the item has no fare, and beyond it for retries to come.
template <typename Visit>
void visit_window(const Board& board, Index i, Visit visit) {
    for (const Span& span : board.item(i).spans)
        if (span.rank == 0)
            for (Index t = span.first; t <= span.last; ++t)
                if (!board.day(t).exam)
                    visit(t);
}

} // namespace

void Fitter::move(Index i, MaybeDay to) {
    const MaybeDay before = board_.day_of(i);
    changes_.push_back({i, before, before ? board_.take(i) : 0});
    if (to)
        board_.put(i, *to);
}

void Fitter::undo_to(std::size_t length) {
    while (changes_.size() > length) {
        const Change change = changes_.back();
        changes_.pop_back();
        if (board_.day_of(change.item))
            board_.take(change.item);
        if (change.before)
            board_.put_back(change.item, *change.before, change.position);
    }
}

/// The day of the window with room where evenness grows least.
MaybeDay Fitter::evenest(Index i) const {
    MaybeDay best;
    const Item& item = board_.item(i);
    const bool leads_half = item.half && !board_.day_of(*item.half);
    const bool is_free_to_go = item.after.empty() && item.before.empty() && !item.half && !item.near;
    std::tuple<int, Amount, Amount> least;
    visit_window(board_, i, [&](Index t) {
        --steps_;
        if (!board_.fits(i, t))
            return;
        std::tuple here{0, Amount{0}, board_.grown(t, item.work)};
        if (!is_free_to_go) {
            const int parted = leads_half && board_.room(t) < 2 * item.work ? 1 : 0;
            here = {board_.broken(i, t) + parted, board_.off_near(i, t), std::get<2>(here)};
        }
        if (!best || here < least) {
            best = t;
            least = here;
        }
    });
    return best;
}

/// The day with room at the least fare. Off the exams' days a later span costs more than an earlier one, and
/// after the window each day more than the one before.
MaybeDay Fitter::cheapest(Index i) const {
    MaybeDay best;
    Fare least;
    for (const Span& span : board_.item(i).spans) {
        for (Index t = span.first; t <= span.last; ++t) {
            --steps_;
            if (!board_.fits(i, t))
                continue;
            const Fare here = board_.fare(i, t);
            if (!best || here < least) {
                best = t;
                least = here;
            }
            if (here.on_exam == 0 && (here.is_free() || t > board_.item(i).closes))
                break;
        }
        if (best && least.on_exam == 0)
            break;
    }
    return best;
}

/// The shortest item that may go and leaves room enough, else the longest.
std::optional<Index> Fitter::one_to_evict(Index i, Index t) const {
    const DayState& day = board_.day(t);
    const bool needs_paper = board_.item(i).paper && day.papers > 1;
    const Amount excess = day.load - day.available;
    std::optional<Index> best;
    for (const Index j : day.items) {
        const Item& other = board_.item(j);
        if (j == i || other.stands || (needs_paper && !other.paper))
            continue;
        if (!best) {
            best = j;
            continue;
        }
        const Amount held = board_.item(*best).work;
        const bool held_does = held >= excess;
        const bool does = other.work >= excess;
        if (does != held_does ? does : does ? other.work < held : other.work > held)
            best = j;
    }
    return best;
}

/// Puts the item on the day, and what is too much elsewhere; false where the day can't hold it.
bool Fitter::make_room(Index i, Index t, int depth) {
    const std::size_t first = evicted_.size();
    move(i, t);
    const bool has_room = evict(i, t);
    if (has_room)
        find_places(first, depth);
    evicted_.resize(first);
    return has_room && board_.day_of(i) == MaybeDay(t);
}

/// Takes from the day what is too much beside the item; false where that can't be.
bool Fitter::evict(Index i, Index t) {
    const DayState& day = board_.day(t);
    while (day.load > day.available || day.papers > 1 || (day.closed && day.load > day.late)) {
        const std::optional<Index> other = one_to_evict(i, t);
        if (!other || is_spent())
            return false;
        move(*other, std::nullopt);
        evicted_.push_back(*other);
    }
    return true;
}

/// For what was evicted, from a position on.
void Fitter::find_places(std::size_t first, int depth) {
    const auto begin = evicted_.begin() + static_cast<std::ptrdiff_t>(first);
    sort_longest_first(board_, begin, evicted_.end());
    const auto homeless = std::remove_if(begin, evicted_.end(), [&](Index j) {
        const MaybeDay to = evenest(j);
        if (to)
            move(j, to);
        return to.has_value();
    });
    evicted_.erase(homeless, evicted_.end());
    for (std::size_t x = first; x < evicted_.size(); ++x) { // deeper ones come and go behind them
        const Index j = evicted_[x];
        if (!find_place(j, depth))
            if (const MaybeDay to = cheapest(j))
                move(j, to);
    }
}

template <typename IsBetter>
bool Fitter::try_on(Index i, Index t, int depth, IsBetter is_better) {
    if (is_spent() || !board_.may(i, t) || (board_.day(t).closed && !board_.item(i).late))
        return false;
    const std::size_t start = changes_.size();
    if (make_room(i, t, depth) && is_better())
        return true;
    undo_to(start);
    return false;
}

/// A day of its window for an item without one, with less fare in all.
bool Fitter::find_place(Index i, int depth) {
    if (depth == 0)
        return false;
    const Fare before = board_.fare();
    bool found = false;
    visit_window(board_, i, [&](Index t) {
        found = found || try_on(i, t, depth - 1, [&] { return board_.fare() < before; });
    });
    return found;
}

bool Fitter::force(Index i, Index t) {
    const Fare others = board_.fare() - board_.fare(i, board_.day_of(i));
    const bool done = try_on(i, t, deepest, [&] { return !(others < board_.fare() - board_.fare(i, t)); });
    changes_.clear();
    return done;
}

bool Fitter::force_alone(Index i, Index t) {
    const bool was_closed = board_.day(t).closed;
    board_.set_closed(t, true);
    const bool done = force(i, t);
    if (!done)
        board_.set_closed(t, was_closed);
    return done;
}

void Fitter::place(std::vector<Index> items) {
    sort_longest_first(board_, items.begin(), items.end());
    for (const Index i : items)
        if (!board_.day_of(i))
            if (const MaybeDay to = evenest(i))
                move(i, to);
    for (const Index i : items)
        if (!board_.day_of(i) && !find_place(i, deepest + 1))
            if (const MaybeDay to = cheapest(i))
                move(i, to);
    bool has_changed = true;
    while (has_changed && !is_spent()) {
        has_changed = false;
        for (const Index i : items) {
            if (board_.fare(i, board_.day_of(i)).is_free())
                continue;
            const Fare before = board_.fare();
            const MaybeDay home = board_.day_of(i);
            const auto is_better = [&] { return board_.fare() < before; };
            bool found = false;
            for (const Span& span : board_.item(i).spans)
                for (Index t = span.first; t <= span.last && !found; ++t)
                    found = MaybeDay(t) != home && board_.fare(i, t) < board_.fare(i, home) &&
                            try_on(i, t, deepest, is_better);
            has_changed = has_changed || found;
        }
    }
    changes_.clear();
}

bool Fitter::exchange(Index a, Index b) {
    const MaybeDay day_of_a = board_.day_of(a);
    const MaybeDay day_of_b = board_.day_of(b);
    move(a, std::nullopt);
    move(b, std::nullopt);
    if (!board_.fits(a, *day_of_b))
        return false;
    move(a, day_of_b);
    if (!board_.fits(b, *day_of_a))
        return false;
    move(b, day_of_a);
    return true;
}

/// Puts the item, with the half that is beside it, on the day.
bool Fitter::move_whole(Index i, Index t) {
    const std::optional<Index> half = board_.item(i).half;
    const bool has_half = half && board_.day_of(*half) == board_.day_of(i) && !board_.item(*half).stands;
    return make_room(i, t, 1) && (!has_half || (make_room(*half, t, 1) && board_.day_of(i) == MaybeDay(t)));
}

void Fitter::put_in_order() {
    int broken = board_.broken_in_all();
    bool has_changed = broken > 0;
    while (has_changed && !is_spent()) {
        has_changed = false;
        for (Index i = 0; i < board_.size(); ++i) {
            const MaybeDay home = board_.day_of(i);
            if (!home || board_.item(i).stands || board_.broken(i, *home) == 0)
                continue;
            const Fare before = board_.fare();
            const auto attempt = [&](auto change) {
                const std::size_t start = changes_.size();
                if (change() && !(before < board_.fare()) && board_.broken_in_all() < broken)
                    return true;
                undo_to(start);
                return false;
            };
            bool found = false;
            for (const Index later : board_.item(i).before)
                found = found || (board_.day_of(later) && *board_.day_of(later) < *home &&
                                  !board_.item(later).stands && attempt([&] { return exchange(i, later); }));
            for (const Span& span : board_.item(i).spans)
                for (Index t = span.first; t <= span.last && !found; ++t)
                    found = t != *home && board_.may(i, t) && !board_.day(t).closed &&
                            !(board_.fare(i, home) < board_.fare(i, t)) && !is_spent() &&
                            attempt([&] { return move_whole(i, t); });
            if (found)
                broken = board_.broken_in_all();
            has_changed = has_changed || found;
        }
    }
    changes_.clear();
}

void Fitter::reserve(std::vector<Index> items) {
    sort_longest_first(board_, items.begin(), items.end());
    for (const Index i : items) {
        if (const MaybeDay to = evenest(i)) {
            move(i, to);
            continue;
        }
        const Fare before = board_.fare();
        const int broken = board_.broken_in_all();
        const auto placed = [&] {
            int count = 0;
            for (const Index j : items)
                count += board_.day_of(j) ? 1 : 0;
            return count;
        };
        const int had_day = placed();
        bool found = false;
        visit_window(board_, i, [&](Index t) {
            found =
                found || try_on(i, t, 1, [&] {
                    return board_.fare() == before && board_.broken_in_all() <= broken && placed() > had_day;
                });
        });
        if (!found)
            if (const MaybeDay to = cheapest(i))
                move(i, to);
    }
    changes_.clear();
}

} // namespace inkturn::board
