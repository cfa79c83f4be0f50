#include "core/seats/seating_search.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace inkturn::seats {
namespace {

constexpr Amount never = std::numeric_limits<Amount>::min() / 4;
constexpr Index nobody = std::numeric_limits<Index>::max();

/// On whichever date.
bool takes(const Losses& losses, const Group& group, Index column) {
    return std::any_of(group.topics.begin(), group.topics.end(),
                       [&](Index other) { return losses.topic_of(other) == losses.topic_of(column); });
}

} // namespace

SeatingSearch::SeatingSearch(const Losses& losses, std::vector<Group> groups, Index max_lessons_each)
    : losses_(&losses),
      groups_(std::move(groups)),
      max_lessons_each_(max_lessons_each),
      overlaps_(groups_.size(), 0),
      prices_(groups_.size(), 0) {
    assert(groups_.size() <= 64);
    for (Index group = 0; group < groups_.size(); ++group) {
        sharing_.emplace_back();
        for (const Index topic : groups_[group].topics) {
            GroupSet others = 0;
            for (Index other = 0; other < groups_.size(); ++other)
                if (other != group && takes(losses, groups_[other], topic))
                    others |= only(other);
            sharing_[group].push_back(others);
            overlaps_[group] |= others;
        }
        is_additive_ = is_additive_ && (max_lessons_each_ == 1 || overlaps_[group] == 0);
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
Amount SeatingSearch::added(Index candidate, Index group, GroupSet to) const {
    if ((overlaps_[group] & to) == 0)
        return alone_[candidate * groups_.size() + group];
    Amount sum = 0;
    for (Index i = 0; i < groups_[group].topics.size(); ++i)
        if ((sharing_[group][i] & to) == 0)
            sum += losses_->at(candidate, groups_[group].topics[i]);
    return sum;
}

Amount SeatingSearch::worth(Index candidate, GroupSet set) const {
    Amount sum = 0;
    GroupSet counted = 0;
    for (Index group = 0; counted != set; ++group)
        if (has(set, group)) {
            sum += added(candidate, group, counted);
            counted |= only(group);
        }
    return sum;
}

Amount SeatingSearch::worth(const Seating& seating) const {
    Amount sum = 0;
    for (Index candidate = 0; candidate < losses_->candidates; ++candidate)
        sum += worth(candidate, seating.groups_of[candidate]);
    return sum;
}

Amount SeatingSearch::weight(Index candidate, GroupSet set, Weighing weighing) const {
    return weighing.mark * worth(candidate, set) - weighing.seat * static_cast<Amount>(size_of(set));
}

void SeatingSearch::offer(Index from, Index to, Amount gain, Index candidate) {
    Move& move = moves_[from * (groups_.size() + 1) + to];
    if (gain > move.gain)
        move = {gain, candidate};
}

/// The best single moves. Nowhere stands for a candidate's free time and for a free place alike: a place that
/// is given up costs nothing, and neither does one that is free.
void SeatingSearch::collect_moves(const Seating& seating, Weighing weighing) {
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
        if (size_of(set) < max_lessons_each_)
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
std::vector<Index> SeatingSearch::best_chain() {
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
std::vector<Index> SeatingSearch::circle(const std::vector<Index>& before, Index group) const {
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

std::vector<Index> SeatingSearch::chain_to_nowhere(const std::vector<Index>& before) const {
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

/// Moves everyone in the chain; undoes it all if it wins nothing because one candidate is in it twice.
bool SeatingSearch::take_chain(const std::vector<Index>& chain, Seating& seating, Weighing weighing) const {
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

bool SeatingSearch::take_best_chain(Seating& seating, Weighing weighing) {
    loads_.assign(groups_.size(), 0);
    for (const GroupSet set : seating.groups_of)
        for (Index group = 0; group < groups_.size() && set >> group != 0; ++group)
            loads_[group] += has(set, group) ? 1U : 0U;
    collect_moves(seating, weighing);
    const std::vector<Index> chain = best_chain();
    return !chain.empty() && take_chain(chain, seating, weighing);
}

Seating SeatingSearch::improved(Seating seating, Weighing weighing, Budget& budget) {
    const Index groups = groups_.size();
    do
        budget.spend(losses_->candidates * groups * (max_lessons_each_ + 1) * 2 + groups * groups * groups +
                     200);
    while (take_best_chain(seating, weighing));
    seating.marks = worth(seating);
    return seating;
}

Seating SeatingSearch::best_seating(Seating from, Budget& budget) {
    Seating seating = improved(std::move(from), {1, 0}, budget);
    for (Index group = 0; group < groups_.size(); ++group)
        prices_[group] = loads_[group] < groups_[group].places ? 0 : std::max<Amount>(0, reach_[group]);
    return seating;
}

Seating SeatingSearch::with_fewest_seats(Seating from, Budget& budget) {
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

} // namespace inkturn::seats
