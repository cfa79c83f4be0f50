#include "core/plan/standing.hpp"

#include <algorithm>
#include <numeric>

namespace inkturn::board {
namespace {

Day closing(const WorkPiece& piece) {
    if (piece.late)
        return piece.late->closed;
    return piece.spans.empty() ? Day::max() : piece.spans.front().last;
}

} // namespace

void keep_standing(Board& board, Day today, const std::vector<WorkPiece>& pieces) {
    std::vector<Index> by_closing(pieces.size());
    std::iota(by_closing.begin(), by_closing.end(), Index{0});
    std::stable_sort(by_closing.begin(), by_closing.end(),
                     [&](Index a, Index b) { return closing(pieces[a]) < closing(pieces[b]); });
    const auto offset = [&](std::optional<Day> day) -> MaybeDay {
        if (!day || *day < today || *day >= today + Days{board.days()})
            return std::nullopt;
        return static_cast<Index>((*day - today).count());
    };
    const auto stand = [&](Index i, Index t) {
        board.put(i, t);
        board.let_stand(i);
    };
    for (const Index i : by_closing)
        if (const MaybeDay t = offset(pieces[i].wish))
            if (board.room(*t) >= board.item(i).work && !(board.item(i).paper && board.day(*t).papers > 0))
                stand(i, *t);
    for (const Index i : by_closing)
        if (const MaybeDay t = offset(pieces[i].kept_day))
            if (!board.day_of(i) && board.fits(i, *t) && !board.day(*t).exam)
                stand(i, *t);
    for (Index t = 0; t < board.days(); ++t) {
        const DayState& day = board.day(t);
        board.set_closed(t, 2 * day.late > day.available && day.standing == 0);
    }
}

} // namespace inkturn::board
