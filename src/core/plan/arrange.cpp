#include "inkturn/plan/arrange.hpp"

#include "inkturn/retry/retry.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>

namespace inkturn {
namespace {

using Chosen = std::vector<std::optional<Day>>; ///< a day a block

/// Loads that are spread in all of the trials together: about a tenth of a second.
constexpr std::size_t max_loads_spread = 40'000;
constexpr std::size_t max_trials = 2'000;

struct ArrangementCost {
    Seconds over{0};
    Seconds left_out{0};
    std::size_t late = 0;
    std::size_t moved = 0;
    std::size_t spans = 0;
    double evenness = 0;
    long long day_sum = 0;
};

bool operator<(const ArrangementCost& one, const ArrangementCost& other) {
    const auto in_order = [](const ArrangementCost& cost) {
        return std::tie(cost.over, cost.left_out, cost.late, cost.moved, cost.spans, cost.evenness,
                        cost.day_sum);
    };
    return in_order(one) < in_order(other);
}

/// Position of the first span that holds the day.
std::size_t span_of(const Block& block, Day day) {
    const auto found = std::find_if(block.spans.begin(), block.spans.end(),
                                    [day](DaySpan span) { return span.contains(day); });
    return static_cast<std::size_t>(found - block.spans.begin());
}

bool is_late(const Block& block, Day day) {
    return block.in_time && day > *block.in_time;
}

class Arranger {
  public:
    Arranger(const Capacity& capacity, const std::vector<Load>& loads, const std::vector<Block>& blocks)
        : capacity_(capacity), loads_(loads), blocks_(blocks) {
        std::size_t pieces = loads.size() + 1;
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            pieces += 1 + blocks[i].expected_retries.size();
            days_.push_back(blocks[i].fixed_day ? blocks[i].fixed_day : blocks[i].kept_day);
            if (!blocks[i].fixed_day)
                movable_.push_back(i);
        }
        std::stable_partition(movable_.begin(), movable_.end(),
                              [&](std::size_t i) { return blocks[i].in_time.has_value(); });
        trials_ = std::min(max_loads_spread / pieces, max_trials);
        cost_ = cost_of(arranged(days_), days_);
    }

    Arrangement best() {
        if (!movable_.empty() && !try_all()) {
            place_without_search();
            improve();
        }
        return arranged(days_);
    }

    Seconds short_by() {
        place_without_search();
        Seconds sum = cost_.over + cost_.left_out;
        for (std::size_t i = 0; i < blocks_.size(); ++i)
            if (!days_[i])
                sum = std::accumulate(blocks_[i].expected_retries.begin(), blocks_[i].expected_retries.end(),
                                      sum);
        return sum;
    }

  private:
    void place_without_search() {
        const Seconds over_without = cost_.over;
        take_first_choices();
        leave_out_what_is_over(over_without);
    }

    Seconds available(Day day) const {
        return capacity_.available[static_cast<std::size_t>((day - capacity_.first).count())];
    }
    Day last_day() const { return capacity_.first + Days{capacity_.available.size() - 1}; }

    /// The days of one span that have room for the block.
    std::vector<Day> days_with_room(const Block& block, DaySpan span) const {
        std::vector<Day> days;
        for (Day day = span.first; day <= span.last; day += Days{1})
            if (available(day) >= block.work &&
                std::find(block.never_on.begin(), block.never_on.end(), day) == block.never_on.end())
                days.push_back(day);
        return days;
    }

    /// The days of all spans that have room for it, each once.
    std::vector<Day> all_days_with_room(const Block& block) const {
        std::vector<Day> days;
        for (const DaySpan span : block.spans)
            for (const Day day : days_with_room(block, span))
                if (std::find(days.begin(), days.end(), day) == days.end())
                    days.push_back(day);
        return days;
    }

    bool is_taken(Day day) const {
        return std::find(days_.begin(), days_.end(), std::optional<Day>(day)) != days_.end();
    }

    /// The days on which a block's foreseen work may fall: its window, up to the next day with availability
    /// where it has none.
    std::optional<DaySpan> reservation_span(const Block& block, Day day) const {
        const auto window = retry_window(day, block.exam);
        if (!window)
            return std::nullopt;
        const Day end = block.exam ? std::min(*block.exam - Days{1}, last_day()) : last_day();
        DaySpan span{window->opens, std::min(window->closes, end)};
        while (span.last <= end && !has_available_day(span))
            span.last += Days{1};
        if (span.last > end)
            return std::nullopt;
        return span;
    }

    bool has_available_day(DaySpan span) const {
        for (Day day = span.first; day <= span.last; day += Days{1})
            if (available(day) > Seconds(0))
                return true;
        return false;
    }

    /// Spreads loads and foreseen work round the blocks.
    Arrangement arranged(const Chosen& days) const {
        Arrangement arrangement;
        arrangement.blocks = days;
        std::vector<Load> all = loads_;
        for (std::size_t i = 0; i < blocks_.size(); ++i)
            if (days[i])
                all.push_back({*days[i], *days[i], blocks_[i].work, days[i]});
        const std::size_t fixed = all.size();
        for (std::size_t i = 0; i < blocks_.size(); ++i) {
            if (!days[i])
                continue;
            const auto span = reservation_span(blocks_[i], *days[i]);
            for (const Seconds work : blocks_[i].expected_retries) {
                if (!span) {
                    arrangement.expected_without_day += work;
                    continue;
                }
                all.push_back({span->first, span->last, work, std::nullopt});
                arrangement.expected_retries.push_back({i, span->first, work});
            }
        }

        std::vector<Day> chosen = spread(capacity_, all);
        PlacementCost weight = placement_cost(capacity_, all, chosen);
        if (weight.over > Seconds(0) && free_overfull(all, chosen)) {
            std::vector<Day> freed = spread(capacity_, all);
            const PlacementCost after = placement_cost(capacity_, all, freed);
            if (after.over < weight.over) {
                chosen = std::move(freed);
                weight = after;
            }
        }
        arrangement.loads.assign(chosen.begin(), chosen.begin() + static_cast<long>(loads_.size()));
        for (std::size_t i = fixed; i < all.size(); ++i)
            arrangement.expected_retries[i - fixed].day = chosen[i];
        arrangement.over = weight.over + arrangement.expected_without_day;
        arrangement.evenness = weight.evenness;
        arrangement.day_sum = weight.day_sum;
        return arrangement;
    }

    /// Lets go the placed loads on days that are asked more than they have; false where there are none.
    bool free_overfull(std::vector<Load>& all, const std::vector<Day>& chosen) const {
        std::map<Day, Seconds> planned;
        for (std::size_t i = 0; i < all.size(); ++i)
            planned[chosen[i]] += all[i].work;
        bool any = false;
        for (std::size_t i = 0; i < loads_.size(); ++i) {
            Load& load = all[i];
            if (!load.fixed_day || planned[*load.fixed_day] <= available(*load.fixed_day) ||
                load.opens == load.closes)
                continue;
            load.fixed_day.reset();
            any = true;
        }
        return any;
    }

    ArrangementCost cost_of(const Arrangement& arrangement, const Chosen& days) const {
        ArrangementCost cost;
        cost.over = arrangement.over;
        cost.evenness = arrangement.evenness;
        cost.day_sum = arrangement.day_sum;
        for (std::size_t i = 0; i < blocks_.size(); ++i) {
            if (!days[i]) {
                cost.left_out += blocks_[i].work;
                continue;
            }
            if (is_late(blocks_[i], *days[i]))
                ++cost.late;
            if (blocks_[i].kept_day && days[i] != blocks_[i].kept_day)
                ++cost.moved;
            cost.spans += span_of(blocks_[i], *days[i]);
        }
        return cost;
    }

    /// Takes the days where they cost less.
    bool take(const Chosen& days) {
        const ArrangementCost cost = cost_of(arranged(days), days);
        if (!(cost < cost_))
            return false;
        cost_ = cost;
        days_ = days;
        return true;
    }

    /// All choices of days, where they are few enough.
    bool try_all() {
        std::vector<std::vector<Day>> choices;
        std::size_t count = 1;
        for (const std::size_t block : movable_) {
            choices.push_back(all_days_with_room(blocks_[block]));
            count *= choices.back().size() + 1;
            if (count > trials_)
                return false;
        }
        Chosen days = days_;
        try_from(0, choices, days);
        return true;
    }

    void try_from(std::size_t position, const std::vector<std::vector<Day>>& choices, Chosen& days) {
        if (position == movable_.size()) {
            take(days);
            return;
        }
        std::optional<Day>& own_day = days[movable_[position]];
        const std::optional<Day> before = own_day;
        own_day.reset();
        try_from(position + 1, choices, days);
        for (const Day day : choices[position]) {
            if (std::find(days.begin(), days.end(), std::optional<Day>(day)) != days.end())
                continue;
            own_day = day;
            try_from(position + 1, choices, days);
            own_day.reset();
        }
        own_day = before;
    }

    /// What loads may be expected to ask of a day if they are spread as evenly as can be.
    std::map<Day, double> expected_shares() const {
        std::map<Day, double> shares;
        for (const SpreadBound::Interval& interval : spread_bound(capacity_, loads_).intervals)
            for (const Day day : interval.days)
                shares[day] = interval.share;
        return shares;
    }

    /// Of the first span that is expected to have room beside the loads, the day that will be least full; of
    /// equals the one nearest its middle.
    void take_first_choices() {
        const std::map<Day, double> shares = expected_shares();
        for (const std::size_t i : movable_) {
            if (days_[i])
                continue;
            std::optional<Choice> chosen;
            for (const DaySpan span : blocks_[i].spans) {
                const std::optional<Choice> least = least_full(blocks_[i], span, shares);
                if (least && (!chosen || least->fits()))
                    chosen = least;
                if (chosen && chosen->fits())
                    break;
            }
            if (chosen)
                days_[i] = chosen->day;
        }
    }

    /// A day for a block.
    struct Choice {
        double full; ///< with the block
        long from_middle;
        Day day;

        bool fits() const { return full <= 1; }
    };

    std::optional<Choice> least_full(const Block& block, DaySpan span,
                                     const std::map<Day, double>& shares) const {
        std::optional<Choice> least;
        for (const Day day : days_with_room(block, span)) {
            if (is_taken(day))
                continue;
            const auto share = shares.find(day);
            const Choice choice{(share == shares.end() ? 0 : share->second) +
                                    static_cast<double>(block.work.count()) /
                                        static_cast<double>(available(day).count()),
                                std::labs(((day - span.first) - (span.last - day)).count()), day};
            if (!least ||
                std::tie(choice.full, choice.from_middle) < std::tie(least->full, least->from_middle))
                least = choice;
        }
        return least;
    }

    /// By how much each day is asked more than it has.
    std::map<Day, Seconds> overfull(const Arrangement& arrangement) const {
        std::map<Day, Seconds> planned;
        for (std::size_t i = 0; i < loads_.size(); ++i)
            planned[arrangement.loads[i]] += loads_[i].work;
        for (std::size_t i = 0; i < blocks_.size(); ++i)
            if (arrangement.blocks[i])
                planned[*arrangement.blocks[i]] += blocks_[i].work;
        for (const Arrangement::ExpectedRetry& expected : arrangement.expected_retries)
            planned[expected.day] += expected.work;
        std::map<Day, Seconds> over;
        for (const auto& [day, time] : planned)
            if (time > available(day))
                over[day] = time - available(day);
        return over;
    }

    /// Movable blocks that stand on a day that is over, those on the fullest first; where none does, those
    /// with foreseen work on one or without a day for it.
    std::vector<std::size_t> at_fault(const Arrangement& arrangement) const {
        const std::map<Day, Seconds> over = overfull(arrangement);
        std::vector<std::pair<Seconds, std::size_t>> standing;
        for (const std::size_t i : movable_)
            if (days_[i] && over.count(*days_[i]) > 0)
                standing.emplace_back(-over.at(*days_[i]), i);
        std::sort(standing.begin(), standing.end());
        std::vector<std::size_t> blocks;
        for (const auto& [by, block] : standing)
            blocks.push_back(block);
        if (!blocks.empty())
            return blocks;
        for (auto i = movable_.rbegin(); i != movable_.rend(); ++i)
            if (days_[*i] &&
                (!reservation_span(blocks_[*i], *days_[*i]) ? !blocks_[*i].expected_retries.empty()
                                                            : foresees_on(arrangement, *i, over)))
                blocks.push_back(*i);
        return blocks;
    }

    static bool foresees_on(const Arrangement& arrangement, std::size_t block,
                            const std::map<Day, Seconds>& days) {
        return std::any_of(arrangement.expected_retries.begin(), arrangement.expected_retries.end(),
                           [&](const Arrangement::ExpectedRetry& expected) {
                               return expected.block == block && days.count(expected.day) > 0;
                           });
    }

    /// Leaves out blocks, half of those at fault at a time, until none makes a day ask more than it has.
    void leave_out_what_is_over(Seconds over_without) {
        for (;;) {
            const Arrangement arrangement = arranged(days_);
            cost_ = cost_of(arrangement, days_);
            if (cost_.over <= over_without)
                return;
            const std::vector<std::size_t> blocks = at_fault(arrangement);
            if (blocks.empty())
                return;
            for (std::size_t i = 0; i < (blocks.size() + 1) / 2; ++i)
                days_[blocks[i]].reset();
        }
    }

    /// Moves block after block to the day of its first span with room where that costs least, one without a
    /// day or not in time to whichever day, until none moves or the trials are used up.
    void improve() {
        bool has_changed = true;
        while (has_changed) {
            has_changed = false;
            for (const std::size_t i : movable_)
                for (const Day day : days_to_try(i)) {
                    if (is_taken(day))
                        continue;
                    if (trials_ == 0)
                        return;
                    --trials_;
                    Chosen days = days_;
                    days[i] = day;
                    has_changed = take(days) || has_changed;
                }
        }
    }

    std::vector<Day> days_to_try(std::size_t i) const {
        return !days_[i] || is_late(blocks_[i], *days_[i]) ? all_days_with_room(blocks_[i])
                                                           : first_days_with_room(blocks_[i]);
    }

    std::vector<Day> first_days_with_room(const Block& block) const {
        for (const DaySpan span : block.spans) {
            std::vector<Day> days = days_with_room(block, span);
            if (!days.empty())
                return days;
        }
        return {};
    }

    const Capacity& capacity_;
    const std::vector<Load>& loads_;
    const std::vector<Block>& blocks_;
    std::vector<std::size_t> movable_;
    Chosen days_;
    ArrangementCost cost_;
    std::size_t trials_ = 0;
};

} // namespace

Arrangement arrange(const Capacity& capacity, const std::vector<Load>& loads,
                    const std::vector<Block>& blocks) {
    return Arranger(capacity, loads, blocks).best();
}

Seconds shortfall(const Capacity& capacity, const std::vector<Load>& loads,
                  const std::vector<Block>& blocks) {
    return Arranger(capacity, loads, blocks).short_by();
}

} // namespace inkturn
