#include "inkturn/seats/seats.hpp"

#include "catch.hpp"
#include "core/seats/bound.hpp"
#include "core/seats/seating_search.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <map>
#include <numeric>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

using Lost = std::vector<std::vector<SeatWeight>>;
using Topics = std::vector<std::size_t>;

std::size_t count(std::mt19937& dice, int least, int most) {
    return static_cast<std::size_t>(pick(dice, least, most));
}

Lost lost_marks(const std::vector<std::vector<int>>& rows) {
    Lost lost;
    for (const std::vector<int>& row : rows) {
        lost.emplace_back();
        for (const int count : row)
            lost.back().emplace_back(count);
    }
    return lost;
}

/// One part in four of nothing lost.
Lost any_lost_marks(std::mt19937& dice, std::size_t candidates, std::size_t topics, int most) {
    Lost lost(candidates, std::vector<SeatWeight>(topics));
    for (std::vector<SeatWeight>& row : lost)
        for (SeatWeight& marks : row)
            marks = SeatWeight(pick(dice, 0, 3) == 0 ? 0 : pick(dice, 0, most));
    return lost;
}

/// "0 1: 2=5 4=3 | 2: 0=1": the topics of each lesson, and its candidates with their marks.
std::string text_of(const SeatPlan& plan) {
    std::string text;
    for (const SeatPlan::SeatedLesson& one : plan.lessons) {
        text += text.empty() ? "" : " | ";
        for (std::size_t i = 0; i < one.topics.size(); ++i)
            text += (i > 0 ? " " : "") + std::to_string(one.topics[i]);
        text += ":";
        for (const SeatPlan::Seat& seat : one.seats)
            text += " " + std::to_string(seat.candidate) + "=" + std::to_string(seat.weight.count());
    }
    return text;
}

/// What is asked and what the plan promises, from the plan alone.
void check_plan(const SeatsRequest& request, const Lost& lost, const SeatPlan& plan) {
    REQUIRE(plan.lessons.size() == request.lessons);
    std::vector<std::size_t> sits(lost.size(), 0);
    std::set<std::pair<std::size_t, std::size_t>> won;
    SeatWeight sum;
    bool empty_before = false;
    for (const SeatPlan::SeatedLesson& one : plan.lessons) {
        CHECK(one.seats.size() <= request.places);
        CHECK(one.topics.size() <= request.topics_each);
        CHECK(one.topics.empty() == one.seats.empty());
        CHECK_FALSE((empty_before && !one.seats.empty()));
        empty_before = one.seats.empty();
        CHECK(std::is_sorted(one.topics.begin(), one.topics.end()));
        std::set<std::size_t> here;
        for (const SeatPlan::Seat& seat : one.seats) {
            CHECK(here.insert(seat.candidate).second);
            ++sits[seat.candidate];
            SeatWeight wins;
            for (const std::size_t topic : one.topics)
                if (won.emplace(seat.candidate, topic).second)
                    wins += lost[seat.candidate][topic];
            CHECK(seat.weight == wins);
            CHECK(seat.weight > SeatWeight(0));
            sum += seat.weight;
        }
        CHECK(std::set<std::size_t>(one.topics.begin(), one.topics.end()).size() == one.topics.size());
    }
    CHECK(std::all_of(sits.begin(), sits.end(),
                      [&](std::size_t count) { return count <= request.max_lessons_each; }));
    CHECK(plan.weight == sum);
    CHECK(plan.weight <= plan.bound);
}

/// Every choice of topics, every candidate in every set of lessons.
class Everything {
  public:
    Everything(const SeatsRequest& request, const Lost& lost) : request_(request), lost_(lost) {}

    /// With these topics alone, a bit each, a set a lesson.
    int max_marks_with(const std::vector<unsigned>& topics_of_lesson) {
        topics_of_lesson_ = topics_of_lesson;
        free_.assign(request_.lessons, request_.places);
        seat(0, 0);
        return max_found_;
    }

    int max_marks() {
        topics_of_lesson_.assign(request_.lessons, 0);
        free_.assign(request_.lessons, request_.places);
        choose_topics(0);
        return max_found_;
    }

  private:
    static std::size_t bits(unsigned set) {
        std::size_t count = 0;
        for (; set != 0; set &= set - 1)
            ++count;
        return count;
    }

    void choose_topics(std::size_t next) {
        if (next == request_.lessons) {
            seat(0, 0);
            return;
        }
        const unsigned all = 1U << lost_.front().size();
        for (unsigned topics = 0; topics < all; ++topics)
            if (bits(topics) <= request_.topics_each) {
                topics_of_lesson_[next] = topics;
                choose_topics(next + 1);
            }
    }

    void seat(std::size_t candidate, int marks) {
        if (candidate == lost_.size()) {
            max_found_ = std::max(max_found_, marks);
            return;
        }
        for (unsigned lessons = 0; lessons < 1U << request_.lessons; ++lessons) {
            if (bits(lessons) > request_.max_lessons_each)
                continue;
            bool fits = true;
            unsigned covered = 0;
            for (std::size_t i = 0; i < request_.lessons; ++i)
                if ((lessons >> i & 1U) != 0) {
                    fits = fits && free_[i] > 0;
                    covered |= topics_of_lesson_[i];
                }
            if (!fits)
                continue;
            int wins = 0;
            for (std::size_t topic = 0; topic < lost_[candidate].size(); ++topic)
                wins += (covered >> topic & 1U) != 0 ? lost_[candidate][topic].count() : 0;
            take_places(lessons, -1);
            seat(candidate + 1, marks + wins);
            take_places(lessons, 1);
        }
    }

    void take_places(unsigned lessons, int by) {
        for (std::size_t i = 0; i < request_.lessons; ++i)
            if ((lessons >> i & 1U) != 0)
                free_[i] = by > 0 ? free_[i] + 1 : free_[i] - 1;
    }

    const SeatsRequest& request_;
    const Lost& lost_;
    std::vector<unsigned> topics_of_lesson_;
    std::vector<std::size_t> free_;
    int max_found_ = 0;
};

} // namespace

TEST_CASE("a plan of tiny instances wins what the best of all plans wins, and proves it") {
    std::mt19937 dice(1962);
    int overlapping = 0;
    for (int i = 0; i < 900; ++i) {
        const SeatsRequest request{count(dice, 1, 3), count(dice, 1, 3), count(dice, 1, 2),
                                   count(dice, 1, 3)};
        const Lost lost = any_lost_marks(dice, count(dice, 2, request.lessons == 3 ? 4 : 5),
                                         count(dice, 2, 3), pick(dice, 1, 9));
        const SeatPlan plan = plan_seats(request, lost);
        CAPTURE(i, request.lessons, request.places, request.topics_each, request.max_lessons_each,
                text_of(plan));
        check_plan(request, lost, plan);
        CHECK(plan.weight.count() == Everything(request, lost).max_marks());
        CHECK(plan.bound == plan.weight);
        std::set<std::size_t> topics;
        std::size_t in_all = 0;
        for (const SeatPlan::SeatedLesson& one : plan.lessons) {
            topics.insert(one.topics.begin(), one.topics.end());
            in_all += one.topics.size();
        }
        overlapping += in_all > topics.size() ? 1 : 0;
    }
    CHECK(overlapping > 100);
}

TEST_CASE("a lesson takes the topic and the candidates that win most") {
    const Lost lost = lost_marks({{5, 0, 1}, {4, 6, 0}, {0, 6, 0}, {3, 0, 2}});
    const SeatPlan plan = plan_seats({1, 2, 1, 1}, lost);
    CHECK(text_of(plan) == "1: 1=6 2=6");
    CHECK(plan.weight == SeatWeight(12));
    CHECK(plan.bound == SeatWeight(12));
    CHECK(text_of(plan_seats({2, 2, 1, 1}, lost)) == "0: 0=5 3=3 | 1: 1=6 2=6");
}

TEST_CASE("a mark that two lessons teach is won once, in the earlier one") {
    const Lost lost = lost_marks({{9, 2, 3}, {9, 0, 0}});
    const SeatPlan plan = plan_seats({2, 1, 2, 2}, lost);
    CHECK(plan.weight == SeatWeight(9 + 9 + 3));
    CHECK(text_of(plan) == "0: 1=9 | 0 2: 0=12");
    CHECK(text_of(plan_seats({2, 2, 2, 2}, lost)) == "0 1: 0=11 1=9 | 2: 0=3");
}

TEST_CASE("a topic that many need is taught in parallel lessons, evenly filled, and nobody sits it twice") {
    const Lost lost = lost_marks({{9, 1}, {9, 0}, {9, 1}, {9, 0}, {9, 0}});
    CHECK(text_of(plan_seats({2, 4, 1, 2}, lost)) == "0: 0=9 1=9 2=9 | 0: 3=9 4=9");
}

TEST_CASE("a lesson that nobody would win a mark in is there, last and empty") {
    const SeatPlan plan = plan_seats({3, 5, 2, 1}, lost_marks({{0, 0, 4}, {0, 0, 1}}));
    CHECK(text_of(plan) == "2: 0=4 1=1 | : | :");
    CHECK(plan.bound == SeatWeight(5));
}

TEST_CASE("where nobody lost a mark, or nobody is there, all lessons are empty and that is proven") {
    for (const Lost& lost : {lost_marks({{0, 0}, {0, 0}}), lost_marks({{}, {}}), Lost{}}) {
        const SeatPlan plan = plan_seats({2, 3, 2, 1}, lost);
        CHECK(text_of(plan) == ": | :");
        CHECK(plan.weight == SeatWeight(0));
        CHECK(plan.bound == SeatWeight(0));
    }
}

TEST_CASE("limits beyond all there is do no harm") {
    const std::size_t no_limit = static_cast<std::size_t>(-1);
    const SeatPlan plan = plan_seats({2, no_limit / 64, no_limit, no_limit}, lost_marks({{3, 1}, {0, 2}}));
    CHECK(plan.weight == SeatWeight(6));
    CHECK(plan.bound == SeatWeight(6));
    check_plan({2, no_limit, no_limit, no_limit}, lost_marks({{3, 1}, {0, 2}}), plan);
}

TEST_CASE("a plan that is one mark short of everything is not the end of the search") {
    const Lost lost = lost_marks({{2, 6, 0, 1}, {0, 0, 0, 0}, {1, 1, 0, 0}, {8, 7, 1, 0}, {0, 0, 1, 0}});
    const SeatPlan plan = plan_seats({3, 2, 2, 2}, lost);
    CHECK(plan.weight == SeatWeight(28)); // all that was lost
    CHECK(plan.bound == SeatWeight(28));
}

TEST_CASE("where the marks are equal the earlier topics and candidates are taken") {
    CHECK(text_of(plan_seats({1, 1, 1, 1}, lost_marks({{4, 4}, {4, 4}}))) == "0: 0=4");
    CHECK(text_of(plan_seats({1, 2, 1, 1}, lost_marks({{0, 2, 2}, {0, 2, 2}, {0, 2, 2}}))) == "1: 0=2 1=2");
}

TEST_CASE("plans of lesson sizes keep every limit, add up and are the same each time") {
    std::mt19937 dice(1988);
    for (int i = 0; i < 60; ++i) {
        const SeatsRequest request{count(dice, 1, 4), count(dice, 1, 8), count(dice, 1, 2),
                                   count(dice, 1, 3)};
        const Lost lost = any_lost_marks(dice, count(dice, 6, 25), count(dice, 3, 10), 12);
        const SeatPlan plan = plan_seats(request, lost);
        CAPTURE(i, request.lessons, request.places, request.topics_each, request.max_lessons_each,
                text_of(plan));
        check_plan(request, lost, plan);
        CHECK(plan.bound == plan.weight);
        CHECK(text_of(plan_seats(request, lost)) == text_of(plan));
    }
}

TEST_CASE("the order of the candidates doesn't change the marks") {
    std::mt19937 dice(1991);
    for (int i = 0; i < 40; ++i) {
        const SeatsRequest request{count(dice, 1, 4), count(dice, 1, 6), count(dice, 1, 2),
                                   count(dice, 1, 2)};
        Lost lost = any_lost_marks(dice, count(dice, 6, 20), count(dice, 3, 9), 10);
        const SeatWeight marks = plan_seats(request, lost).weight;
        CAPTURE(i);
        for (std::size_t other = lost.size(); other-- > 1;)
            std::swap(lost[other], lost[count(dice, 0, static_cast<int>(other))]);
        CHECK(plan_seats(request, lost).weight == marks);
    }
}

TEST_CASE("more places, lessons or topics, or more lessons a candidate, never win fewer marks") {
    std::mt19937 dice(1994);
    for (int i = 0; i < 40; ++i) {
        const SeatsRequest request{count(dice, 1, 3), count(dice, 1, 5), count(dice, 1, 2),
                                   count(dice, 1, 2)};
        const Lost lost = any_lost_marks(dice, count(dice, 6, 16), count(dice, 4, 8), 10);
        const SeatWeight marks = plan_seats(request, lost).weight;
        CAPTURE(i);
        CHECK(plan_seats({request.lessons, request.places + 1, request.topics_each, request.max_lessons_each},
                         lost)
                  .weight >= marks);
        CHECK(plan_seats({request.lessons + 1, request.places, request.topics_each, request.max_lessons_each},
                         lost)
                  .weight >= marks);
        CHECK(plan_seats({request.lessons, request.places, request.topics_each + 1, request.max_lessons_each},
                         lost)
                  .weight >= marks);
        CHECK(plan_seats({request.lessons, request.places, request.topics_each, request.max_lessons_each + 1},
                         lost)
                  .weight >= marks);
    }
}

TEST_CASE("the plan of a school class of thirty is proven best") {
    std::mt19937 dice(2026);
    const SeatsRequest request{4, 8, 2, 2};
    for (int i = 0; i < 5; ++i) {
        const Lost lost = any_lost_marks(dice, 30, 12, 12);
        const SeatPlan plan = plan_seats(request, lost);
        CAPTURE(i);
        check_plan(request, lost, plan);
        CHECK(plan.bound == plan.weight);
    }
}

#ifdef NDEBUG // a minute each without optimisation; smaller plans take the same ways there
TEST_CASE("a plan for two thousand candidates ends with a bound that holds and is near", "[long]") {
    std::mt19937 dice(2000);
    const SeatsRequest request{6, 30, 2, 2};
    const Lost lost = any_lost_marks(dice, 2000, 20, 12);
    const SeatPlan plan = plan_seats(request, lost);
    check_plan(request, lost, plan);
    CHECK(plan.bound.count() <= plan.weight.count() * 105 / 100);
}

TEST_CASE("where there are too many sets of topics to look at, the plan still has a bound that holds",
          "[long]") {
    std::mt19937 dice(2001);
    const SeatsRequest request{2, 3, 9, 1};
    // Nine of thirty topics are 14 million sets. The first nine outweigh all others, so the best is known.
    Lost lost = any_lost_marks(dice, 6, 30, 1);
    int all = 0;
    for (std::vector<SeatWeight>& row : lost)
        for (std::size_t topic = 0; topic < row.size(); ++topic) {
            row[topic] += SeatWeight(topic < 9 ? 20 : 0);
            all += topic < 9 ? row[topic].count() : 0;
        }
    const SeatPlan plan = plan_seats(request, lost);
    check_plan(request, lost, plan);
    CHECK(plan.weight.count() == all);
    CHECK(plan.bound.count() <= all * 110 / 100);
    CHECK(plan.bound > plan.weight); // topics shared out over more lessons win more here
}
#endif

namespace {

seats::Losses losses_of(const Lost& lost) {
    seats::Losses losses{lost.size(), lost.front().size(), {}, lost.front().size()};
    for (const std::vector<SeatWeight>& row : lost)
        for (const SeatWeight marks : row)
            losses.marks.push_back(marks.count());
    return losses;
}

} // namespace

TEST_CASE("whatever is charged, the bound on a plan is not below the best plan") {
    std::mt19937 dice(1970);
    int near = 0;
    for (int i = 0; i < 150; ++i) {
        const SeatsRequest request{count(dice, 1, 3), count(dice, 1, 2), count(dice, 1, 2),
                                   count(dice, 1, 2)};
        const Lost lost = any_lost_marks(dice, 4, 3, 9);
        const seats::Losses losses = losses_of(lost);
        const seats::Family family = seats::all_sets({0, 1, 2}, request.topics_each, 100);
        seats::SeatBound bounds(losses, family, request.places, request.max_lessons_each);
        const seats::PartialPlan partial{{}, {0, 1, 2}, {request.lessons}};
        const int most = Everything(request, lost).max_marks();
        seats::Budget budget{1'000'000'000};
        CAPTURE(i, request.lessons, request.places, request.topics_each, request.max_lessons_each);
        seats::Charges charges = bounds.first_charges();
        for (int step = 0; step < 20; ++step) {
            const auto telling = step % 5 == 0 ? seats::BoundDetail::of_members : seats::BoundDetail::total;
            CHECK(bounds.bound(partial, charges, telling, budget).marks() >= most);
            for (seats::Amount& charge : charges.seat)
                charge = pick(dice, 0, 1) * pick(dice, 0, 9) * seats::parts_of_a_mark;
            for (seats::Amount& charge : charges.topic)
                charge = pick(dice, 0, 1) * pick(dice, 0, 9) * seats::parts_of_a_mark;
        }
        charges = bounds.first_charges();
        const seats::Bound lowest =
            bounds.lowered(partial, charges, 200, most - 1, budget, [](const seats::Bound&) {});
        CHECK(lowest.marks() >= most);
        near += lowest.marks() <= most + 1 ? 1 : 0;
    }
    CHECK(near > 100);
}

TEST_CASE("where lessons share topics the search finds the best seating, and nothing that beats it") {
    std::mt19937 dice(1972);
    for (int i = 0; i < 200; ++i) {
        const SeatsRequest request{3, count(dice, 1, 3), 2, count(dice, 2, 3)};
        const Lost lost = any_lost_marks(dice, 5, 3, 9);
        const seats::Losses losses = losses_of(lost);
        const int most = Everything(request, lost).max_marks_with({3, 5, 6});
        seats::SeatingSearch seatings(
            losses, {{{0, 1}, request.places}, {{0, 2}, request.places}, {{1, 2}, request.places}},
            request.max_lessons_each);
        seats::Budget budget{1'000'000'000};
        CAPTURE(i, request.places, request.max_lessons_each);
        CHECK_FALSE(seatings.is_additive());
        CHECK(seatings.best_seating(budget).marks <= most);
        const auto better = seatings.search(most - 1, budget);
        REQUIRE(better.best);
        CHECK(better.best->marks == most);
        CHECK(seatings.worth(*better.best) == most);
        CHECK(better.bound == most);
        const auto none = seatings.search(most, budget);
        CHECK_FALSE(none.best);
        CHECK(none.bound <= most);
    }
}

TEST_CASE("a seat that wins nothing is given up when seats are made fewest") {
    const seats::Losses losses = losses_of(lost_marks({{4, 0, 2}, {3, 1, 0}}));
    seats::SeatingSearch seatings(losses, {{{0, 1}, 2}, {{0, 2}, 2}}, 2);
    seats::Budget budget{1'000'000};
    const auto fewest = seatings.with_fewest_seats({{3, 3}, 10}, budget);
    CHECK(fewest.groups_of == std::vector<seats::GroupSet>{2, 1});
}
