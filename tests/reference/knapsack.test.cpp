#include "core/practice/knapsack.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "reference/glpsol.hpp"
#include "temp_folder.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Twelve to thirty questions of 2 to 15 marks, at 72 s a mark or at some other pace.
std::vector<Offer> any_offers(std::mt19937& engine) {
    std::vector<Offer> offers;
    const bool by_the_rule = pick(engine, 0, 1) == 0;
    for (int count = pick(engine, 12, 30); count > 0; --count) {
        const Seconds time(pick(engine, 2, 15) * (by_the_rule ? 72 : pick(engine, 63, 88)));
        const bool never_sat = pick(engine, 0, 2) == 0;
        offers.push_back({time, never_sat, pick(engine, 1, 5), never_sat ? 0 : pick(engine, 21, 60)});
    }
    return offers;
}

/// What one question adds to each of the sums, in the order in which they count.
std::vector<std::int64_t> gains_of(const Offer& offer) {
    const std::int64_t time = offer.time.count();
    return {time, offer.never_sat ? time : 0, time * offer.weakness, time * offer.preference};
}

std::string sum_of(const std::vector<Offer>& offers, std::size_t gain) {
    std::string sum;
    for (std::size_t i = 0; i < offers.size(); ++i)
        sum += " + " + std::to_string(gains_of(offers[i])[gain]) + " q" + std::to_string(i) + "\n";
    return sum;
}

/// The programme in CPLEX LP format that makes the next sum as large as possible, those before it as they
/// were found.
void write_programme(const std::vector<Offer>& offers, Seconds time, const std::vector<std::int64_t>& found,
                     const std::filesystem::path& file) {
    std::ofstream out(file);
    out << "Maximize\n gain:" << sum_of(offers, found.size()) << "Subject To\n"
        << sum_of(offers, 0) << " <= " << time.count() << '\n';
    for (std::size_t gain = 0; gain < found.size(); ++gain)
        out << sum_of(offers, gain) << " >= " << found[gain] << '\n';
    out << "Binary\n";
    for (std::size_t i = 0; i < offers.size(); ++i)
        out << " q" << i << '\n';
    out << "End\n";
    REQUIRE(out.flush());
}

} // namespace

TEST_CASE("the time is filled, and each preference after it met, as well as by GLPK (glpsol) on 40 instances",
          "[reference][long]") {
    const TempFolder folder;
    const std::filesystem::path programme = folder.path() / "filling.lp";
    const std::filesystem::path solution = folder.path() / "filling.out";
    std::mt19937 engine(1957);
    for (int i = 0; i < 40; ++i) {
        const std::vector<Offer> offers = any_offers(engine);
        const Seconds time = std::chrono::minutes{20 + static_cast<int>(engine() % 60)};
        std::vector<std::int64_t> found;
        while (found.size() < 4) {
            write_programme(offers, time, found, programme);
            run_glpsol(programme, solution);
            found.push_back(std::llround(objective(solution)));
        }
        std::vector<std::int64_t> ours(4);
        for (const std::size_t position : fullest(offers, time))
            for (std::size_t gain = 0; gain < 4; ++gain)
                ours[gain] += gains_of(offers[position])[gain];
        CAPTURE(i, offers.size(), time.count());
        CHECK(ours == found);
    }
}
