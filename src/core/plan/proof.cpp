#include "core/plan/proof.hpp"

#include "core/plan/flow.hpp"
#include "core/plan/papers.hpp"
#include "core/plan/spread_bound.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn::board {
namespace {

class Prover {
  public:
    explicit Prover(const Made& made)
        : made_(made), end_(made.standing.days() == 0 ? 0 : made.standing.days() - 1) {}

    Amount short_by() const {
        std::vector<Index> items;
        std::vector<Index> papers;
        std::vector<ToCome> to_come;
        for (Index i = 0; i < made_.standing.size(); ++i) {
            add_to_come(i, to_come);
            if (made_.standing.day_of(i) || made_.standing.item(i).spans.empty())
                continue;
            items.push_back(i);
            if (made_.standing.item(i).paper)
                papers.push_back(i);
        }
        return std::max(seconds_without_day(made_.standing, items, to_come),
                        papers_without_day(made_.standing, papers));
    }

    /// What may move counts by its window where nothing is outside; else by all days that it may take.
    SpreadBound spread(const PlanWeight& weight) const {
        Capacity capacity{made_.time.today, {}};
        for (const DayTime& day : made_.time.days)
            capacity.available.push_back(day.exam && weight.on_exam_days == Seconds(0) ? Seconds(0)
                                                                                       : day.available);
        const bool by_window = weight.outside == Seconds(0) && weight.reserved_outside == Seconds(0);
        std::vector<Load> loads;
        for (Index i = 0; i < made_.placed.size(); ++i)
            if (const MaybeDay t = made_.placed.day_of(i)) {
                const Span span = might_take(i, *t, by_window);
                loads.push_back(
                    {day(span.first), day(span.last), Seconds(made_.placed.item(i).work), std::nullopt});
            }
        for (Index t = 0; t < made_.standing.days(); ++t)
            if (made_.time.days[t].done > Seconds(0))
                loads.push_back({day(t), day(t), made_.time.days[t].done, std::nullopt});
        return spread_bound(capacity, loads);
    }

  private:
    Day day(Amount t) const { return made_.time.today + Days{t}; }
    Index offset(Day day) const {
        return static_cast<Index>(std::clamp<Amount>((day - made_.time.today).count(), 0, end_));
    }

    /// Retries of a paper, wherever it is sat; none where that may be a day that leaves them no window.
    void add_to_come(Index paper, std::vector<ToCome>& to_come) const {
        const ExpectedRetries& expected = made_.pieces[paper].expected;
        if (expected.retries.empty())
            return;
        const MaybeDay stands_on = made_.standing.day_of(paper);
        std::optional<Span> hull;
        for (Index t = 0; t < made_.standing.days(); ++t) {
            if (stands_on ? *stands_on != t : !made_.standing.fits(paper, t))
                continue;
            const auto spans = spans_of_expected(expected, day(t), day(end_));
            if (spans.empty() || spans.front().first > day(end_))
                return;
            if (!hull)
                hull = Span{offset(spans.front().first), offset(spans.back().last), 0};
            hull->first = std::min(hull->first, offset(spans.front().first));
            hull->last = std::max(hull->last, offset(spans.back().last));
        }
        if (hull)
            for (const Seconds work : expected.retries)
                to_come.push_back({work.count(), {*hull}});
    }

    /// From the first to the last day that an item on a day might be on instead.
    Span might_take(Index i, Index t, bool by_window) const {
        const Item& item = made_.placed.item(i);
        Span might{t, t, 0};
        if (item.stands || item.late)
            return might;
        for (const Span& span : item.spans)
            if (!by_window || span.rank == 0)
                might = {std::min(might.first, span.first), std::max(might.last, span.last), 0};
        if (!item.brought_by || made_.placed.item(*item.brought_by).stands)
            return might;
        const ExpectedRetries& expected = made_.pieces[*item.brought_by].expected;
        for (const Span& span : made_.placed.item(*item.brought_by).spans) {
            if (by_window && span.rank > 0)
                continue;
            for (const Index sat : {span.first, span.last}) {
                const auto spans = spans_of_expected(expected, day(sat), day(end_));
                if (spans.empty()) // its window shrinks towards the exam
                    might.last = std::max(might.last, offset(*expected.exam - Days{1}));
                else
                    might = {std::min(might.first, offset(spans.front().first)),
                             std::max(might.last, offset((by_window ? spans.front() : spans.back()).last)),
                             0};
            }
        }
        return might;
    }

    const Made& made_;
    Index end_; ///< the last day
};

} // namespace

bool has_day_for(const Board& board, Index i) {
    for (const Span& span : board.item(i).spans)
        for (Index t = span.first; t <= span.last; ++t)
            if (board.fits(i, t))
                return true;
    return false;
}

Amount seconds_short(const Made& made) {
    return Prover(made).short_by();
}

void prove(const Made& made, WorkPlan& plan) {
    const Prover prover(made);
    if (plan.weight.without_day > Seconds(0) || plan.weight.unreserved > Seconds(0)) {
        plan.short_by = Seconds(prover.short_by());
        if (made.is_best)
            plan.short_by = std::max(plan.short_by, plan.weight.without_day);
        plan.fit = plan.short_by > Seconds(0) ? PlanFit::too_little_time : PlanFit::not_found;
    }
    const SpreadBound bound = prover.spread(plan.weight);
    plan.evenness_bound = bound.evenness;
    plan.fullest_share_bound = bound.fullest_share;
}

} // namespace inkturn::board
