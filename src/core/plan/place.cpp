#include "inkturn/plan/place.hpp"

#include "core/plan/board.hpp"
#include "core/plan/evenness.hpp"
#include "core/plan/exact.hpp"
#include "core/plan/fitter.hpp"
#include "core/plan/late.hpp"
#include "core/plan/mend.hpp"
#include "core/plan/papers.hpp"
#include "core/plan/proof.hpp"
#include "core/plan/spread_bound.hpp"
#include "core/plan/standing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace inkturn::board {
namespace {

constexpr std::size_t max_exact = 9;    ///< items with a choice of days
constexpr double max_exact_steps = 4e6; ///< of all searches together

class WorkPlacer {
  public:
    WorkPlacer(const TimeAhead& time, const std::vector<WorkPiece>& pieces)
        : time_(time), pieces_(pieces), board_(time, pieces), standing_(board_) {}

    WorkPlan placed() {
        keep_standing(board_, time_.today, pieces_);
        standing_ = board_;
        for (Index i = 0; i < board_.size(); ++i)
            if (!board_.day_of(i) && has_day_for(board_, i))
                (pieces_[i].late ? late_ : loose_).push_back(i);
        std::stable_sort(late_.begin(), late_.end(), [&](Index a, Index b) {
            const auto key = [&](Index i) {
                const Lateness& late = *pieces_[i].late;
                return std::tie(late.closed, late.attempt, late.number);
            };
            return key(a) < key(b);
        });
        if (is_small()) {
            place_best();
            exact_ = true;
        } else {
            place_by_descent();
        }
        return result();
    }

  private:
    // Few pieces.

    bool is_small() const {
        std::vector<Index> all = loose_;
        all.insert(all.end(), late_.begin(), late_.end());
        const bool any_waits =
            std::any_of(late_.begin(), late_.end(), [&](Index i) { return !board_.item(i).after.empty(); });
        if (all.size() > max_exact || any_waits)
            return false;
        const double searches = 1.0 + 10.0 * static_cast<double>(late_.size());
        if (steps_of_exact(board_, all) * searches > max_exact_steps)
            return false;
        double choices = 1;
        std::size_t expected = 0;
        for (const Index i : loose_) {
            if (pieces_[i].expected.retries.empty())
                continue;
            expected += pieces_[i].expected.retries.size();
            double days = 1;
            for (Index t = 0; t < board_.days(); ++t)
                days += board_.fits(i, t) ? 1 : 0;
            choices *= days;
        }
        for (Index i = 0; i < board_.size(); ++i)
            if (board_.day_of(i))
                expected += pieces_[i].expected.retries.size();
        if (expected == 0)
            return true;
        const auto pieces = static_cast<double>(loose_.size() + expected);
        return pieces <= max_exact && choices * 8 * std::pow(3.0, pieces) <= max_exact_steps;
    }

    void place_best() {
        if (!late_.empty())
            place_late_exactly();
        std::vector<Index> bringing;
        std::vector<Index> others;
        for (const Index i : loose_)
            (pieces_[i].expected.retries.empty() ? others : bringing).push_back(i);
        std::optional<Price> least;
        std::optional<Board> best;
        try_from(0, bringing, others, least, best);
        board_ = *best;
    }

    void place_late_exactly() {
        std::vector<Index> rest = loose_;
        rest.insert(rest.end(), late_.begin(), late_.end());
        const auto best_fare = [&] { return board_.fare() + fare_given_up(rest); };
        const Fare least = best_fare();
        place_late(board_, late_, [&](Index i, Index t, Beside beside) {
            const bool was_closed = board_.day(t).closed;
            rest.erase(std::remove(rest.begin(), rest.end(), i), rest.end());
            board_.put(i, t);
            if (beside == Beside::no_other)
                board_.set_closed(t, true);
            if (best_fare() == least)
                return true;
            board_.take(i);
            board_.set_closed(t, was_closed);
            rest.push_back(i);
            return false;
        });
    }

    /// What the best days of items change of the fare that they have without one.
    Fare fare_given_up(const std::vector<Index>& items) const {
        Fare change = place_at_least_fare(board_, items)->cost;
        for (const Index i : items)
            change = change - board_.fare(i, std::nullopt);
        return change;
    }

    /// Tries papers that bring retries on each of their days, the rest on its best days beside them.
    void try_from(std::size_t position, const std::vector<Index>& bringing, const std::vector<Index>& others,
                  std::optional<Price>& least, std::optional<Board>& best) {
        if (position < bringing.size()) {
            const Index paper = bringing[position];
            try_from(position + 1, bringing, others, least, best);
            for (Index t = 0; t < board_.days(); ++t) {
                if (!board_.fits(paper, t))
                    continue;
                board_.put(paper, t);
                try_from(position + 1, bringing, others, least, best);
                board_.take(paper);
            }
            return;
        }
        add_expected();
        std::vector<Index> items = others;
        for (Index i = board_.pieces(); i < board_.size(); ++i)
            items.push_back(i);
        const std::vector<MaybeDay> found = place_exactly(board_, items)->days;
        Board tried = board_;
        for (std::size_t i = 0; i < items.size(); ++i)
            if (found[i])
                tried.put(items[i], *found[i]);
        const Price price = price_of(tried);
        if (!least || price < *least) {
            least = price;
            best = std::move(tried);
        }
        board_.drop_expected();
    }

    static Price price_of(const Board& board) {
        Price price;
        price.fare = board.fare();
        price.broken = board.broken_in_all();
        price.uneven = board.uneven();
        for (Index i = 0; i < board.size(); ++i) {
            const MaybeDay day = board.day_of(i);
            const Item& item = board.item(i);
            price.days += day.value_or(0);
            price.off_near += day ? board.off_near(i, *day) : 0;
            price.turns +=
                static_cast<Amount>(day.value_or(board.days())) * static_cast<Amount>(board.size() - i);
            if (item.brought_by && !item.spans.empty() && !day)
                price.unreserved += item.work;
            if (item.brought_by && day && static_cast<Amount>(*day) > item.closes)
                price.reserved_outside += item.work;
        }
        return price;
    }

    void add_expected() {
        for (Index i = 0; i < board_.pieces(); ++i)
            if (board_.day_of(i) && !pieces_[i].expected.retries.empty())
                board_.add_expected(i, pieces_[i].expected, time_.today);
    }

    // Many pieces.

    void place_by_descent() {
        std::vector<Index> papers;
        std::vector<Index> others;
        for (const Index i : loose_)
            (board_.item(i).paper ? papers : others).push_back(i);
        const std::vector<double> expected =
            papers.empty() ? std::vector<double>(board_.days(), 0.0) : expected_of(others);
        std::optional<Board> best;
        const auto keep_better = [&](Board tried) {
            Fitter(tried).place(loose_);
            mend(tried, loose_);
            if (!best || tried.fare() < best->fare())
                best = std::move(tried);
        };
        const auto is_settled = [&] { return fare_of_loose(*best).is_free(); };
        Board first = board_;
        assign_papers(first, papers, expected, Heed::window);
        keep_better(std::move(first));
        if (!is_settled() && !papers.empty()) {
            Board second = board_;
            assign_papers(second, papers, expected, Heed::others);
            keep_better(std::move(second));
        }
        if (!is_settled() && !papers.empty()) {
            Board third = board_;
            Fitter(third).place(others);
            assign_papers(third, papers, std::vector<double>(board_.days(), 0.0), Heed::window);
            keep_better(std::move(third));
        }
        board_ = std::move(*best);
        Fitter fitter(board_);
        place_late(board_, late_, [&](Index i, Index t, Beside beside) {
            if (beside == Beside::no_other)
                return fitter.force_alone(i, t);
            if (!board_.fits(i, t))
                return fitter.force(i, t);
            board_.put(i, t);
            return true;
        });
        fitter.place(late_); // by way of other work, where they would have no day
        for (const Index i : late_)
            if (board_.day_of(i) && !board_.item(i).stands)
                board_.let_stand(i);
        fitter.put_in_order();
        add_expected();
        std::vector<Index> to_come;
        for (Index i = board_.pieces(); i < board_.size(); ++i)
            to_come.push_back(i);
        fitter.reserve(to_come);
        constexpr int max_rounds = 4;
        even_out(board_);
        for (int round = 0; round < max_rounds && even_out_papers(board_, pieces_, time_.today); ++round)
            even_out(board_);
        polish(board_);
    }

    Fare fare_of_loose(const Board& board) const {
        Fare sum;
        for (const Index i : loose_)
            sum = sum + board.fare(i, board.day_of(i));
        return sum;
    }

    /// What may be expected of other work on each day if it is spread as evenly as can be, beside what
    /// stands.
    std::vector<double> expected_of(const std::vector<Index>& others) const {
        Capacity capacity{time_.today, {}};
        for (const DayTime& day : time_.days)
            capacity.available.push_back(day.exam ? Seconds(0) : day.available);
        std::vector<Load> loads;
        for (Index t = 0; t < board_.days(); ++t)
            if (board_.day(t).load > 0)
                loads.push_back({time_.today + Days{t}, time_.today + Days{t}, Seconds(board_.day(t).load),
                                 std::nullopt});
        for (const Index i : others)
            if (const auto& spans = board_.item(i).spans; !spans.empty())
                loads.push_back({time_.today + Days{spans.front().first},
                                 time_.today + Days{spans.front().last}, Seconds(board_.item(i).work),
                                 std::nullopt});
        std::vector<double> expected(board_.days(), 0.0);
        for (const SpreadBound::Interval& interval : spread_bound(capacity, loads).intervals)
            for (const Day day : interval.days) {
                const auto t = static_cast<Index>((day - time_.today).count());
                const double asked = interval.share * static_cast<double>(board_.day(t).available);
                expected[t] = std::max(asked - static_cast<double>(board_.day(t).load), 0.0);
            }
        return expected;
    }

    // The result.

    WorkPlan result() {
        WorkPlan plan;
        for (Index i = 0; i < board_.pieces(); ++i)
            plan.days.push_back(day(board_.day_of(i)));
        for (Index i = board_.pieces(); i < board_.size(); ++i)
            plan.reserved.push_back(
                {*board_.item(i).brought_by, Seconds(board_.item(i).work), day(board_.day_of(i))});
        order_the_alike(plan);
        plan.weight = weigh_plan(time_, pieces_, plan.days, plan.reserved);
        prove({time_, pieces_, standing_, board_, exact_}, plan);
        return plan;
    }

    std::optional<Day> day(MaybeDay t) const {
        return t ? std::optional<Day>(time_.today + Days{*t}) : std::nullopt;
    }

    /// Of pieces that nothing tells apart the first in the list comes first.
    void order_the_alike(WorkPlan& plan) const {
        std::vector<Index> alike;
        for (const Index i : loose_)
            if (!pieces_[i].paper && pieces_[i].after.empty() && !pieces_[i].half_of &&
                board_.item(i).before.empty() && !board_.item(i).half && pieces_[i].never_on.empty() &&
                plan.days[i])
                alike.push_back(i);
        const auto kind = [&](Index i) {
            std::vector<Amount> key{board_.item(i).work, board_.item(i).opens, board_.item(i).closes};
            for (const Span& span : board_.item(i).spans)
                key.insert(key.end(), {span.rank, span.first, span.last});
            return key;
        };
        std::map<std::vector<Amount>, std::vector<Index>> kinds;
        for (const Index i : alike)
            kinds[kind(i)].push_back(i);
        for (const auto& [key, same] : kinds) {
            std::vector<std::optional<Day>> days;
            for (const Index i : same)
                days.push_back(plan.days[i]);
            std::sort(days.begin(), days.end());
            for (std::size_t i = 0; i < same.size(); ++i)
                plan.days[same[i]] = days[i];
        }
    }

    const TimeAhead& time_;
    const std::vector<WorkPiece>& pieces_;
    Board board_;
    Board standing_;           ///< with what stands alone
    std::vector<Index> loose_; ///< what has a day to choose and is not late
    std::vector<Index> late_;  ///< in their order
    bool exact_ = false;
};

} // namespace
} // namespace inkturn::board

namespace inkturn {

Seconds proven_short(const TimeAhead& time, const std::vector<WorkPiece>& pieces) {
    board::Board standing(time, pieces);
    keep_standing(standing, time.today, pieces);
    return Seconds(board::seconds_short({time, pieces, standing, standing, false}));
}

WorkPlan place_work(const TimeAhead& time, const std::vector<WorkPiece>& pieces) {
    return board::WorkPlacer(time, pieces).placed();
}

} // namespace inkturn
