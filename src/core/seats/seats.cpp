#include "inkturn/seats/seats.hpp"
#include "inkturn/base/error.hpp"

#include "core/seats/bound.hpp"
#include "core/seats/seating_search.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <set>
#include <utility>

namespace inkturn {
namespace {

using namespace seats;

constexpr Amount whole_budget = 2'000'000'000;
constexpr Index max_sets = 200'000;
constexpr Index max_weights = 25'000'000; ///< sets times candidates
constexpr Index steps_at_first = 400;
constexpr Index steps_within = 30;
constexpr Index steps_of_last = 5; ///< with one class left to choose

using Topics = std::vector<Index>; ///< ascending

/// The topics of each class and who sits there.
struct Choice {
    std::vector<Topics> classes; ///< ascending
    std::vector<Group> groups;
    Seating seating;
};

std::vector<Group> groups_of(const std::vector<Topics>& classes, Index places) {
    std::vector<Group> groups;
    for (const Topics& topics : classes) {
        if (groups.empty() || groups.back().topics != topics)
            groups.push_back({topics, 0});
        groups.back().places += places;
    }
    return groups;
}

/// The seats in groups that are still there, as far as they have places.
Seating carried_over(const Choice& before, const std::vector<Group>& groups, Index candidates) {
    Seating seating{std::vector<GroupSet>(candidates, 0), 0};
    for (Index from = 0; from < before.groups.size(); ++from) {
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
            return group.topics == before.groups[from].topics;
        });
        if (same == groups.end())
            continue;
        const auto to = static_cast<Index>(same - groups.begin());
        Index left = same->places;
        for (Index candidate = 0; candidate < candidates && left > 0; ++candidate)
            if ((before.seating.groups_of[candidate] >> from & 1U) != 0) {
                seating.groups_of[candidate] |= GroupSet{1} << to;
                --left;
            }
    }
    return seating;
}

/// Chooses the topics: a start by the way, exchanges, then a search of all sets of topics with a bound.
class Search {
  public:
    Search(const SeatsRequest& request, const Losses& losses, std::vector<Index> topics)
        : request_(request),
          losses_(losses),
          topics_(std::move(topics)),
          topics_each_(std::min(request.topics_each, topics_.size())),
          budget_{whole_budget} {}

    void run() {
        try_out(first_classes());
        exchange_topics(whole_budget / 4);
        if (search_all_sets())
            return;
        bound_by_smaller_sets();
    }

    const Choice& best() const { return *best_; }
    Amount bound() const { return std::max(open_bound_, best_->seating.marks); }
    Budget& budget() { return budget_; }

  private:
    Amount best_marks() const { return best_ ? best_->seating.marks : -1; }

    /// Seats the classes, starting from the seats tried last. No seating of them wins more than what is
    /// returned, or than the best so far; with `searches` it is looked for where it isn't certain to be
    /// found.
    Amount try_out(std::vector<Topics> classes, bool searches, Amount bound) {
        std::sort(classes.begin(), classes.end());
        std::vector<Group> groups = groups_of(classes, request_.places);
        SeatingSearch seatings(losses_, groups, request_.max_classes_each);
        Seating start = carried_over(last_, groups, losses_.candidates);
        last_ = {std::move(classes), std::move(groups), seatings.best_seating(std::move(start), budget_)};
        if (last_.seating.marks > best_marks())
            best_ = last_;
        if (seatings.is_additive())
            return best_marks();
        if (!searches)
            return bound;
        SeatingSearch::SearchResult searched = seatings.search(best_marks(), budget_);
        if (searched.best)
            best_ = {last_.classes, last_.groups, std::move(*searched.best)};
        return std::min(bound, searched.bound);
    }
    void try_out(std::vector<Topics> classes) { try_out(std::move(classes), false, 0); }

    std::vector<Topics> first_classes();
    void exchange_topics(Amount spend);
    bool exchange_once(Amount until);
    bool search_all_sets();
    void search(const Family& family, SeatBound& bounds, PartialPlan partial, Charges charges, Amount above);
    void bound_by_smaller_sets();
    Family sets_of(Index topics_each) const {
        return all_sets(topics_, topics_each, std::min(max_sets, max_weights / losses_.candidates));
    }

    std::vector<Topics> classes_of(const Family& family, const std::vector<Index>& positions) const {
        std::vector<Topics> classes;
        for (const Index position : positions)
            classes.push_back(family.set(position));
        return classes;
    }

    const SeatsRequest& request_;
    const Losses& losses_;
    std::vector<Index> topics_; ///< on which somebody lost marks
    Index topics_each_;
    Budget budget_;
    Choice last_;
    std::optional<Choice> best_;
    Amount open_bound_ = 0; ///< no plan that was not looked at wins more
};

/// Class by class and topic by topic, what those who win most there still can win.
std::vector<Topics> Search::first_classes() {
    Losses left = losses_;
    std::vector<Index> free(losses_.candidates, request_.max_classes_each);
    std::vector<Topics> classes;
    while (classes.size() < request_.classes) {
        Topics taken;
        std::vector<Amount> wins(losses_.candidates, 0);
        const auto with = [&](Index topic) {
            std::vector<std::pair<Amount, Index>> seats; // the most first, then the earlier candidates
            for (Index candidate = 0; candidate < losses_.candidates; ++candidate) {
                const Amount win = wins[candidate] + left.at(candidate, topic);
                if (free[candidate] > 0 && win > 0)
                    seats.emplace_back(-win, candidate);
            }
            const Index places = std::min(request_.places, seats.size());
            std::partial_sort(seats.begin(), seats.begin() + static_cast<std::ptrdiff_t>(places),
                              seats.end());
            seats.resize(places);
            return seats;
        };
        std::vector<std::pair<Amount, Index>> seats;
        while (taken.size() < topics_each_) {
            std::optional<Index> best;
            Amount most = -1;
            for (const Index topic : topics_) {
                if (std::find(taken.begin(), taken.end(), topic) != taken.end())
                    continue;
                Amount sum = 0;
                for (const auto& seat : with(topic))
                    sum -= seat.first;
                if (sum > most) {
                    best = topic;
                    most = sum;
                }
            }
            seats = with(*best);
            taken.push_back(*best);
            for (Index candidate = 0; candidate < losses_.candidates; ++candidate)
                wins[candidate] += left.at(candidate, *best);
        }
        budget_.spend(topics_each_ * topics_.size() * losses_.candidates * 4);
        for (const auto& seat : seats) {
            --free[seat.second];
            for (const Index topic : taken)
                left.marks[seat.second * left.topics + topic] = 0;
        }
        std::sort(taken.begin(), taken.end());
        classes.push_back(std::move(taken));
    }
    return classes;
}

/// One topic of one class for another, as long as that wins marks.
void Search::exchange_topics(Amount spend) {
    const Amount until = budget_.remaining - spend;
    while (exchange_once(until))
        ;
}

bool Search::exchange_once(Amount until) {
    const std::vector<Topics> classes = best_->classes;
    const Amount before = best_marks();
    for (Index i = 0; i < classes.size(); ++i) {
        if (i > 0 && classes[i] == classes[i - 1])
            continue;
        for (Index j = 0; j < topics_each_; ++j)
            for (const Index topic : topics_) {
                if (std::find(classes[i].begin(), classes[i].end(), topic) != classes[i].end())
                    continue;
                if (budget_.remaining < until)
                    return false;
                std::vector<Topics> others = classes;
                others[i][j] = topic;
                std::sort(others[i].begin(), others[i].end());
                try_out(std::move(others));
            }
    }
    return best_marks() > before;
}

/// False where there are too many sets of topics.
bool Search::search_all_sets() {
    const Family family = sets_of(topics_each_);
    if (family.topics.empty())
        return false;
    SeatBound bounds(losses_, family, request_.places, request_.max_classes_each);
    PartialPlan partial{{}, {}, request_.classes};
    for (Index position = 0; position < family.size(); ++position)
        partial.members.push_back(position);
    search(family, bounds, std::move(partial), bounds.no_charges(), std::numeric_limits<Amount>::max());
    return true;
}

/// Searches all ways of choosing the open classes' topics. None of them wins more than `above`.
void Search::search(const Family& family, SeatBound& bounds, PartialPlan partial, Charges charges,
                    Amount above) {
    if (partial.open == 0) {
        open_bound_ = std::max(open_bound_, try_out(classes_of(family, partial.fixed), true, above));
        return;
    }
    const bool is_first = partial.fixed.empty();
    const Index steps = is_first ? steps_at_first : partial.open > 1 ? steps_within : steps_of_last;
    std::set<std::vector<Index>> seen;
    Budget some{is_first ? budget_.remaining / 2 : budget_.remaining};
    budget_.remaining -= some.remaining;
    const Bound bound = bounds.lowered(partial, charges, steps, best_marks(), some, [&](const Bound& at) {
        if (is_first && budget_.remaining > 0 && seen.insert(at.picks).second)
            try_out(classes_of(family, at.picks));
    });
    budget_.remaining += some.remaining;
    above = std::min(above, bound.marks());
    if (above <= best_marks())
        return;
    if (budget_.is_spent()) {
        open_bound_ = std::max(open_bound_, above);
        return;
    }

    if (!is_first)
        try_out(classes_of(family, bound.picks));

    std::vector<std::pair<Amount, Index>> members; // the most promising first, then the earlier topics
    for (Index i = 0; i < partial.members.size(); ++i)
        if (bound.of_member[i] / parts_of_a_mark > best_marks())
            members.emplace_back(-bound.of_member[i], partial.members[i]);
    std::sort(members.begin(), members.end());
    partial.members.clear();
    for (const auto& member : members)
        partial.members.push_back(member.second);

    for (Index i = 0; i < members.size(); ++i) {
        const Amount reachable = std::min(above, -members[i].first / parts_of_a_mark);
        if (reachable <= best_marks())
            break;
        if (budget_.is_spent()) {
            open_bound_ = std::max(open_bound_, reachable);
            return;
        }
        PartialPlan child{partial.fixed,
                          {partial.members.begin() + static_cast<std::ptrdiff_t>(i), partial.members.end()},
                          partial.open - 1};
        child.fixed.push_back(partial.members[i]);
        search(family, bounds, std::move(child), charges, reachable);
    }
}

/// A class wins no more than some classes do that share its topics out, where a candidate may sit them all.
void Search::bound_by_smaller_sets() {
    Family family;
    Index shares = 1;
    while (family.topics.empty()) {
        ++shares;
        const Index each = (topics_each_ + shares - 1) / shares;
        family = each == 1 ? all_sets(topics_, 1, topics_.size()) : sets_of(each);
    }
    SeatBound bounds(losses_, family, request_.places, request_.max_classes_each * shares);
    PartialPlan partial{{}, {}, request_.classes * shares};
    for (Index position = 0; position < family.size(); ++position)
        partial.members.push_back(position);
    Charges charges = bounds.no_charges();
    budget_.remaining = std::max(budget_.remaining, whole_budget / 4);
    open_bound_ =
        bounds.lowered(partial, charges, steps_at_first, best_marks(), budget_, [](const Bound&) {}).marks();
}

/// The candidates of a group's classes: as few classes as hold them, evenly filled.
std::vector<std::vector<Index>> split(const std::vector<Index>& candidates, Index places, Index classes) {
    std::vector<std::vector<Index>> parts(classes);
    const Index used = (candidates.size() + places - 1) / places;
    for (Index i = 0; i < candidates.size(); ++i)
        parts[i * used / candidates.size()].push_back(candidates[i]);
    return parts;
}

/// Leaves out the topics of a class that win nobody there a mark.
void count_marks(const Losses& losses, std::vector<SeatPlan::RevisionClass>& classes) {
    std::set<std::pair<Index, Index>> won;
    for (SeatPlan::RevisionClass& one : classes) {
        std::vector<Index> needed;
        for (const Index topic : one.topics) {
            Amount sum = 0;
            for (SeatPlan::Seat& seat : one.seats)
                if (losses.at(seat.candidate, topic) > 0 && won.emplace(seat.candidate, topic).second) {
                    seat.weight += SeatWeight(static_cast<int>(losses.at(seat.candidate, topic)));
                    sum += losses.at(seat.candidate, topic);
                }
            if (sum > 0)
                needed.push_back(topic);
        }
        one.topics = std::move(needed);
    }
}

SeatPlan plan_of(const SeatsRequest& request, const Losses& losses, const Choice& choice) {
    SeatPlan plan;
    for (Index group = 0; group < choice.groups.size(); ++group) {
        std::vector<Index> candidates;
        for (Index candidate = 0; candidate < losses.candidates; ++candidate)
            if ((choice.seating.groups_of[candidate] >> group & 1U) != 0)
                candidates.push_back(candidate);
        for (const auto& part :
             split(candidates, request.places, choice.groups[group].places / request.places)) {
            SeatPlan::RevisionClass one{choice.groups[group].topics, {}};
            for (const Index candidate : part)
                one.seats.push_back({candidate, SeatWeight()});
            plan.classes.push_back(std::move(one));
        }
    }
    count_marks(losses, plan.classes);
    std::stable_partition(plan.classes.begin(), plan.classes.end(),
                          [](const SeatPlan::RevisionClass& one) { return !one.seats.empty(); });
    for (const SeatPlan::RevisionClass& one : plan.classes)
        for (const SeatPlan::Seat& seat : one.seats)
            plan.weight += seat.weight;
    return plan;
}

Losses losses_of(const std::vector<std::vector<SeatWeight>>& lost) {
    Losses losses{lost.size(), lost.empty() ? 0 : lost.front().size(), {}};
    losses.marks.reserve(losses.candidates * losses.topics);
    for (const std::vector<SeatWeight>& row : lost) {
        if (row.size() != losses.topics)
            throw Error("every candidate has a weight for each topic", Error::Kind::misused);
        for (const SeatWeight weight : row)
            losses.marks.push_back(weight.count());
    }
    return losses;
}

std::vector<Index> topics_lost(const Losses& losses) {
    std::vector<Index> topics;
    for (Index topic = 0; topic < losses.topics; ++topic)
        for (Index candidate = 0; candidate < losses.candidates; ++candidate)
            if (losses.at(candidate, topic) > 0) {
                topics.push_back(topic);
                break;
            }
    return topics;
}

} // namespace

SeatWeight::SeatWeight(int count) : count_(count) {
    if (count < 0)
        throw Error("a weight can't be below 0");
}

SeatPlan plan_seats(const SeatsRequest& request, const std::vector<std::vector<SeatWeight>>& lost) {
    if (request.classes < 1 || request.classes > 64 || request.places < 1 || request.topics_each < 1 ||
        request.max_classes_each < 1)
        throw Error("there are 1 to 64 revision classes, with 1 or more of places, topics and classes each",
                    Error::Kind::misused);
    const Losses losses = losses_of(lost);
    const std::vector<Index> topics = topics_lost(losses);
    if (topics.empty()) {
        SeatPlan plan;
        plan.classes.resize(request.classes);
        return plan;
    }
    SeatsRequest limited = request;
    limited.max_classes_each = std::min(request.max_classes_each, request.classes);
    Search search(limited, losses, topics);
    search.run();
    Choice choice = search.best();
    SeatingSearch seatings(losses, choice.groups, limited.max_classes_each);
    choice.seating = seatings.with_fewest_seats(std::move(choice.seating), search.budget());
    SeatPlan plan = plan_of(request, losses, choice);
    plan.bound = SeatWeight(static_cast<int>(search.bound()));
    return plan;
}

} // namespace inkturn
