#include "core/plan/papers.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

namespace inkturn::board {
namespace {

/// Fare, the seconds expected above what a day has, unevenness; compared in the order that is heeded.
struct Toll {
    Fare fare;
    Amount before = 0; ///< compared before what is outside
    Amount after = 0;  ///< compared after it
    Amount off_near = 0;
    Amount uneven = 0;
};

auto toll_order(const Toll& toll) {
    return std::tie(toll.fare.without, toll.fare.on_exam, toll.before, toll.fare.outside, toll.fare.away,
                    toll.after, toll.off_near, toll.uneven);
}

bool operator<(const Toll& a, const Toll& b) {
    return toll_order(a) < toll_order(b);
}

Toll operator+(const Toll& a, const Toll& b) {
    return {a.fare + b.fare, a.before + b.before, a.after + b.after, a.off_near + b.off_near,
            a.uneven + b.uneven};
}

Toll operator-(const Toll& a, const Toll& b) {
    return {a.fare - b.fare, a.before - b.before, a.after - b.after, a.off_near - b.off_near,
            a.uneven - b.uneven};
}

/// Rows and columns of a least-cost assignment: each row takes a column of its own, or none at a cost.
class Assignment {
  public:
    Assignment(std::size_t rows, std::size_t columns)
        : rows_(rows), columns_(columns + rows), costs_(rows * columns_), owner_(columns_) {}

    void allow(std::size_t row, std::size_t column, const Toll& toll) { cost(row, column) = toll; }
    void allow_none(std::size_t row, const Toll& toll) { cost(row, columns_ - rows_ + row) = toll; }

    /// The column of each row; nothing: none.
    std::vector<MaybeDay> best() {
        for (std::size_t row = 0; row < rows_; ++row)
            add(row);
        std::vector<MaybeDay> columns(rows_);
        for (std::size_t column = 0; column < columns_ - rows_; ++column)
            if (owner_[column])
                columns[*owner_[column]] = static_cast<Index>(column);
        return columns;
    }

  private:
    std::optional<Toll>& cost(std::size_t row, std::size_t column) { return costs_[row * columns_ + column]; }

    /// Shortest augmenting path with potentials (Kuhn 1955, Munkres 1957).
    void add(std::size_t row) {
        row_price_.resize(rows_);
        column_price_.resize(columns_);
        std::vector<std::optional<Toll>> least(columns_);
        std::vector<std::optional<std::size_t>> from(columns_); ///< nothing: the row itself
        std::vector<bool> done(columns_, false);
        std::optional<std::size_t> at; ///< nothing: the row itself
        for (;;) {
            const std::size_t owner = at ? *owner_[*at] : row;
            std::optional<std::size_t> nearest;
            for (std::size_t column = 0; column < columns_; ++column) {
                if (done[column])
                    continue;
                if (const auto& toll = cost(owner, column)) {
                    const Toll reduced = *toll - row_price_[owner] - column_price_[column];
                    if (!least[column] || reduced < *least[column]) {
                        least[column] = reduced;
                        from[column] = at;
                    }
                }
                if (least[column] && (!nearest || *least[column] < *least[*nearest]))
                    nearest = column;
            }
            const Toll step = *least[*nearest];
            row_price_[row] = row_price_[row] + step;
            for (std::size_t column = 0; column < columns_; ++column) {
                if (done[column]) {
                    row_price_[*owner_[column]] = row_price_[*owner_[column]] + step;
                    column_price_[column] = column_price_[column] - step;
                } else if (least[column]) {
                    least[column] = *least[column] - step;
                }
            }
            done[*nearest] = true;
            at = nearest;
            if (!owner_[*at])
                break;
        }
        while (from[*at]) {
            owner_[*at] = owner_[*from[*at]];
            at = from[*at];
        }
        owner_[*at] = row;
    }

    std::size_t rows_;
    std::size_t columns_; ///< with one of its own for each row that takes none
    std::vector<std::optional<Toll>> costs_;
    std::vector<std::optional<std::size_t>> owner_;
    std::vector<Toll> row_price_;
    std::vector<Toll> column_price_;
};

std::vector<MaybeDay> assigned(const Board& board, const std::vector<Index>& papers,
                               const std::vector<double>& expected, Heed heed) {
    Assignment assignment(papers.size(), board.days());
    for (std::size_t row = 0; row < papers.size(); ++row) {
        const Index paper = papers[row];
        const Amount work = board.item(paper).work;
        assignment.allow_none(row, {board.fare(paper, std::nullopt)});
        for (Index t = 0; t < board.days(); ++t) {
            if (!board.fits(paper, t))
                continue;
            const auto others = static_cast<Amount>(expected[t]);
            const Amount over = std::max<Amount>(others + work - board.room(t), 0);
            const Amount load = board.day(t).load + others;
            const Amount uneven = work * (2 * load + work) * board.day(t).per_square;
            assignment.allow(row, t,
                             {board.fare(paper, t), heed == Heed::others ? over : 0,
                              heed == Heed::window ? over : 0, board.off_near(paper, t), uneven});
        }
    }
    return assignment.best();
}

} // namespace

void assign_papers(Board& board, const std::vector<Index>& papers, const std::vector<double>& expected,
                   Heed heed) {
    const std::vector<MaybeDay> days = assigned(board, papers, expected, heed);
    for (std::size_t row = 0; row < papers.size(); ++row)
        if (days[row])
            board.put(papers[row], *days[row]);
}

bool even_out_papers(Board& board, const std::vector<WorkPiece>& pieces, Day today) {
    const Day last = today + Days{board.days()} - Days{1};
    const auto keeps_expected = [&](Index paper, Index t) {
        const std::vector<DaySpan> spans = spans_of_expected(pieces[paper].expected, today + Days{t}, last);
        for (Index i = board.pieces(); i < board.size(); ++i) {
            const MaybeDay day = board.day_of(i);
            if (board.item(i).brought_by == paper &&
                (!day || spans.empty() || today + Days{*day} < spans.front().first ||
                 today + Days{*day} > spans.front().last))
                return false;
        }
        return true;
    };
    bool any = false;
    for (Index i = 0; i < board.pieces(); ++i) {
        if (!board.item(i).paper || board.item(i).stands || !board.day_of(i))
            continue;
        for (Index t = 0; t < board.days(); ++t) {
            const Index home = *board.day_of(i);
            if (!board.fits(i, t) || !(board.fare(i, t) == board.fare(i, home)) ||
                board.broken(i, t) > board.broken(i, home) || !keeps_expected(i, t))
                continue;
            const auto place = [&](Index on) { return std::pair(board.off_near(i, on), board.uneven()); };
            const auto before = place(home);
            board.take(i);
            board.put(i, t);
            if (place(t) < before) {
                board.renew_expected(i, pieces[i].expected, today);
                any = true;
            } else {
                board.take(i);
                board.put(i, home);
            }
        }
    }
    return any;
}

Amount papers_without_day(const Board& board, const std::vector<Index>& papers) {
    const std::vector<MaybeDay> days =
        assigned(board, papers, std::vector<double>(board.days(), 0.0), Heed::window);
    Amount sum = 0;
    for (std::size_t row = 0; row < papers.size(); ++row)
        sum += days[row] ? 0 : board.item(papers[row]).work;
    return sum;
}

} // namespace inkturn::board
