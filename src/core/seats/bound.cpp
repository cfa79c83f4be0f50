#include "core/seats/bound.hpp"

#include <algorithm>
#include <cassert>
#include <functional>
#include <limits>
#include <numeric>

namespace inkturn::seats {
namespace {

/// A position of a family and how many of the lessons take it.
struct LessonSet {
    Index position;
    Index lessons;
};

std::vector<LessonSet> counts_of(std::vector<Index> positions) {
    std::sort(positions.begin(), positions.end());
    std::vector<LessonSet> lesson_sets;
    for (const Index position : positions) {
        if (lesson_sets.empty() || lesson_sets.back().position != position)
            lesson_sets.push_back({position, 0});
        ++lesson_sets.back().lessons;
    }
    return lesson_sets;
}

Index lessons_of(const std::vector<LessonSet>& lesson_sets, Index position) {
    for (const LessonSet& some : lesson_sets)
        if (some.position == position)
            return some.lessons;
    return 0;
}

constexpr Amount unknown = std::numeric_limits<Amount>::max() / 2;

/// Leaves the largest in front.
Amount sum_of_largest(std::vector<Amount>& amounts, Index count) {
    const auto end = amounts.begin() + static_cast<std::ptrdiff_t>(count);
    if (count < amounts.size())
        std::nth_element(amounts.begin(), end, amounts.end(), std::greater<>());
    return std::accumulate(amounts.begin(), end, Amount{0});
}

Amount rounded(Amount amount, Amount by) {
    return amount >= 0 ? (amount + by / 2) / by : -((-amount + by / 2) / by);
}

} // namespace

std::vector<Index> Family::set(Index position) const {
    const auto first = topics.begin() + static_cast<std::ptrdiff_t>(position * topics_each);
    return {first, first + static_cast<std::ptrdiff_t>(topics_each)};
}

Family all_sets(const std::vector<Index>& topics, Index topics_each, Index most) {
    assert(0 < topics_each && topics_each <= topics.size());
    Family family{topics_each, {}};
    std::vector<Index> at(topics_each);
    std::iota(at.begin(), at.end(), Index{0});
    for (Index count = 1;; ++count) {
        if (count > most)
            return {topics_each, {}};
        for (const Index i : at)
            family.topics.push_back(static_cast<std::uint32_t>(topics[i]));
        Index last = topics_each;
        while (last > 0 && at[last - 1] == topics.size() - topics_each + last - 1)
            --last;
        if (last == 0)
            return family;
        ++at[last - 1];
        for (Index i = last; i < topics_each; ++i)
            at[i] = at[i - 1] + 1;
    }
}

SeatBound::SeatBound(const Losses& losses, const Family& family, Index places, Index max_lessons_each)
    : losses_(losses),
      family_(family),
      places_(places),
      max_lessons_each_(max_lessons_each),
      kept_(losses.topics * losses.candidates),
      seat_charges_(losses.candidates, 0),
      best_of_set_(family.size(), unknown),
      weight_(losses.candidates) {
    for (Index topic = 0; topic < losses.topics; ++topic)
        for (Index candidate = 0; candidate < losses.candidates; ++candidate)
            kept_[topic * losses.candidates + candidate] = losses.at(candidate, topic) * parts_of_a_mark;
}

Charges SeatBound::first_charges() const {
    const Index candidates = losses_.candidates;
    const bool topics_count_twice = max_lessons_each_ > 1 && (family_.topics_each > 1 || losses_.dates() > 1);
    Charges charges{std::vector<Amount>(candidates, 0),
                    std::vector<Amount>(topics_count_twice ? losses_.topics_a_date * candidates : 0, 0)};
    if (losses_.must == 0)
        return charges;
    const Index seat = losses_.topics_a_date - 1;
    for (Index candidate = 0; candidate < candidates; ++candidate)
        for (Index date = 0; date < losses_.dates(); ++date)
            if (losses_.at(candidate, losses_.column(date, seat)) > 0)
                (topics_count_twice ? charges.topic[seat * candidates + candidate]
                                    : charges.seat[candidate]) = losses_.must * parts_of_a_mark;
    return charges;
}

void SeatBound::weigh(Index set, const Charges& charges) {
    const Index candidates = losses_.candidates;
    for (Index candidate = 0; candidate < candidates; ++candidate)
        weight_[candidate] = -charges.seat[candidate];
    for (Index i = 0; i < family_.topics_each; ++i) {
        const Amount* kept = &kept_[family_.topics[set * family_.topics_each + i] * candidates];
        for (Index candidate = 0; candidate < candidates; ++candidate)
            weight_[candidate] += kept[candidate];
    }
}

/// The most weight that the places of so many lessons can take; leaves the weights above 0 in `above_`.
Amount SeatBound::best_places(Index lessons) {
    above_.resize(weight_.size());
    Index count = 0;
    for (const Amount weight : weight_) {
        above_[count] = weight;
        count += weight > 0 ? 1U : 0U;
    }
    above_.resize(count);
    const Index places = places_ >= losses_.candidates ? count : std::min(count, places_ * lessons);
    return sum_of_largest(above_, places);
}

/// Marks less the charges for counting a topic; and how much, at most, each set's worth has risen since.
void SeatBound::charge(const Charges& charges) {
    const Index candidates = losses_.candidates;
    std::vector<Amount> rise(candidates);
    const auto max_rise = [&] { return sum_of_largest(rise, std::min(places_, candidates)); };
    for (Index candidate = 0; candidate < candidates; ++candidate)
        rise[candidate] = std::max<Amount>(0, seat_charges_[candidate] - charges.seat[candidate]);
    seat_charges_ = charges.seat;
    const Amount by_seats = max_rise();
    std::vector<Amount> by_topic(losses_.topics, 0);
    for (Index topic = 0; topic < losses_.topics && !charges.topic.empty(); ++topic) {
        for (Index candidate = 0; candidate < candidates; ++candidate) {
            const Index i = topic * candidates + candidate;
            const Amount whole = losses_.at(candidate, topic) * parts_of_a_mark;
            const Amount kept =
                std::max<Amount>(0, whole - charges.topic[losses_.topic_of(topic) * candidates + candidate]);
            rise[candidate] = std::max<Amount>(0, kept - kept_[i]);
            kept_[i] = kept;
        }
        by_topic[topic] = max_rise();
    }
    for (Index position = 0; position < best_of_set_.size(); ++position) {
        Amount rises = by_seats;
        for (Index i = 0; i < family_.topics_each; ++i)
            rises += by_topic[family_.topics[position * family_.topics_each + i]];
        best_of_set_[position] += rises;
    }
}

/// What one more lesson of a member's topics is worth.
Amount SeatBound::one_more(Index position, Index lessons, const Charges& charges, Budget& budget) {
    budget.spend(losses_.candidates * (family_.topics_each + 5));
    weigh(position, charges);
    if (lessons == 0)
        return best_of_set_[position] = best_places(1);
    const Amount now = best_places(lessons);
    return best_places(lessons + 1) - now;
}

Bound SeatBound::bound(const PartialPlan& partial, const Charges& charges, BoundDetail telling,
                       Budget& budget) {
    budget.spend(10 * kept_.size() + 4 * best_of_set_.size() + 4 * partial.members.size());
    charge(charges);
    Bound bound;
    bound.parts = static_cast<Amount>(max_lessons_each_) *
                  std::accumulate(charges.seat.begin(), charges.seat.end(), Amount{0});
    bound.parts += std::accumulate(charges.topic.begin(), charges.topic.end(), Amount{0});
    const std::vector<LessonSet> chosen = counts_of(partial.fixed);
    bound.picks = partial.fixed;
    for (const LessonSet& lesson_sets : chosen) {
        weigh(lesson_sets.position, charges);
        bound.parts += best_places(lesson_sets.lessons);
    }
    if (partial.is_whole())
        return bound;

    // Each further lesson of the same topics is worth less, so the largest are picked in turn. A member's
    // upper limit is worked out again only once it comes to the top.
    struct Next {
        Amount worth;
        Index member;
        Index lessons;
        bool is_weighed;
    };
    const auto comes_later = [](const Next& a, const Next& b) {
        return a.worth != b.worth ? a.worth < b.worth : a.member > b.member;
    };
    std::vector<Next> heap;
    heap.reserve(partial.members.size());
    for (Index i = 0; i < partial.members.size(); ++i) {
        Next next{best_of_set_[partial.members[i]], i, lessons_of(chosen, partial.members[i]), false};
        if (telling == BoundDetail::of_members)
            next = {one_more(partial.members[i], next.lessons, charges, budget), i, next.lessons, true};
        heap.push_back(next);
    }
    std::vector<Amount> first;
    for (const Next& next : heap)
        first.push_back(next.worth);
    std::make_heap(heap.begin(), heap.end(), comes_later);
    std::vector<Index> open = partial.open;
    std::vector<Amount> least(open.size(), 0);
    Index left = std::accumulate(open.begin(), open.end(), Index{0});
    while (left > 0 && !heap.empty()) {
        std::pop_heap(heap.begin(), heap.end(), comes_later);
        Next& next = heap.back();
        const Index date = date_of(partial.members[next.member]);
        if (open[date] == 0) {
            heap.pop_back();
            continue;
        }
        if (next.is_weighed) {
            least[date] = next.worth;
            bound.parts += next.worth;
            bound.picks.push_back(partial.members[next.member]);
            ++next.lessons;
            --open[date];
            --left;
        }
        next.worth = one_more(partial.members[next.member], next.lessons, charges, budget);
        next.is_weighed = true;
        std::push_heap(heap.begin(), heap.end(), comes_later);
    }
    if (telling == BoundDetail::of_members)
        for (Index i = 0; i < first.size(); ++i)
            bound.of_member.push_back(bound.parts -
                                      std::max<Amount>(0, least[date_of(partial.members[i])] - first[i]));
    return bound;
}

/// Raises the charge where more is taken than there is, lowers it where less is, in proportion to both and to
/// how far the bound is above what is to be beaten. False where nothing changes.
bool SeatBound::take_step(const Bound& last, Amount to_beat, Amount pace, Charges& charges) {
    const Index candidates = losses_.candidates;
    std::vector<Amount> seats(candidates, -static_cast<Amount>(max_lessons_each_));
    std::vector<Amount> counts(charges.topic.size(), -1);
    for (const LessonSet& lesson_sets : counts_of(last.picks)) {
        weigh(lesson_sets.position, charges);
        best_places(lesson_sets.lessons);
        const Index places = std::min(lesson_sets.lessons * places_, above_.size());
        const Amount floor = places < above_.size() ? above_[places] : 0; // nobody below it has a place
        Index left = places;
        const auto seat = [&](Index candidate) {
            --left;
            ++seats[candidate];
            for (Index i = 0; i < family_.topics_each && !counts.empty(); ++i) {
                const Index topic = family_.topics[lesson_sets.position * family_.topics_each + i];
                counts[losses_.topic_of(topic) * candidates + candidate] +=
                    kept_[topic * candidates + candidate] > 0 ? 1 : 0;
            }
        };
        for (Index candidate = 0; candidate < candidates; ++candidate)
            if (weight_[candidate] > floor)
                seat(candidate);
        for (Index candidate = 0; candidate < candidates && left > 0; ++candidate)
            if (weight_[candidate] == floor && floor > 0)
                seat(candidate);
    }

    const auto settle = [](std::vector<Amount>& excess, const std::vector<Amount>& charge) {
        Amount squares = 0;
        for (Index i = 0; i < excess.size(); ++i) {
            if (excess[i] < 0 && charge[i] == 0)
                excess[i] = 0;
            squares += excess[i] * excess[i];
        }
        return squares;
    };
    const Amount squares = settle(seats, charges.seat) + settle(counts, charges.topic);
    if (squares == 0)
        return false;
    const Amount gap = std::max(last.parts - to_beat * parts_of_a_mark, parts_of_a_mark);
    bool moved = false;
    const auto move = [&](const std::vector<Amount>& excess, std::vector<Amount>& charge) {
        for (Index i = 0; i < excess.size(); ++i) {
            const Amount by = rounded(excess[i] * gap * pace / max_pace, squares);
            moved = moved || by != 0;
            charge[i] = std::max<Amount>(0, charge[i] + by);
        }
    };
    move(seats, charges.seat);
    move(counts, charges.topic);
    return moved;
}

} // namespace inkturn::seats
