// How long the model of what candidates can do takes to fit: a candidate alone, a class, a school. The marks
// are made up from fixed seeds.

#include "inkturn/statistics/abilities.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <random>

namespace {

using namespace inkturn;

constexpr std::size_t papers = 12;
constexpr std::size_t parts = 42;
constexpr std::size_t topics = 14;

/// A tenth of the sittings is missing where there is more than one candidate.
Evidence made_up(std::size_t candidates) {
    std::mt19937 random(5);
    std::normal_distribution<double> normal;
    Evidence evidence;
    evidence.candidates = candidates;
    evidence.topics = topics;
    std::vector<double> ease;
    for (std::size_t part = 0; part < papers * parts; ++part) {
        evidence.parts.push_back({Marks(1 + static_cast<int>(random() % 6)), random() % topics});
        ease.push_back(0.15 * normal(random));
    }
    for (std::size_t candidate = 0; candidate < candidates; ++candidate) {
        const double level = 0.6 + 0.15 * normal(random);
        for (std::size_t paper = 0; paper < papers; ++paper) {
            if (candidates > 1 && random() % 10 == 0)
                continue;
            for (std::size_t part = paper * parts; part < (paper + 1) * parts; ++part) {
                const int marks = evidence.parts[part].max.count();
                const double share = level + ease[part] + 0.3 * normal(random);
                const int earned = std::clamp(static_cast<int>(std::lround(share * marks)), 0, marks);
                evidence.results.push_back({candidate, part, Marks(earned), static_cast<double>(paper) / 2});
            }
        }
    }
    return evidence;
}

double processor_seconds() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

void measure(std::size_t candidates) {
    const Evidence evidence = made_up(candidates);
    double least = 1e9;
    for (int round = 0; round < (candidates > 100 ? 2 : 10); ++round) {
        const double before = processor_seconds();
        const Abilities abilities(evidence);
        least = std::min(least, processor_seconds() - before);
    }
    std::printf("%5zu candidates, %8zu results: %8.1f ms of the processor\n", candidates,
                evidence.results.size(), 1000 * least);
}

} // namespace

int main() {
    for (const std::size_t candidates : {1U, 30U, 2000U})
        measure(candidates);
}
