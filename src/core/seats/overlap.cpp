#include "core/seats/seating_search.hpp"

#include <algorithm>
#include <limits>
#include <unordered_map>
#include <utility>

namespace inkturn::seats {
namespace {

constexpr Index max_choices = 300;
constexpr Index max_states = 20'000; ///< of one step through the candidates

/// All sets of at most `most` of the groups, the empty one first; nothing where there are too many.
std::optional<std::vector<GroupSet>> choices(Index groups, Index most) {
    std::vector<GroupSet> sets{0};
    for (Index group = 0; group < groups; ++group)
        for (Index i = sets.size(); i-- > 0;)
            if (size_of(sets[i]) < most) {
                sets.push_back(sets[i] | only(group));
                if (sets.size() > max_choices)
                    return std::nullopt;
            }
    std::sort(sets.begin(), sets.end());
    return sets;
}

/// Places taken, by group.
using Loads = std::vector<std::uint32_t>;

struct LoadsHash {
    Index operator()(const Loads& loads) const {
        std::uint64_t hash = 1469598103934665603U;
        for (const std::uint32_t load : loads)
            hash = (hash ^ load) * 1099511628211U;
        return static_cast<Index>(hash);
    }
};

/// What each candidate could sit, weighed against prices for the places. Whatever the prices, no seating wins
/// more than the places' price and, over the candidates, the best choice less its price.
class Priced {
  public:
    Priced(const SeatingSearch& seatings, const std::vector<Group>& groups, Index candidates,
           std::vector<GroupSet> sets, std::vector<Amount> prices)
        : groups_(groups),
          candidates_(candidates),
          sets_(std::move(sets)),
          prices_(std::move(prices)),
          bound_(0) {
        worth_.reserve(candidates_ * sets_.size());
        for (Index candidate = 0; candidate < candidates_; ++candidate)
            for (const GroupSet set : sets_)
                worth_.push_back(seatings.worth(candidate, set));
        bound_ = bound_at(prices_);
    }

    Amount bound() const { return bound_; }

    /// Lowers the bound by steps of one mark in the prices of any of the groups at once.
    void descend(Amount enough, Budget& budget) {
        bool lowered = true;
        while (lowered && bound_ > enough && !budget.is_spent()) {
            lowered = false;
            for (GroupSet some = 1; some < only(groups_.size()) && bound_ > enough; ++some) {
                if (groups_.size() > 6 && size_of(some) > 1)
                    continue;
                lowered = step(some, 1) || step(some, -1) || lowered;
                budget.spend(4 * candidates_ * sets_.size());
            }
        }
    }

    /// The best seating that wins more than `to_beat`, candidate by candidate over the places taken so far:
    /// only choices are followed whose loss against the bound leaves that within reach.
    SeatingSearch::SearchResult best_above(Amount to_beat, Budget& budget) const;

  private:
    struct State {
        Loads loads;
        Amount loss;
        Index before; ///< position in the layer of the candidate before
        GroupSet set; ///< what this candidate took
    };
    struct Taking {
        GroupSet set;
        Amount loss;
    };

    std::vector<Taking> takings(Index candidate, const std::vector<Amount>& cost, Amount slack) const;
    std::optional<Amount> empty_places(const Loads& loads, const std::vector<Index>& to_come) const;
    std::optional<std::vector<State>> followed(const std::vector<State>& states,
                                               const std::vector<Taking>& takings,
                                               const std::vector<Index>& to_come, Amount slack,
                                               Budget& budget) const;
    SeatingSearch::SearchResult traced(const std::vector<std::vector<State>>& layers, Amount to_beat) const;

    std::vector<Amount> costs(const std::vector<Amount>& prices) const {
        std::vector<Amount> costs;
        costs.reserve(sets_.size());
        for (const GroupSet set : sets_)
            costs.push_back(price(set, prices));
        return costs;
    }

    Amount price(GroupSet set, const std::vector<Amount>& prices) const {
        Amount sum = 0;
        for (Index group = 0; group < groups_.size(); ++group)
            sum += has(set, group) ? prices[group] : 0;
        return sum;
    }

    Amount bound_at(const std::vector<Amount>& prices) const {
        Amount sum = 0;
        for (Index group = 0; group < groups_.size(); ++group)
            sum += prices[group] * static_cast<Amount>(groups_[group].places);
        const std::vector<Amount> cost = costs(prices);
        for (Index candidate = 0; candidate < candidates_; ++candidate)
            sum += best_of(candidate, cost);
        return sum;
    }

    Amount best_of(Index candidate, const std::vector<Amount>& cost) const {
        const Amount* worth = &worth_[candidate * sets_.size()];
        Amount best = 0;
        for (Index i = 0; i < sets_.size(); ++i)
            best = std::max(best, worth[i] - cost[i]);
        return best;
    }

    bool step(GroupSet some, Amount by) {
        std::vector<Amount> prices = prices_;
        for (Index group = 0; group < groups_.size(); ++group)
            if (has(some, group) && (prices[group] += by) < 0)
                return false;
        const Amount bound = bound_at(prices);
        if (bound >= bound_)
            return false;
        prices_ = std::move(prices);
        bound_ = bound;
        return true;
    }

    const std::vector<Group>& groups_;
    Index candidates_;
    std::vector<GroupSet> sets_;
    std::vector<Amount> prices_;
    Amount bound_;
    std::vector<Amount> worth_;
};

/// What a candidate may take without losing more than the slack against the bound.
std::vector<Priced::Taking> Priced::takings(Index candidate, const std::vector<Amount>& cost,
                                            Amount slack) const {
    const Amount best = best_of(candidate, cost);
    std::vector<Taking> takings;
    for (Index i = 0; i < sets_.size(); ++i) {
        const Amount loss = best - (worth_[candidate * sets_.size() + i] - cost[i]);
        if (loss <= slack)
            takings.push_back({sets_[i], loss});
    }
    return takings;
}

/// The price of the places that stay empty even if all who may still come do; nothing where too many came.
std::optional<Amount> Priced::empty_places(const Loads& loads, const std::vector<Index>& to_come) const {
    Amount sum = 0;
    for (Index group = 0; group < groups_.size(); ++group) {
        const Index places = groups_[group].places;
        if (loads[group] > places)
            return std::nullopt;
        const Index filled = loads[group] + to_come[group];
        if (filled < places)
            sum += prices_[group] * static_cast<Amount>(places - filled);
    }
    return sum;
}

/// All states one candidate later, the least loss of each; nothing where they are too many.
std::optional<std::vector<Priced::State>> Priced::followed(const std::vector<State>& states,
                                                           const std::vector<Taking>& takings,
                                                           const std::vector<Index>& to_come, Amount slack,
                                                           Budget& budget) const {
    std::vector<State> next;
    std::unordered_map<Loads, Index, LoadsHash> known;
    for (Index i = 0; i < states.size(); ++i) {
        for (const Taking& taking : takings) {
            State after{states[i].loads, states[i].loss + taking.loss, i, taking.set};
            for (Index group = 0; group < groups_.size(); ++group)
                after.loads[group] += has(taking.set, group) ? 1U : 0U;
            const auto empty = empty_places(after.loads, to_come);
            if (!empty || after.loss + *empty > slack)
                continue;
            const auto [found, is_new] = known.try_emplace(after.loads, next.size());
            if (is_new)
                next.push_back(std::move(after));
            else if (after.loss < next[found->second].loss)
                next[found->second] = std::move(after);
        }
        budget.spend(takings.size() * (groups_.size() + 20) * 2);
        if (next.size() > max_states || budget.is_spent())
            return std::nullopt;
    }
    return next;
}

SeatingSearch::SearchResult Priced::best_above(Amount to_beat, Budget& budget) const {
    const Amount slack = bound_ - to_beat - 1; // the loss that still beats
    if (slack < 0)
        return {bound_, std::nullopt};
    const std::vector<Amount> cost = costs(prices_);
    std::vector<std::vector<Taking>> takings_of;
    std::vector<Index> to_come(groups_.size(), 0);
    const auto count = [&](Index candidate, auto change) {
        GroupSet any = 0;
        for (const Taking& taking : takings_of[candidate])
            any |= taking.set;
        for (Index group = 0; group < groups_.size(); ++group)
            if (has(any, group))
                change(to_come[group]);
    };
    for (Index candidate = 0; candidate < candidates_; ++candidate) {
        takings_of.push_back(takings(candidate, cost, slack));
        count(candidate, [](Index& takers) { ++takers; });
    }

    std::vector<std::vector<State>> layers{{{Loads(groups_.size(), 0), 0, 0, 0}}};
    for (Index candidate = 0; candidate < candidates_; ++candidate) {
        count(candidate, [](Index& takers) { --takers; });
        auto next = followed(layers.back(), takings_of[candidate], to_come, slack, budget);
        if (!next)
            return {bound_, std::nullopt};
        layers.push_back(std::move(*next));
    }
    return traced(layers, to_beat);
}

/// The seating that led to the least loss, empty places counted.
SeatingSearch::SearchResult Priced::traced(const std::vector<std::vector<State>>& layers,
                                           Amount to_beat) const {
    const std::vector<Index> nobody_to_come(groups_.size(), 0);
    const std::vector<State>& last = layers.back();
    std::optional<Index> best;
    Amount least = 0;
    for (Index i = 0; i < last.size(); ++i) {
        const Amount loss = last[i].loss + *empty_places(last[i].loads, nobody_to_come);
        if (!best || loss < least) {
            best = i;
            least = loss;
        }
    }
    if (!best)
        return {to_beat, std::nullopt};
    Seating seating{std::vector<GroupSet>(candidates_, 0), bound_ - least};
    for (Index candidate = candidates_, i = *best; candidate-- > 0;) {
        const State& state = layers[candidate + 1][i];
        seating.groups_of[candidate] = state.set;
        i = state.before;
    }
    return {seating.marks, std::move(seating)};
}

} // namespace

SeatingSearch::SearchResult SeatingSearch::search(Amount to_beat, Budget& budget) const {
    auto sets = choices(groups_.size(), max_lessons_each_);
    if (!sets)
        return {std::numeric_limits<Amount>::max(), std::nullopt};
    budget.spend(losses_->candidates * sets->size() * 20);
    Priced priced(*this, groups_, losses_->candidates, std::move(*sets), prices_);
    priced.descend(to_beat, budget);
    return priced.best_above(to_beat, budget);
}

} // namespace inkturn::seats
