#include "core/plan/spread_bound.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

using Index = std::uint32_t;
using Amount = std::int64_t; ///< seconds; of a gain, all work × all availability at most, which must fit

/// A day with availability.
struct DayLeft {
    Day day;
    Amount available;
};

/// All the work that is asked for within the same days.
struct Demand {
    Index first;
    Index last; ///< included
    Amount work;
};

/// Days that take part, in order, and what is asked of them by ascending last day. Only days that were taken
/// out can lie between two neighbours.
struct Timeline {
    std::vector<DayLeft> days;
    std::vector<Demand> demands;
};

Amount available(const Timeline& timeline) {
    Amount sum = 0;
    for (const DayLeft& open : timeline.days)
        sum += open.available;
    return sum;
}

Amount work_in(const Timeline& timeline) {
    Amount sum = 0;
    for (const Demand& demand : timeline.demands)
        sum += demand.work;
    return sum;
}

/// The gains of the runs that end on a day, by where they start. Work enclosed adds to every start up to its
/// first day, so a start that has fallen behind an earlier one never leads again and is dropped.
class RunningStarts {
  public:
    explicit RunningStarts(std::size_t days) : lead_(days), next_(days + 1) {}

    /// A start at the next day, ahead of the others or level with them.
    void add(Amount gain) {
        lead_[count_] = count_ == 0 ? 0 : gain - best_;
        next_[count_] = count_;
        next_[count_ + 1] = count_ + 1;
        best_ = gain;
        alive_.push_back(count_);
        ++count_;
    }

    void enclose(Amount gain, Index last_start) {
        Index ahead = first_alive_from(last_start + 1);
        while (ahead < count_ && lead_[ahead] < gain) {
            gain -= lead_[ahead];
            next_[ahead] = ahead + 1;
            ahead = first_alive_from(ahead + 1);
        }
        if (ahead < count_)
            lead_[ahead] -= gain;
        else
            best_ += gain;
    }

    void lower(Amount by) { best_ -= by; }

    Amount best_gain() const { return best_; }

    /// The latest of those with the best gain.
    Index best_start() {
        while (next_[alive_.back()] != alive_.back())
            alive_.pop_back();
        return alive_.back();
    }

  private:
    Index first_alive_from(Index start) {
        while (start < count_ && next_[start] != start) {
            next_[start] = next_[next_[start]];
            start = next_[start];
        }
        return start;
    }

    std::vector<Amount> lead_; ///< over the start before that is alive
    std::vector<Index> next_;  ///< itself while alive
    std::vector<Index> alive_; ///< ascending; those at the end may have been dropped
    Index count_ = 0;
    Amount best_ = 0;
};

/// Marks the runs of days which together are asked most above the share of the whole; none where no run is
/// asked above it.
std::vector<bool> days_above_average(const Timeline& timeline) {
    const Amount total_work = work_in(timeline);
    const Amount all_available = available(timeline);
    const auto count = static_cast<Index>(timeline.days.size());
    std::vector<Index> run_start(count);
    std::vector<bool> is_end_of_run(count, false);
    RunningStarts starts(count);
    Amount best = 0;
    auto demand = timeline.demands.begin();
    for (Index day = 0; day < count; ++day) {
        starts.add(best);
        starts.lower(total_work * timeline.days[day].available);
        for (; demand != timeline.demands.end() && demand->last == day; ++demand)
            starts.enclose(all_available * demand->work, demand->first);
        if (starts.best_gain() <= best)
            continue;
        best = starts.best_gain();
        is_end_of_run[day] = true;
        run_start[day] = starts.best_start();
    }

    std::vector<bool> is_above(count, false);
    for (Index end = count; end > 0;) {
        const Index day = --end;
        if (!is_end_of_run[day])
            continue;
        end = run_start[day];
        std::fill(is_above.begin() + end, is_above.begin() + day + 1, true);
    }
    return is_above;
}

/// A maximal run of the timeline on its own, with what is asked within it.
Timeline cut_out(const Timeline& timeline, Index first, Index end) {
    Timeline run;
    run.days.assign(timeline.days.begin() + first, timeline.days.begin() + end);
    for (const Demand& demand : timeline.demands)
        if (first <= demand.first && demand.last < end)
            run.demands.push_back({demand.first - first, demand.last - first, demand.work});
    return run;
}

/// The timeline without the marked days and what is asked within them.
Timeline contracted(const Timeline& timeline, const std::vector<bool>& is_taken) {
    Timeline rest;
    std::vector<Index> left_before{0};
    for (std::size_t day = 0; day < timeline.days.size(); ++day) {
        if (!is_taken[day])
            rest.days.push_back(timeline.days[day]);
        left_before.push_back(static_cast<Index>(rest.days.size()));
    }
    for (const Demand& demand : timeline.demands) {
        const Index first = left_before[demand.first];
        const Index end = left_before[demand.last + 1];
        if (first < end)
            rest.demands.push_back({first, end - 1, demand.work});
    }
    return rest;
}

std::size_t place_of_day(const Capacity& capacity, Day day) {
    const auto distance = static_cast<std::size_t>((day - capacity.first).count());
    if (distance >= capacity.available.size())
        throw Error(iso(day) + " is not one of the days that have a capacity", Error::Kind::misused);
    return distance;
}

double evenness(const SpreadBound::Interval& interval, const Capacity& capacity) {
    Seconds available{0};
    for (const Day day : interval.days)
        available += capacity.available[place_of_day(capacity, day)];
    return interval.share * interval.share * static_cast<double>(available.count());
}

SpreadBound::Interval at_one_share(const Timeline& timeline) {
    SpreadBound::Interval interval;
    for (const DayLeft& open : timeline.days)
        interval.days.push_back(open.day);
    interval.share = static_cast<double>(work_in(timeline)) / static_cast<double>(available(timeline));
    return interval;
}

void sort_and_merge(std::vector<Demand>& demands) {
    std::sort(demands.begin(), demands.end(), [](const Demand& one, const Demand& other) {
        return std::tie(one.last, one.first) < std::tie(other.last, other.first);
    });
    std::size_t kept = 0;
    for (const Demand& demand : demands) {
        if (kept > 0 && demands[kept - 1].first == demand.first && demands[kept - 1].last == demand.last)
            demands[kept - 1].work += demand.work;
        else
            demands[kept++] = demand;
    }
    demands.resize(kept);
}

/// What the loads ask of the open days, those of the same days taken together.
Timeline timeline_of(const Capacity& capacity, const std::vector<Load>& loads) {
    Timeline timeline;
    std::vector<Index> open_before{0};
    for (std::size_t i = 0; i < capacity.available.size(); ++i) {
        if (capacity.available[i] > Seconds{0})
            timeline.days.push_back({capacity.first + Days{i}, capacity.available[i].count()});
        open_before.push_back(static_cast<Index>(timeline.days.size()));
    }
    for (const Load& load : loads) {
        const Index first = open_before[place_of_day(capacity, load.opens)];
        const Index end = open_before[place_of_day(capacity, load.closes) + 1];
        if (first < end)
            timeline.demands.push_back({first, end - 1, load.work.count()});
    }
    sort_and_merge(timeline.demands);
    return timeline;
}

/// Splits the timeline into runs above the average and the rest until each part is worked at one share. The
/// parts are the critical intervals: cutting above any share finds them as taking the fullest one by one
/// does.
std::vector<SpreadBound::Interval> intervals_of(Timeline whole) {
    std::vector<SpreadBound::Interval> intervals;
    std::vector<Timeline> parts;
    parts.push_back(std::move(whole));
    while (!parts.empty()) {
        const Timeline part = std::move(parts.back());
        parts.pop_back();
        if (part.demands.empty())
            continue;
        const std::vector<bool> is_above = days_above_average(part);
        const auto begin = is_above.begin();
        if (std::find(begin, is_above.end(), true) == is_above.end()) {
            intervals.push_back(at_one_share(part));
            continue;
        }
        parts.push_back(contracted(part, is_above));
        for (auto end = begin; end != is_above.end();) {
            const auto start = std::find(end, is_above.end(), true);
            end = std::find(start, is_above.end(), false);
            if (start != end)
                parts.push_back(
                    cut_out(part, static_cast<Index>(start - begin), static_cast<Index>(end - begin)));
        }
    }
    return intervals;
}

} // namespace

SpreadBound spread_bound(const Capacity& capacity, const std::vector<Load>& loads) {
    SpreadBound bound;
    bound.intervals = intervals_of(timeline_of(capacity, loads));
    std::sort(bound.intervals.begin(), bound.intervals.end(), [](const auto& one, const auto& other) {
        return std::make_tuple(-one.share, one.days.front()) <
               std::make_tuple(-other.share, other.days.front());
    });
    for (const SpreadBound::Interval& interval : bound.intervals)
        bound.evenness += evenness(interval, capacity);
    if (!bound.intervals.empty())
        bound.fullest_share = bound.intervals.front().share;
    return bound;
}

} // namespace inkturn
