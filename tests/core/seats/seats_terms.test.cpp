#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/seats/seats.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

using Lost = std::vector<std::vector<SeatWeight>>;

const Day saturday = date::year{2026} / 12 / 5;
const Day tuesday = date::year{2026} / 12 / 8;

std::size_t among(std::mt19937& dice, int least, int most) {
    return static_cast<std::size_t>(pick(dice, least, most));
}

struct Instance {
    SeatsRequest request;
    Lost lost;
    std::vector<SeatTerms> terms;
};

Instance drawn_instance(std::mt19937& dice) {
    Instance instance{{2, among(dice, 1, 3), among(dice, 1, 2), among(dice, 1, 2)},
                      Lost(among(dice, 3, 5), std::vector<SeatWeight>(among(dice, 1, 3))),
                      {}};
    if (pick(dice, 0, 3) > 0)
        instance.request.dates =
            pick(dice, 0, 1) == 0 ? std::vector<Day>{saturday, tuesday} : std::vector<Day>{tuesday, tuesday};
    for (auto& row : instance.lost) {
        for (SeatWeight& weight : row)
            weight = SeatWeight(pick(dice, 0, 2) == 0 ? 0 : pick(dice, 1, 9));
        SeatTerms terms{pick(dice, 0, 3) == 0, pick(dice, 0, 5) == 0};
        for (const Day day : {saturday, tuesday})
            if (pick(dice, 0, 2) == 0)
                terms.dates.push_back(day);
        instance.terms.push_back(terms);
    }
    return instance;
}

bool may_sit(const Instance& instance, std::size_t candidate, std::size_t lesson) {
    const SeatTerms& terms = instance.terms[candidate];
    return !terms.never &&
           (terms.dates.empty() || instance.request.dates.empty() ||
            std::count(terms.dates.begin(), terms.dates.end(), instance.request.dates[lesson]) > 0);
}

/// The most that can be won where all who must have a seat; nothing where they can't. Tries every set of
/// topics for both lessons and every lesson for everybody.
std::optional<int> most_won(const Instance& instance) {
    const std::size_t topics = instance.lost.front().size();
    const std::size_t candidates = instance.lost.size();
    std::optional<int> most;
    const auto bits = [](unsigned set) { return __builtin_popcount(set); };
    const auto fits = [&](unsigned set) {
        return bits(set) <= static_cast<int>(instance.request.topics_each);
    };
    for (unsigned first = 0; first < 1U << topics; ++first)
        for (unsigned second = 0; second < 1U << topics; ++second) {
            if (!fits(first) || !fits(second))
                continue;
            for (unsigned seating = 0; seating < 1U << (2 * candidates); ++seating) {
                std::size_t loads[2] = {0, 0};
                int won = 0;
                bool is_allowed = true;
                for (std::size_t c = 0; c < candidates && is_allowed; ++c) {
                    const unsigned sits = seating >> (2 * c) & 3U;
                    unsigned taught = 0;
                    for (std::size_t lesson = 0; lesson < 2; ++lesson)
                        if ((sits >> lesson & 1U) != 0) {
                            ++loads[lesson];
                            is_allowed = is_allowed && may_sit(instance, c, lesson);
                            taught |= lesson == 0 ? first : second;
                        }
                    is_allowed = is_allowed &&
                                 bits(sits) <= static_cast<int>(instance.request.max_lessons_each) &&
                                 (sits != 0 || !instance.terms[c].must);
                    for (std::size_t topic = 0; topic < topics; ++topic)
                        if ((taught >> topic & 1U) != 0)
                            won += instance.lost[c][topic].count();
                }
                if (is_allowed && loads[0] <= instance.request.places && loads[1] <= instance.request.places)
                    most = std::max(most.value_or(0), won);
            }
        }
    return most;
}

void check_terms_are_met(const Instance& instance, const SeatPlan& plan) {
    std::vector<std::size_t> seats(instance.lost.size(), 0);
    for (std::size_t lesson = 0; lesson < plan.lessons.size(); ++lesson) {
        CHECK(
            plan.lessons[lesson].date ==
            (instance.request.dates.empty() ? std::nullopt : std::optional(instance.request.dates[lesson])));
        for (const SeatPlan::Seat& seat : plan.lessons[lesson].seats) {
            CHECK(may_sit(instance, seat.candidate, lesson));
            CHECK((seat.weight > SeatWeight(0) || instance.terms[seat.candidate].must));
            ++seats[seat.candidate];
        }
    }
    for (std::size_t i = 0; i < seats.size(); ++i) {
        CHECK((seats[i] > 0 || !instance.terms[i].must));
        CHECK(seats[i] <= instance.request.max_lessons_each);
    }
}

} // namespace

TEST_CASE("with those who must, must not or can't come on a date, no seating of any topics wins more") {
    std::mt19937 dice(2026);
    int planned = 0;
    int refused = 0;
    for (int round = 0; round < 120; ++round) {
        const Instance instance = drawn_instance(dice);
        CAPTURE(round, instance.request.places, instance.request.topics_each,
                instance.request.max_lessons_each, instance.lost.size());
        const auto most = most_won(instance);
        const bool can_be = musts_without_place(instance.request, instance.terms).empty();
        CHECK(can_be == most.has_value());
        if (!can_be) {
            CHECK_THROWS_AS(plan_seats(instance.request, instance.lost, instance.terms), Error);
            ++refused;
            continue;
        }
        const SeatPlan plan = plan_seats(instance.request, instance.lost, instance.terms);
        CHECK(plan.weight.count() == *most);
        CHECK(plan.bound == plan.weight);
        check_terms_are_met(instance, plan);
        ++planned;
    }
    CHECK(planned > 80);
    CHECK(refused > 5);
}

TEST_CASE("who must have a seat has it before those who would win more") {
    const Lost lost{{SeatWeight(9)}, {SeatWeight(0)}, {SeatWeight(5)}};
    const SeatPlan plan = plan_seats({1, 2}, lost, {{}, {true}, {}});
    REQUIRE(plan.lessons.front().seats.size() == 2);
    CHECK(plan.lessons.front().seats[0].candidate == 0);
    CHECK(plan.lessons.front().seats[1].candidate == 1);
    CHECK(plan.weight == SeatWeight(9));
    CHECK(plan.bound == SeatWeight(9));
}

TEST_CASE("who must have a seat has it though nobody lost a mark on anything") {
    const SeatPlan plan = plan_seats({1, 2}, {{SeatWeight(0)}, {SeatWeight(0)}}, {{true}, {}});
    REQUIRE(plan.lessons.front().seats.size() == 1);
    CHECK(plan.lessons.front().topics == std::vector<std::size_t>{0});
    CHECK(plan.weight == SeatWeight(0));
}

TEST_CASE("a place is made for one who must by moving another who must to the other date") {
    const SeatsRequest request{2, 1, 1, 1, {saturday, tuesday}};
    const std::vector<SeatTerms> terms{{true}, {true, false, {saturday}}};
    CHECK(musts_without_place(request, terms).empty());
    CHECK(musts_without_place(request, {{true, false, {saturday}}, {true, false, {saturday}}}) ==
          std::vector<std::size_t>{1});
    CHECK(musts_without_place(request, {{true, true}}) == std::vector<std::size_t>{0});
}

TEST_CASE("plans for thirty candidates with dates and musts are proven best") {
    std::mt19937 dice(7);
    for (int round = 0; round < 4; ++round) {
        Lost lost(30, std::vector<SeatWeight>(12));
        std::vector<SeatTerms> terms(30);
        for (std::size_t i = 0; i < lost.size(); ++i) {
            for (SeatWeight& weight : lost[i])
                weight = SeatWeight(pick(dice, 0, 2) == 0 ? pick(dice, 1, 150) : 0);
            terms[i].must = pick(dice, 0, 9) == 0;
            if (pick(dice, 0, 1) == 0)
                terms[i].dates = {pick(dice, 0, 1) == 0 ? saturday : tuesday};
        }
        const SeatPlan plan = plan_seats({3, 8, 2, 1, {saturday, saturday, tuesday}}, lost, terms);
        CHECK(plan.bound == plan.weight);
    }
}
