#include "inkturn/seats/seats.hpp"
#include "inkturn/base/error.hpp"

#include "core/seats/bound.hpp"
#include "core/seats/losses.hpp"
#include "core/seats/seating_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
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
constexpr Index steps_of_last = 5; ///< with one lesson left to choose

using Topics = std::vector<Index>; ///< ascending

/// The topics of each lesson and who sits there.
struct Choice {
    std::vector<Topics> lessons; ///< ascending
    std::vector<Group> groups;
    Seating seating;
};

std::vector<Group> groups_of(const std::vector<Topics>& lessons, Index places) {
    std::vector<Group> groups;
    for (const Topics& topics : lessons) {
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

/// Chooses the topics: a simple start, exchanges, then a search of all sets of topics with a bound.
class Search {
  public:
    /// `dates` has the date of each lesson, ascending.
    Search(const SeatsRequest& request, const Losses& losses, std::vector<Index> topics,
           std::vector<Index> dates)
        : request_(request),
          losses_(losses),
          topics_(std::move(topics)),
          dates_(std::move(dates)),
          topics_each_(std::min(request.topics_each, topics_.size())),
          budget_{whole_budget} {}

    void run() {
        try_out(first_lessons());
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

    /// Seats the lessons, starting from the seats tried last. No seating of them wins more than what is
    /// returned, or than the best so far; with `searches` it is looked for where it isn't certain to be
    /// found.
    Amount try_out(std::vector<Topics> lessons, bool searches, Amount bound) {
        std::sort(lessons.begin(), lessons.end());
        std::vector<Group> groups = groups_of(lessons, request_.places);
        SeatingSearch seatings(losses_, groups, request_.max_lessons_each);
        Seating start = carried_over(last_, groups, losses_.candidates);
        last_ = {std::move(lessons), std::move(groups), seatings.best_seating(std::move(start), budget_)};
        if (last_.seating.marks > best_marks())
            best_ = last_;
        if (seatings.is_additive())
            return best_marks();
        if (!searches)
            return bound;
        SeatingSearch::SearchResult searched = seatings.search(best_marks(), budget_);
        if (searched.best)
            best_ = {last_.lessons, last_.groups, std::move(*searched.best)};
        return std::min(bound, searched.bound);
    }
    void try_out(std::vector<Topics> lessons) { try_out(std::move(lessons), false, 0); }

    std::vector<Topics> first_lessons();
    void exchange_topics(Amount spend);
    bool exchange_once(Amount until);
    bool search_all_sets();
    void search(const Family& family, SeatBound& bounds, PartialPlan partial, Charges charges, Amount above);
    std::optional<PartialPlan> with_member(const Family& family, const PartialPlan& partial,
                                           Index member) const;
    void bound_by_smaller_sets();
    Family sets_of(Index topics_each, Index most) const;
    Family sets_of(Index topics_each) const {
        return sets_of(topics_each, std::min(max_sets, max_weights / losses_.candidates) / losses_.dates());
    }
    PartialPlan nothing_chosen(const Family& family, Index shares) const;

    std::vector<Topics> lessons_of(const Family& family, const std::vector<Index>& positions) const {
        std::vector<Topics> lessons;
        for (const Index position : positions)
            lessons.push_back(family.set(position));
        return lessons;
    }

    const SeatsRequest& request_;
    const Losses& losses_;
    std::vector<Index> topics_; ///< on which somebody lost marks
    std::vector<Index> dates_;  ///< of the lessons
    Index topics_each_;
    Budget budget_;
    Choice last_;
    std::optional<Choice> best_;
    Amount open_bound_ = 0; ///< no plan that was not looked at wins more
};

/// Lesson by lesson and topic by topic, what those who win most there still can win.
std::vector<Topics> Search::first_lessons() {
    Losses left = losses_;
    std::vector<Index> free(losses_.candidates, request_.max_lessons_each);
    std::vector<Topics> lessons;
    for (const Index date : dates_) {
        Topics taken;
        std::vector<Amount> wins(losses_.candidates, 0);
        for (Index candidate = 0; candidate < losses_.candidates && losses_.must > 0; ++candidate)
            wins[candidate] = left.at(candidate, losses_.column(date, losses_.topics_a_date - 1));
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
            Amount most = 0;
            for (const Index name : topics_) {
                const Index topic = losses_.column(date, name);
                if (std::find(taken.begin(), taken.end(), topic) != taken.end())
                    continue;
                Amount sum = 0;
                for (const auto& seat : with(topic))
                    sum -= seat.first;
                if (!best || sum > most) {
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
        if (losses_.must > 0)
            taken.push_back(losses_.column(date, losses_.topics_a_date - 1));
        for (const auto& seat : seats) {
            --free[seat.second];
            for (const Index topic : taken)
                for (Index other = 0; other < losses_.dates(); ++other)
                    left.marks[seat.second * left.topics + losses_.column(other, losses_.topic_of(topic))] =
                        0;
        }
        std::sort(taken.begin(), taken.end());
        lessons.push_back(std::move(taken));
    }
    return lessons;
}

/// One topic of one lesson for another, as long as that wins marks.
void Search::exchange_topics(Amount spend) {
    const Amount until = budget_.remaining - spend;
    while (exchange_once(until))
        ;
}

bool Search::exchange_once(Amount until) {
    const std::vector<Topics> lessons = best_->lessons;
    const Amount before = best_marks();
    for (Index i = 0; i < lessons.size(); ++i) {
        if (i > 0 && lessons[i] == lessons[i - 1])
            continue;
        for (Index j = 0; j < topics_each_; ++j)
            for (const Index name : topics_) {
                const Index topic = losses_.column(losses_.date_of(lessons[i].front()), name);
                if (std::find(lessons[i].begin(), lessons[i].end(), topic) != lessons[i].end())
                    continue;
                if (budget_.remaining < until)
                    return false;
                std::vector<Topics> others = lessons;
                others[i][j] = topic;
                std::sort(others[i].begin(), others[i].end());
                try_out(std::move(others));
            }
    }
    return best_marks() > before;
}

/// Of each date; no more than `most` of one, or none at all. Those who must have a seat win it in each.
Family Search::sets_of(Index topics_each, Index most) const {
    const Family of_one = all_sets(topics_, topics_each, most);
    const bool must = losses_.must > 0;
    Family family{topics_each + (must ? 1 : 0), {}};
    for (Index date = 0; date < losses_.dates(); ++date)
        for (Index position = 0; position < of_one.size(); ++position) {
            for (const Index topic : of_one.set(position))
                family.topics.push_back(static_cast<std::uint32_t>(losses_.column(date, topic)));
            if (must)
                family.topics.push_back(
                    static_cast<std::uint32_t>(losses_.column(date, losses_.topics_a_date - 1)));
        }
    return family;
}

PartialPlan Search::nothing_chosen(const Family& family, Index shares) const {
    PartialPlan partial{{}, {}, std::vector<Index>(losses_.dates(), 0)};
    for (const Index date : dates_)
        partial.open[date] += shares;
    for (Index position = 0; position < family.size(); ++position)
        partial.members.push_back(position);
    return partial;
}

/// False where there are too many sets of topics.
bool Search::search_all_sets() {
    const Family family = sets_of(topics_each_);
    if (family.topics.empty())
        return false;
    SeatBound bounds(losses_, family, request_.places, request_.max_lessons_each);
    search(family, bounds, nothing_chosen(family, 1), bounds.first_charges(),
           std::numeric_limits<Amount>::max());
    return true;
}

/// With the member taken, and those before it no more. Nothing where a date has a lesson open and none is
/// left for it: such plans have a member before this one, or none that could beat the best.
std::optional<PartialPlan> Search::with_member(const Family& family, const PartialPlan& partial,
                                               Index member) const {
    const auto date_of = [&](Index position) {
        return losses_.date_of(family.topics[position * family.topics_each]);
    };
    PartialPlan child{partial.fixed, {}, partial.open};
    child.fixed.push_back(partial.members[member]);
    --child.open[date_of(partial.members[member])];
    std::vector<bool> has_member(child.open.size(), false);
    for (Index i = member; i < partial.members.size(); ++i)
        if (const Index date = date_of(partial.members[i]); child.open[date] > 0) {
            child.members.push_back(partial.members[i]);
            has_member[date] = true;
        }
    for (Index date = 0; date < child.open.size(); ++date)
        if (child.open[date] > 0 && !has_member[date])
            return std::nullopt;
    return child;
}

/// Searches all ways of choosing the open lessons' topics. None of them wins more than `above`.
void Search::search(const Family& family, SeatBound& bounds, PartialPlan partial, Charges charges,
                    Amount above) {
    if (partial.is_whole()) {
        open_bound_ = std::max(open_bound_, try_out(lessons_of(family, partial.fixed), true, above));
        return;
    }
    const bool is_first = partial.fixed.empty();
    const Index open = std::accumulate(partial.open.begin(), partial.open.end(), Index{0});
    const Index steps = is_first ? steps_at_first : open > 1 ? steps_within : steps_of_last;
    std::set<std::vector<Index>> seen;
    Budget some{is_first ? budget_.remaining / 2 : budget_.remaining};
    budget_.remaining -= some.remaining;
    const Bound bound = bounds.lowered(partial, charges, steps, best_marks(), some, [&](const Bound& at) {
        if (is_first && budget_.remaining > 0 && seen.insert(at.picks).second)
            try_out(lessons_of(family, at.picks));
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
        try_out(lessons_of(family, bound.picks));

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
        if (auto child = with_member(family, partial, i))
            search(family, bounds, std::move(*child), charges, reachable);
    }
}

/// A lesson wins no more than some lessons do that share its topics out, where a candidate may sit them all.
void Search::bound_by_smaller_sets() {
    Family family;
    Index shares = 1;
    while (family.topics.empty()) {
        ++shares;
        const Index each = (topics_each_ + shares - 1) / shares;
        family = each == 1 ? sets_of(1, topics_.size()) : sets_of(each);
    }
    SeatBound bounds(losses_, family, request_.places, request_.max_lessons_each * shares);
    const PartialPlan partial = nothing_chosen(family, shares);
    Charges charges = bounds.first_charges();
    budget_.remaining = std::max(budget_.remaining, whole_budget / 4);
    open_bound_ =
        bounds.lowered(partial, charges, steps_at_first, best_marks(), budget_, [](const Bound&) {}).marks();
}

/// The candidates of a group's lessons: as few lessons as hold them, evenly filled.
std::vector<std::vector<Index>> split(const std::vector<Index>& candidates, Index places, Index lessons) {
    std::vector<std::vector<Index>> parts(lessons);
    const Index used = (candidates.size() + places - 1) / places;
    for (Index i = 0; i < candidates.size(); ++i)
        parts[i * used / candidates.size()].push_back(candidates[i]);
    return parts;
}

/// The columns of a lesson become topics, without those that win nobody there a mark, unless none does.
void count_marks(const Losses& losses, std::vector<SeatPlan::SeatedLesson>& lessons) {
    std::set<std::pair<Index, Index>> won;
    for (SeatPlan::SeatedLesson& one : lessons) {
        std::vector<Index> needed;
        std::vector<Index> all;
        for (const Index column : one.topics) {
            const Index topic = losses.topic_of(column);
            if (losses.must > 0 && topic + 1 == losses.topics_a_date)
                continue;
            Amount sum = 0;
            for (SeatPlan::Seat& seat : one.seats)
                if (losses.at(seat.candidate, column) > 0 && won.emplace(seat.candidate, topic).second) {
                    seat.weight += SeatWeight(static_cast<int>(losses.at(seat.candidate, column)));
                    sum += losses.at(seat.candidate, column);
                }
            all.push_back(topic);
            if (sum > 0)
                needed.push_back(topic);
        }
        one.topics = needed.empty() && !one.seats.empty() ? std::move(all) : std::move(needed);
    }
}

SeatPlan plan_of(const SeatsRequest& request, const Losses& losses, const Choice& choice,
                 const std::vector<Day>& dates) {
    SeatPlan plan;
    for (Index group = 0; group < choice.groups.size(); ++group) {
        std::vector<Index> candidates;
        for (Index candidate = 0; candidate < losses.candidates; ++candidate)
            if ((choice.seating.groups_of[candidate] >> group & 1U) != 0)
                candidates.push_back(candidate);
        for (const auto& part :
             split(candidates, request.places, choice.groups[group].places / request.places)) {
            SeatPlan::SeatedLesson one{choice.groups[group].topics, {}};
            if (!dates.empty())
                one.date = dates[losses.date_of(one.topics.front())];
            for (const Index candidate : part)
                one.seats.push_back({candidate, SeatWeight()});
            plan.lessons.push_back(std::move(one));
        }
    }
    count_marks(losses, plan.lessons);
    std::stable_sort(plan.lessons.begin(), plan.lessons.end(),
                     [](const SeatPlan::SeatedLesson& a, const SeatPlan::SeatedLesson& b) {
                         return std::pair(a.date, a.seats.empty()) < std::pair(b.date, b.seats.empty());
                     });
    for (const SeatPlan::SeatedLesson& one : plan.lessons)
        for (const SeatPlan::Seat& seat : one.seats)
            plan.weight += seat.weight;
    return plan;
}

void check_request(const SeatsRequest& request, const std::vector<SeatTerms>& terms, Index candidates) {
    if (request.lessons < 1 || request.lessons > 64 || request.places < 1 || request.topics_each < 1 ||
        request.max_lessons_each < 1)
        throw Error("give 1 to 64 lessons, with 1 or more places, topics and lessons each",
                    Error::Kind::misused);
    if (!request.dates.empty() && (request.dates.size() != request.lessons ||
                                   !std::is_sorted(request.dates.begin(), request.dates.end())))
        throw Error("each lesson needs its date, in their order", Error::Kind::misused);
    if (!terms.empty() && terms.size() != candidates)
        throw Error("every candidate needs terms", Error::Kind::misused);
}

SeatPlan empty_plan(const SeatsRequest& request) {
    SeatPlan plan;
    plan.lessons.resize(request.lessons);
    for (Index i = 0; i < request.dates.size(); ++i)
        plan.lessons[i].date = request.dates[i];
    return plan;
}

} // namespace

SeatWeight::SeatWeight(int count) : count_(count) {
    if (count < 0)
        throw Error("a weight can't be below 0");
}

SeatPlan plan_seats(const SeatsRequest& request, const std::vector<std::vector<SeatWeight>>& lost,
                    const std::vector<SeatTerms>& terms) {
    check_request(request, terms, lost.size());
    if (!musts_without_place(request, terms).empty())
        throw Error("there are not places enough for all who must have one", Error::Kind::misused);
    const std::vector<Day> dates = distinct(request.dates);
    const Losses losses = losses_of(lost, terms, dates);
    const std::vector<Index> topics = losses.topics == 0 ? std::vector<Index>() : topics_to_choose(losses);
    if (topics.empty() && losses.must > 0)
        throw Error("nobody has met a topic yet, so there is none for those who must have a seat");
    if (topics.empty())
        return empty_plan(request);
    SeatsRequest limited = request;
    limited.places = std::min(request.places, losses.candidates); // more stay empty
    limited.max_lessons_each = std::min(request.max_lessons_each, request.lessons);
    std::vector<Index> date_of_lesson(request.lessons, 0);
    for (Index i = 0; i < request.dates.size(); ++i)
        date_of_lesson[i] =
            static_cast<Index>(std::find(dates.begin(), dates.end(), request.dates[i]) - dates.begin());
    Search search(limited, losses, topics, date_of_lesson);
    search.run();
    Choice choice = search.best();
    SeatingSearch seatings(losses, choice.groups, limited.max_lessons_each);
    choice.seating = seatings.with_fewest_seats(std::move(choice.seating), search.budget());
    SeatPlan plan = plan_of(limited, losses, choice, dates);
    const auto musts =
        std::count_if(terms.begin(), terms.end(), [](const SeatTerms& one) { return one.must; });
    plan.bound = SeatWeight(static_cast<int>(std::min(search.bound(), max_sum) - musts * losses.must));
    return plan;
}

} // namespace inkturn
