#include "core/plan/late.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace inkturn::board {
namespace {

constexpr Index longest_wait = 7; ///< days

/// Which days are tried, in this order.
enum class Try : std::uint8_t { half, all_of_day, exam_day };

class LatePlacer {
  public:
    LatePlacer(Board& board, const PutLate& put) : board_(board), put_(put) {}

    /// After the late work that it comes after.
    void place(Index i) {
        if (!tried_.insert(i).second)
            return;
        for (const Index one : board_.item(i).after)
            if (board_.item(one).late && !board_.day_of(one))
                place(one);
        const auto earliest = put_from(i, 0);
        if (!earliest)
            return;
        const Index start = std::min(after_others(i), *earliest + longest_wait);
        if (start > *earliest) {
            take(i);
            if (!put_from(i, start))
                put_from(i, *earliest);
        }
        board_.let_stand(i);
    }

  private:
    Index after_others(Index i) const {
        Index day = 0;
        for (const Index one : board_.item(i).after)
            if (const MaybeDay its_day = board_.day_of(one))
                day = std::max(day, *its_day + 1);
        return day;
    }

    void take(Index i) {
        const Index t = *board_.day_of(i);
        board_.take(i);
        if (2 * board_.day(t).late <= board_.day(t).available)
            board_.set_closed(t, false);
    }

    MaybeDay put_from(Index i, Index start) {
        constexpr std::array<Try, 3> ways{Try::half, Try::all_of_day, Try::exam_day};
        for (const Try way : ways)
            for (const Span& span : board_.item(i).spans)
                for (Index t = std::max(span.first, start); t <= span.last; ++t)
                    if (board_.may(i, t) && try_on(i, t, way))
                        return t;
        return std::nullopt;
    }

    bool try_on(Index i, Index t, Try way) {
        const DayState& day = board_.day(t);
        const Amount late = day.late + board_.item(i).work;
        if (day.standing + late > day.available || day.exam != (way == Try::exam_day))
            return false;
        if (way != Try::half || 2 * late <= day.available)
            return put_(i, t, Beside::others);
        return day.standing == 0 && put_(i, t, Beside::no_other);
    }

    Board& board_;
    const PutLate& put_;
    std::set<Index> tried_;
};

} // namespace

void place_late(Board& board, const std::vector<Index>& in_order, const PutLate& put) {
    LatePlacer placer(board, put);
    for (const Index i : in_order)
        placer.place(i);
}

} // namespace inkturn::board
