#pragma once

#include "core/plan/fare.hpp"
#include "inkturn/plan/place.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <tuple>
#include <vector>

namespace inkturn::board {

using Index = std::uint32_t; ///< of a day from today, or of an item
using MaybeDay = std::optional<Index>;

/// Days that an item may take, cut to those there are.
struct Span {
    Index first;
    Index last;  ///< included
    Amount rank; ///< position among the piece's spans
};

/// A piece, or a retry that a paper will bring.
struct Item {
    Amount work = 0;
    std::vector<Span> spans{};
    Amount opens = 0; ///< of the window, from today; may lie before it
    Amount closes = 0;
    std::vector<Index> never_on{};
    std::optional<Span> near{}; ///< cut to the days there are
    bool paper = false;
    bool late = false;
    bool stands = false;               ///< keeps its day
    Fare fare{};                       ///< of its day, while it has one
    std::optional<Index> brought_by{}; ///< of a retry to come
    std::vector<Index> after{};        ///< items that come on a day before
    std::vector<Index> before{};       ///< items that come on a day after
    std::optional<Index> half{};       ///< the other one
};

/// The state of one day.
struct DayState {
    Amount available = 0;
    Amount load = 0;     ///< done and placed
    Amount late = 0;     ///< of it, late work
    Amount standing = 0; ///< of it, what was done and what stands, late work apart
    Index papers = 0;
    bool exam = false;
    bool closed = false;   ///< late work takes more than half of it: nothing else comes
    Amount per_square = 0; ///< unevenness of load²
    std::vector<Index> items{};
};

/// Items on days. Keeps what they cost up to date.
class Board {
  public:
    Board(const TimeAhead& time, const std::vector<WorkPiece>& pieces);

    Index days() const { return static_cast<Index>(days_.size()); }
    Index size() const { return static_cast<Index>(items_.size()); }
    const DayState& day(Index t) const { return days_[t]; }
    const Item& item(Index i) const { return items_[i]; }
    MaybeDay day_of(Index i) const { return on_[i]; }
    const Fare& fare() const { return fare_; }
    Amount uneven() const { return uneven_; }
    Amount room(Index t) const { return days_[t].available - days_[t].load; }

    /// Whether one of its spans holds the day, which has enough time in all; no room is reserved on an
    /// exam's.
    bool may(Index i, Index t) const {
        const Item& item = items_[i];
        return item.work <= days_[t].available && !(item.brought_by && days_[t].exam) && rank(item, t) &&
               (item.never_on.empty() ||
                std::find(item.never_on.begin(), item.never_on.end(), t) == item.never_on.end());
    }
    /// Whether it may, and there is room now.
    bool fits(Index i, Index t) const {
        const Item& item = items_[i];
        const DayState& day = days_[t];
        return item.work <= day.available - day.load && !(item.paper && day.papers > 0) &&
               !(day.closed && !item.late) && may(i, t);
    }
    /// Nothing for `t`: of having no day. 0 for a retry to come, and of having none where none is allowed.
    Fare fare(Index i, MaybeDay t) const;
    /// Days by which a day misses those near which the item falls best.
    Amount off_near(Index i, Index t) const;
    /// What the day's evenness grows by.
    Amount grown(Index t, Amount by) const;
    /// Orders broken by the item on a day, with all others where they are.
    int broken(Index i, Index t) const;
    int broken_in_all() const;

    void put(Index i, Index t);
    std::size_t take(Index i); ///< it has a day; the position that it had among the day's items
    /// Undoes a take, with all that came after it undone: the day's items stand in the order of before.
    void put_back(Index i, Index t, std::size_t position);
    void let_stand(Index i);
    void set_closed(Index t, bool closed) { days_[t].closed = closed; }

    /// Adds room for a retry to come, brought by one item or, where the board has none, one of a kind; it has
    /// no day yet.
    void add_room(Index brought_by, Seconds work, const std::vector<DaySpan>& spans, Day today);
    /// Adds the retries that a paper on a day will bring.
    void add_expected(Index paper, const ExpectedRetries& expected, Day today);
    /// Their windows after the paper has moved.
    void renew_expected(Index paper, const ExpectedRetries& expected, Day today);
    void drop_expected();                    ///< all of them
    Index pieces() const { return pieces_; } ///< the items before the retries to come

  private:
    void read(const TimeAhead& time);
    void read(const std::vector<WorkPiece>& pieces, Day today);
    void add_spans(Item& item, const std::vector<DaySpan>& spans, Day today) const;
    static std::optional<Amount> rank(const Item& item, Index t) {
        for (const Span& span : item.spans)
            if (span.first <= t && t <= span.last)
                return span.rank;
        return std::nullopt;
    }

    std::vector<DayState> days_;
    std::vector<Item> items_;
    std::vector<MaybeDay> on_;
    Index pieces_ = 0; ///< the items before the retries to come
    Fare fare_;
    Amount uneven_ = 0;
};

} // namespace inkturn::board
