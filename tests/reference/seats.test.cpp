#include "inkturn/seats/seats.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "reference/glpsol.hpp"
#include "temp_folder.hpp"

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

struct Instance {
    SeatsRequest request;
    std::vector<std::vector<SeatWeight>> lost;
    std::vector<SeatTerms> terms{};
};

std::size_t count(std::mt19937& dice, int least, int most) {
    return static_cast<std::size_t>(pick(dice, least, most));
}

/// Eight to fourteen candidates who compete for places in two or three lessons.
Instance crowded_instance(std::mt19937& engine) {
    Instance instance{{count(engine, 2, 3), count(engine, 2, 4), count(engine, 1, 2), count(engine, 1, 2)},
                      {}};
    const std::size_t candidates = instance.request.lessons == 3 ? 8 : count(engine, 10, 14);
    const std::size_t topics = instance.request.lessons == 3 ? 5 : count(engine, 5, 7);
    instance.lost.resize(candidates);
    for (std::vector<SeatWeight>& row : instance.lost)
        for (std::size_t topic = 0; topic < topics; ++topic)
            row.emplace_back(pick(engine, 0, 2) == 0 ? 0 : pick(engine, 1, 12));
    return instance;
}

/// Some must have a seat, some none, and some can come on one of two dates alone.
void add_terms(std::mt19937& engine, Instance& instance) {
    const Day first = date::year{2026} / 12 / 5;
    for (std::size_t k = 0; k < instance.request.lessons; ++k)
        instance.request.dates.push_back(first + Days{k == 0 ? 0 : 3});
    bool any_must = false;
    for (std::size_t c = 0; c < instance.lost.size(); ++c) {
        const int drawn = pick(engine, 0, 9);
        const bool must = drawn < 2 && !any_must;
        any_must = any_must || must;
        instance.terms.push_back({must, drawn == 9, {}});
        if (!must && pick(engine, 0, 2) == 0)
            instance.terms.back().dates = {first + Days{pick(engine, 0, 1) * 3}};
    }
}

bool may_sit(const Instance& instance, std::size_t candidate, std::size_t k) {
    if (instance.terms.empty())
        return true;
    const SeatTerms& terms = instance.terms[candidate];
    return !terms.never && (terms.dates.empty() || terms.dates.front() == instance.request.dates[k]);
}

std::string term(const std::string& name, std::size_t i, std::size_t j) {
    return name + std::to_string(i) + "_" + std::to_string(j);
}

/// The integer programme in CPLEX LP format: who sits, what is taken, and where a mark is won.
void write_programme(const Instance& instance, const std::filesystem::path& file) {
    const SeatsRequest& request = instance.request;
    const std::size_t candidates = instance.lost.size();
    const std::size_t topics = instance.lost.front().size();
    std::string won;
    std::string rules;
    std::string choices;
    const auto limit = [&](const std::string& sum, std::size_t most) {
        rules += sum + " <= " + std::to_string(most) + "\n";
    };
    for (std::size_t k = 0; k < request.lessons; ++k) {
        std::string seats;
        std::string taken;
        for (std::size_t c = 0; c < candidates; ++c)
            seats += " + " + term("sits", c, k);
        for (std::size_t t = 0; t < topics; ++t)
            taken += " + " + term("takes", t, k) + "\n";
        limit(seats, request.places);
        limit(taken, request.topics_each);
    }
    for (std::size_t c = 0; c < candidates; ++c) {
        std::string lessons;
        for (std::size_t k = 0; k < request.lessons; ++k) {
            lessons += " + " + term("sits", c, k);
            choices += " " + term("sits", c, k) + "\n";
            if (!may_sit(instance, c, k))
                limit(" " + term("sits", c, k), 0);
        }
        if (!instance.terms.empty() && instance.terms[c].must)
            rules += lessons + " >= 1\n";
        limit(lessons, request.max_lessons_each);
        for (std::size_t t = 0; t < topics; ++t) {
            std::string once;
            for (std::size_t k = 0; k < request.lessons; ++k) {
                const std::string here = term(term("wins", c, t), k, 0);
                won += " + " + std::to_string(instance.lost[c][t].count()) + " " + here + "\n";
                limit(" " + here + " - " + term("sits", c, k), 0);
                limit(" " + here + " - " + term("takes", t, k), 0);
                once += " + " + here;
            }
            limit(once, 1);
        }
    }
    for (std::size_t t = 0; t < topics; ++t)
        for (std::size_t k = 0; k < request.lessons; ++k)
            choices += " " + term("takes", t, k) + "\n";
    std::ofstream out(file);
    out << "Maximize\n won:" << won << "Subject To\n" << rules << "Binary\n" << choices << "End\n";
    REQUIRE(out.flush());
}

void check_against_glpsol(int i, const Instance& instance) {
    const TempFolder folder;
    const std::filesystem::path programme = folder.path() / "seats.lp";
    const std::filesystem::path solution = folder.path() / "seats.out";
    write_programme(instance, programme);
    run_glpsol(programme, solution);
    const SeatPlan plan = plan_seats(instance.request, instance.lost, instance.terms);
    CAPTURE(i, instance.request.lessons, instance.request.places, instance.request.topics_each,
            instance.request.max_lessons_each);
    CHECK_THAT(static_cast<double>(plan.weight.count()), WithinAbs(objective(solution), 1e-6));
    CHECK(plan.bound == plan.weight);
}

} // namespace

TEST_CASE("the marks won in lessons are the optimum of GLPK (glpsol) on 30 instances", "[reference][long]") {
    std::mt19937 engine(1979);
    for (int i = 0; i < 30; ++i)
        check_against_glpsol(i, crowded_instance(engine));
}

TEST_CASE(
    "with dates, and those who must or must not have a seat, they are the optimum of GLPK (glpsol) on 30 "
    "instances",
    "[reference][long]") {
    std::mt19937 engine(1980);
    for (int i = 0; i < 30; ++i) {
        Instance instance = crowded_instance(engine);
        add_terms(engine, instance);
        check_against_glpsol(i, instance);
    }
}
