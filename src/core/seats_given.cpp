#include "core/seats_given.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <unordered_map>
#include <utility>

namespace inkturn::seats {
namespace {

constexpr Amount never = std::numeric_limits<Amount>::min() / 4;
constexpr Index nobody = std::numeric_limits<Index>::max();
constexpr Index most_choices = 300;
constexpr Index most_states = 20'000; ///< of one step through the candidates

constexpr GroupSet only(Index group) {
    return GroupSet{1} << group;
}

bool has(GroupSet set, Index group) {
    return (set >> group & 1U) != 0;
}

Index size_of(GroupSet set) {
    Index size = 0;
    for (; set != 0; set &= set - 1)
        ++size;
    return size;
}

bool takes(const Group& group, Index topic) {
    return std::find(group.topics.begin(), group.topics.end(), topic) != group.topics.end();
}

/// All sets of at most `most` of the groups, the empty one first; nothing where there are too many.
std::optional<std::vector<GroupSet>> choices(Index groups, Index most) {
    std::vector<GroupSet> sets{0};
    for (Index group = 0; group < groups; ++group)
        for (Index i = sets.size(); i-- > 0;)
            if (size_of(sets[i]) < most) {
                sets.push_back(sets[i] | only(group));
                if (sets.size() > most_choices)
                    return std::nullopt;
            }
    std::sort(sets.begin(), sets.end());
    return sets;
}

} // namespace

GivenTopics::GivenTopics(const Losses& losses, std::vector<Group> groups, Index most_each)
    : losses_(&losses),
      groups_(std::move(groups)),
      most_each_(most_each),
      overlaps_(groups_.size(), 0),
      prices_(groups_.size(), 0) {
    assert(groups_.size() <= 64);
    for (Index group = 0; group < groups_.size(); ++group) {
        sharing_.emplace_back();
        for (const Index topic : groups_[group].topics) {
            GroupSet others = 0;
            for (Index other = 0; other < groups_.size(); ++other)
                if (other != group && takes(groups_[other], topic))
                    others |= only(other);
            sharing_[group].push_back(others);
            overlaps_[group] |= others;
        }
        is_additive_ = is_additive_ && (most_each_ == 1 || overlaps_[group] == 0);
    }
    alone_.reserve(losses.candidates * groups_.size());
    for (Index candidate = 0; candidate < losses.candidates; ++candidate)
        for (const Group& group : groups_) {
            Amount sum = 0;
            for (const Index topic : group.topics)
                sum += losses.at(candidate, topic);
            alone_.push_back(sum);
        }
}

/// What a group that a candidate doesn't sit would add to those in `to`.
Amount GivenTopics::added(Index candidate, Index group, GroupSet to) const {
    if ((overlaps_[group] & to) == 0)
        return alone_[candidate * groups_.size() + group];
    Amount sum = 0;
    for (Index i = 0; i < groups_[group].topics.size(); ++i)
        if ((sharing_[group][i] & to) == 0)
            sum += losses_->at(candidate, groups_[group].topics[i]);
    return sum;
}

Amount GivenTopics::worth(Index candidate, GroupSet set) const {
    Amount sum = 0;
    GroupSet counted = 0;
    for (Index group = 0; counted != set; ++group)
        if (has(set, group)) {
            sum += added(candidate, group, counted);
            counted |= only(group);
        }
    return sum;
}

Amount GivenTopics::worth(const Seating& seating) const {
    Amount sum = 0;
    for (Index candidate = 0; candidate < losses_->candidates; ++candidate)
        sum += worth(candidate, seating.groups_of[candidate]);
    return sum;
}

Amount GivenTopics::weight(Index candidate, GroupSet set, Weighing weighing) const {
    return weighing.mark * worth(candidate, set) - weighing.seat * static_cast<Amount>(size_of(set));
}

void GivenTopics::offer(Index from, Index to, Amount gain, Index candidate) {
    Move& move = moves_[from * (groups_.size() + 1) + to];
    if (gain > move.gain)
        move = {gain, candidate};
}

/// The best single moves. Nowhere stands for a candidate's free time and for a free place alike: a place that
/// is given up costs nothing, and neither does one that is free.
void GivenTopics::find_moves(const Seating& seating, Weighing weighing) {
    const Index count = groups_.size();
    const Index nowhere = count;
    moves_.assign((count + 1) * (count + 1), {never, nobody});
    for (Index group = 0; group < count; ++group) {
        if (loads_[group] > 0)
            offer(nowhere, group, 0, nobody);
        if (loads_[group] < groups_[group].places)
            offer(group, nowhere, 0, nobody);
    }
    for (Index candidate = 0; candidate < losses_->candidates; ++candidate) {
        const GroupSet set = seating.groups_of[candidate];
        if (size_of(set) < most_each_)
            for (Index to = 0; to < count; ++to)
                if (!has(set, to))
                    offer(nowhere, to, weighing.mark * added(candidate, to, set) - weighing.seat, candidate);
        for (Index from = 0; from < count; ++from) {
            if (!has(set, from))
                continue;
            const GroupSet rest = set & ~only(from);
            const Amount lost = added(candidate, from, rest);
            offer(from, nowhere, weighing.seat - weighing.mark * lost, candidate);
            for (Index to = 0; to < count; ++to)
                if (!has(set, to))
                    offer(from, to, weighing.mark * (added(candidate, to, rest) - lost), candidate);
        }
    }
}

/// The chain of moves that wins most, as groups from nowhere to nowhere, or a circle that wins; empty where
/// nothing wins. Longest paths: after as many rounds as there are groups only a circle can still improve.
std::vector<Index> GivenTopics::best_chain() {
    const Index count = groups_.size();
    const Index nowhere = count;
    const auto gain = [&](Index from, Index to) { return moves_[from * (count + 1) + to].gain; };
    reach_.assign(count, never);
    std::vector<Index> before(count, nowhere);
    for (Index group = 0; group < count; ++group)
        reach_[group] = gain(nowhere, group);
    std::optional<Index> in_circle;
    for (Index round = 0; round < count; ++round) {
        in_circle.reset();
        for (Index from = 0; from < count; ++from)
            for (Index to = 0; to < count; ++to)
                if (reach_[from] > never / 2 && gain(from, to) > never / 2 &&
                    reach_[from] + gain(from, to) > reach_[to]) {
                    reach_[to] = reach_[from] + gain(from, to);
                    before[to] = from;
                    in_circle = to;
                }
        if (!in_circle)
            break;
    }

    return in_circle ? circle(before, *in_circle) : chain_to_nowhere(before);
}

/// A circle on the way back from a group that can be reached better and better.
std::vector<Index> GivenTopics::circle(const std::vector<Index>& before, Index group) const {
    for (Index step = 0; step < groups_.size(); ++step) {
        assert(group != groups_.size());
        group = before[group];
    }
    std::vector<Index> chain{group};
    for (Index at = before[group]; at != group; at = before[at])
        chain.push_back(at);
    chain.push_back(group);
    std::reverse(chain.begin(), chain.end());
    return chain;
}

std::vector<Index> GivenTopics::chain_to_nowhere(const std::vector<Index>& before) const {
    const Index nowhere = groups_.size();
    Amount best = 0;
    Index last = nowhere;
    for (Index group = 0; group < nowhere; ++group) {
        const Amount gain = moves_[group * (nowhere + 1) + nowhere].gain;
        if (reach_[group] > never / 2 && gain > never / 2 && reach_[group] + gain > best) {
            best = reach_[group] + gain;
            last = group;
        }
    }
    if (last == nowhere)
        return {};
    std::vector<Index> chain{nowhere};
    for (Index group = last; group != nowhere; group = before[group])
        chain.push_back(group);
    chain.push_back(nowhere);
    std::reverse(chain.begin(), chain.end());
    return chain;
}

/// Moves everyone in the chain; takes it all back where, because one candidate is in it twice, it wins
/// nothing.
bool GivenTopics::take_chain(const std::vector<Index>& chain, Seating& seating, Weighing weighing) const {
    const Index nowhere = groups_.size();
    std::vector<std::pair<Index, GroupSet>> earlier;
    Amount gain = 0;
    for (Index i = 0; i + 1 < chain.size(); ++i) {
        const Index candidate = moves_[chain[i] * (nowhere + 1) + chain[i + 1]].candidate;
        if (candidate == nobody)
            continue;
        GroupSet& set = seating.groups_of[candidate];
        earlier.emplace_back(candidate, set);
        gain -= weight(candidate, set, weighing);
        set &= chain[i] == nowhere ? ~GroupSet{0} : ~only(chain[i]);
        set |= chain[i + 1] == nowhere ? GroupSet{0} : only(chain[i + 1]);
        gain += weight(candidate, set, weighing);
    }
    if (gain > 0)
        return true;
    for (Index i = earlier.size(); i-- > 0;)
        seating.groups_of[earlier[i].first] = earlier[i].second;
    return false;
}

bool GivenTopics::take_best_chain(Seating& seating, Weighing weighing) {
    loads_.assign(groups_.size(), 0);
    for (const GroupSet set : seating.groups_of)
        for (Index group = 0; group < groups_.size() && set >> group != 0; ++group)
            loads_[group] += has(set, group) ? 1U : 0U;
    find_moves(seating, weighing);
    const std::vector<Index> chain = best_chain();
    return !chain.empty() && take_chain(chain, seating, weighing);
}

Seating GivenTopics::improved(Seating seating, Weighing weighing, Budget& budget) {
    const Index groups = groups_.size();
    do
        budget.spend(losses_->candidates * groups * (most_each_ + 1) * 2 + groups * groups * groups + 200);
    while (take_best_chain(seating, weighing));
    seating.marks = worth(seating);
    return seating;
}

Seating GivenTopics::best_seating(Seating from, Budget& budget) {
    Seating seating = improved(std::move(from), {1, 0}, budget);
    for (Index group = 0; group < groups_.size(); ++group)
        prices_[group] = loads_[group] < groups_[group].places ? 0 : std::max<Amount>(0, reach_[group]);
    return seating;
}

Seating GivenTopics::with_fewest_seats(Seating from, Budget& budget) {
    const Amount more_than_all_seats = static_cast<Amount>(losses_->candidates * groups_.size() + 1);
    Seating seating = improved(std::move(from), {more_than_all_seats, 1}, budget);
    // Chains give up such seats themselves, unless they ended because a candidate was in one twice.
    for (Index candidate = 0; candidate < losses_->candidates; ++candidate) {
        GroupSet& set = seating.groups_of[candidate];
        for (Index group = groups_.size(); group-- > 0;)
            if (has(set, group) && added(candidate, group, set & ~only(group)) == 0)
                set &= ~only(group);
    }
    return seating;
}

namespace {

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
    Priced(const GivenTopics& given, const std::vector<Group>& groups, Index candidates,
           std::vector<GroupSet> sets, std::vector<Amount> prices)
        : groups_(groups),
          candidates_(candidates),
          sets_(std::move(sets)),
          prices_(std::move(prices)),
          bound_(0) {
        worth_.reserve(candidates_ * sets_.size());
        for (Index candidate = 0; candidate < candidates_; ++candidate)
            for (const GroupSet set : sets_)
                worth_.push_back(given.worth(candidate, set));
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
    GivenTopics::Searched best_above(Amount to_beat, Budget& budget) const;

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
    GivenTopics::Searched traced(const std::vector<std::vector<State>>& layers, Amount to_beat) const;

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
        if (next.size() > most_states || budget.is_spent())
            return std::nullopt;
    }
    return next;
}

GivenTopics::Searched Priced::best_above(Amount to_beat, Budget& budget) const {
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
GivenTopics::Searched Priced::traced(const std::vector<std::vector<State>>& layers, Amount to_beat) const {
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

GivenTopics::Searched GivenTopics::search(Amount to_beat, Budget& budget) const {
    auto sets = choices(groups_.size(), most_each_);
    if (!sets)
        return {std::numeric_limits<Amount>::max(), std::nullopt};
    budget.spend(losses_->candidates * sets->size() * 20);
    Priced priced(*this, groups_, losses_->candidates, std::move(*sets), prices_);
    priced.descend(to_beat, budget);
    return priced.best_above(to_beat, budget);
}

} // namespace inkturn::seats
