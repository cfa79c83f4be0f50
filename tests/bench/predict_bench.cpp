// How well marks that were held back are foreseen, beside plain shares: reads files of
// candidate,paper,part,topic,max,marks and prints a line for each. The seeds are fixed, so every run prints
// the same.

#include "inkturn/statistics/abilities.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::size_t number_of(std::map<std::string, std::size_t>& numbers, const std::string& name) {
    return numbers.emplace(name, numbers.size()).first->second;
}

Evidence read(const std::string& file) {
    std::ifstream in(file);
    if (!in)
        throw std::runtime_error("can't read " + file);
    Evidence evidence;
    std::map<std::string, std::size_t> candidates;
    std::map<std::string, std::size_t> parts;
    std::map<std::string, std::size_t> topics;
    std::string line;
    std::getline(in, line); // the header
    while (std::getline(in, line)) {
        std::array<std::string, 6> cells;
        std::istringstream row(line);
        for (std::string& cell : cells)
            std::getline(row, cell, ',');
        const std::size_t part = number_of(parts, cells[1] + "," + cells[2]);
        if (part == evidence.parts.size())
            evidence.parts.push_back({Marks(std::stoi(cells[4])), number_of(topics, cells[3])});
        evidence.results.push_back({number_of(candidates, cells[0]), part, Marks(std::stoi(cells[5])), 0});
    }
    evidence.candidates = candidates.size();
    evidence.topics = topics.size();
    return evidence;
}

/// Some of the candidates, drawn at random and numbered anew.
Evidence drawn(const Evidence& all, std::size_t count, std::mt19937& random) {
    std::vector<std::size_t> candidates(all.candidates);
    for (std::size_t i = 0; i < candidates.size(); ++i)
        candidates[i] = i;
    std::shuffle(candidates.begin(), candidates.end(), random);
    std::map<std::size_t, std::size_t> kept;
    for (std::size_t i = 0; i < std::min(count, candidates.size()); ++i)
        kept.emplace(candidates[i], i);
    Evidence some = all;
    some.candidates = kept.size();
    some.results.clear();
    for (Evidence::Result result : all.results)
        if (const auto found = kept.find(result.candidate); found != kept.end()) {
            result.candidate = found->second;
            some.results.push_back(result);
        }
    return some;
}

double share_of(const Evidence& evidence, const Evidence::Result& result) {
    return static_cast<double>(result.earned.count()) / evidence.parts[result.part].max.count();
}

/// The mean share of candidates, or of parts, half a mark short of both ends where few are known.
struct Mean {
    double sum = 0;
    double count = 0;
    double value(double all) const { return (sum + all) / (count + 1); }
};

enum Method : std::size_t { candidate, part, both, model, methods };
constexpr std::array<const char*, methods> names{"candidate", "part", "both", "model"};

/// The loss of each method, and how its chances and what came of them agree, by tenths.
struct Losses {
    std::array<double, methods> loss{};
    std::array<std::array<double, 10>, methods> foreseen{};
    std::array<std::array<double, 10>, methods> came{};
    std::array<std::array<double, 10>, methods> cells{};
    double count = 0;

    void add(Method method, double foreseen_share, double share) {
        const double p = std::clamp(foreseen_share, 0.01, 0.99);
        loss[method] -= share * std::log(p) + (1 - share) * std::log(1 - p);
        const auto tenth = std::min<std::size_t>(9, static_cast<std::size_t>(p * 10));
        foreseen[method][tenth] += p;
        came[method][tenth] += share;
        cells[method][tenth] += 1;
    }
    /// The mean distance between what was foreseen and what came, over the tenths.
    double off(Method method) const {
        double sum = 0;
        for (std::size_t tenth = 0; tenth < 10; ++tenth)
            sum += std::abs(foreseen[method][tenth] - came[method][tenth]);
        return sum / count;
    }
};

/// Holds a quarter of the results back and foresees them from the others.
void hold_back(const Evidence& all, std::mt19937& random, Losses& losses) {
    Evidence known = all;
    known.results.clear();
    std::vector<Evidence::Result> held;
    for (const Evidence::Result& result : all.results)
        (random() % 4 == 0 ? held : known.results).push_back(result);
    std::vector<Mean> candidates(all.candidates);
    std::vector<Mean> parts(all.parts.size());
    Mean whole;
    for (const Evidence::Result& result : known.results)
        for (Mean* mean : {&candidates[result.candidate], &parts[result.part], &whole}) {
            mean->sum += share_of(all, result);
            ++mean->count;
        }
    const double level = whole.sum / whole.count;
    const Abilities abilities(known);
    std::map<std::size_t, Ability> by_candidate;
    for (const Evidence::Result& result : held) {
        if (parts[result.part].count == 0)
            continue;
        const double share = share_of(all, result);
        const double of_candidate = candidates[result.candidate].value(level);
        const double of_part = parts[result.part].value(level);
        const Ability& ability =
            by_candidate.try_emplace(result.candidate, abilities.of(result.candidate)).first->second;
        losses.add(candidate, of_candidate, share);
        losses.add(part, of_part, share);
        losses.add(both, of_candidate + of_part - level, share);
        losses.add(model, ability.in_part(result.part), share);
        ++losses.count;
    }
}

void print(const std::string& file, std::size_t count, const Losses& losses) {
    const std::string name = file.substr(file.rfind('/') + 1);
    std::printf("%-14s %4zu candidates:", name.substr(0, name.rfind('.')).c_str(), count);
    for (std::size_t method = 0; method < methods; ++method)
        std::printf("  %s %.4f (%.3f)", names[method], losses.loss[method] / losses.count,
                    losses.off(static_cast<Method>(method)));
    std::printf("\n");
}

} // namespace

int main(int count, char** files) try {
    for (int i = 1; i < count; ++i) {
        const Evidence all = read(files[i]);
        for (const std::size_t size : {24U, 200U}) {
            std::mt19937 random(1);
            Losses losses;
            for (int draw = 0; draw < (size == 24 ? 40 : 10); ++draw)
                hold_back(drawn(all, size, random), random, losses);
            print(files[i], std::min(size, all.candidates), losses);
        }
    }
} catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
}
