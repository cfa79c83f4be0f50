#include "alike.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

using Result = Evidence::Result;

/// Of each part, who did it when.
using Doers = std::vector<std::pair<std::size_t, double>>;

double mean_time(const Evidence& evidence) {
    if (evidence.results.empty())
        return 0;
    const double sum =
        std::accumulate(evidence.results.begin(), evidence.results.end(), 0.0,
                        [](double so_far, const Result& result) { return so_far + result.time; });
    return sum / static_cast<double>(evidence.results.size());
}

std::vector<const Result*> by_candidate(const Evidence& evidence) {
    std::vector<const Result*> results;
    results.reserve(evidence.results.size());
    for (const Result& result : evidence.results)
        results.push_back(&result);
    std::sort(results.begin(), results.end(), [](const Result* a, const Result* b) {
        return std::tie(a->candidate, a->part) < std::tie(b->candidate, b->part);
    });
    return results;
}

std::vector<Doers> doers(const Evidence& evidence, const std::vector<const Result*>& results) {
    std::vector<Doers> all(evidence.parts.size());
    for (const Result* result : results)
        all[result->part].emplace_back(result->candidate, result->time);
    return all;
}

/// The parts that somebody did, those of one group and of the same marks side by side, groups of several
/// candidates first.
std::vector<std::size_t> parts_in_order(const Evidence& evidence, const std::vector<Doers>& doers) {
    std::vector<std::size_t> order;
    for (std::size_t part = 0; part < doers.size(); ++part)
        if (!doers[part].empty())
            order.push_back(part);
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const Evidence::Part& part_a = evidence.parts[a];
        const Evidence::Part& part_b = evidence.parts[b];
        const bool alone_a = doers[a].size() == 1;
        const bool alone_b = doers[b].size() == 1;
        return std::tie(alone_a, part_a.topic, doers[a], part_a.max, a) <
               std::tie(alone_b, part_b.topic, doers[b], part_b.max, b);
    });
    return order;
}

void add_part(AlikeEvidence& alike, const Evidence& evidence, const std::vector<Doers>& doers,
              std::size_t part, std::optional<std::size_t> before) {
    const Evidence::Part& described = evidence.parts[part];
    const bool same_group =
        before && evidence.parts[*before].topic == described.topic && doers[*before] == doers[part];
    if (!same_group) {
        double times = 0;
        for (const auto& [candidate, time] : doers[part])
            times += time - alike.origin;
        alike.groups.push_back(
            {doers[part].size(), described.topic, times / static_cast<double>(doers[part].size())});
        alike.shared += doers[part].size() > 1 ? 1U : 0U;
    }
    if (!same_group || evidence.parts[*before].max != described.max)
        alike.kinds.push_back({alike.groups.size() - 1, static_cast<double>(described.max.count()), 0, 0});
    ++alike.kinds.back().parts;
    alike.part_numbers[part] = alike.parts.size();
    alike.parts.push_back({alike.kinds.size() - 1, 0});
}

void add_parts(AlikeEvidence& alike, const Evidence& evidence, const std::vector<const Result*>& results) {
    const std::vector<Doers> done = doers(evidence, results);
    alike.part_numbers.resize(evidence.parts.size());
    std::optional<std::size_t> before;
    for (const std::size_t part : parts_in_order(evidence, done)) {
        add_part(alike, evidence, done, part, before);
        before = part;
    }
}

/// What one candidate did: the time of each group, by group, and the sum of shares of each kind.
struct CandidateSums {
    std::map<std::size_t, double> groups;
    std::map<std::size_t, double> kinds;
    double last_time = -std::numeric_limits<double>::infinity();
};

CandidateSums sums_of(AlikeEvidence& alike, const Evidence& evidence, const Result* const* first,
                      const Result* const* last) {
    CandidateSums sums;
    for (; first != last; ++first) {
        const Result& result = **first;
        AlikeEvidence::Part& part = alike.parts[*alike.part_numbers[result.part]];
        AlikeEvidence::Kind& kind = alike.kinds[part.kind];
        const double share =
            static_cast<double>(result.earned.count()) / evidence.parts[result.part].max.count() -
            alike.centre;
        part.sum += share;
        kind.squares += share * share;
        sums.groups[kind.group] = result.time - alike.origin;
        sums.last_time = std::max(sums.last_time, result.time - alike.origin);
        sums.kinds[part.kind] += share;
    }
    return sums;
}

AlikeEvidence::Pattern pattern_of(const AlikeEvidence& alike, const CandidateSums& sums) {
    AlikeEvidence::Pattern pattern;
    std::vector<double> times;
    for (const auto& [group, time] : sums.groups) {
        times.push_back(time);
        if (const auto topic = alike.groups[group].topic)
            pattern.topics.push_back(*topic);
    }
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    std::sort(pattern.topics.begin(), pattern.topics.end());
    pattern.topics.erase(std::unique(pattern.topics.begin(), pattern.topics.end()), pattern.topics.end());
    pattern.trend = times.size() >= min_times_for_trend;

    std::map<std::size_t, std::size_t> position;
    for (const auto& [group, time] : sums.groups) {
        position[group] = pattern.did.size();
        std::optional<std::size_t> topic;
        if (const auto number = alike.groups[group].topic)
            topic = static_cast<std::size_t>(
                std::lower_bound(pattern.topics.begin(), pattern.topics.end(), *number) -
                pattern.topics.begin());
        pattern.did.push_back({group, pattern.trend ? time : 0, topic});
    }
    for (const auto& [kind, sum] : sums.kinds) {
        pattern.kinds.push_back(kind);
        pattern.did_of.push_back(position[alike.kinds[kind].group]);
    }
    return pattern;
}

/// What tells one pattern from another: its groups, with their times if it has a trend.
std::vector<std::pair<std::size_t, double>> key(const AlikeEvidence::Pattern& pattern) {
    std::vector<std::pair<std::size_t, double>> parts;
    for (const AlikeEvidence::Did& did : pattern.did)
        parts.emplace_back(did.group, did.time);
    return parts;
}

void add_patterns(AlikeEvidence& alike, const Evidence& evidence, const std::vector<const Result*>& results) {
    alike.places.resize(evidence.candidates);
    std::map<std::vector<std::pair<std::size_t, double>>, std::size_t> known;
    for (std::size_t first = 0, last = 0; first < results.size(); first = last) {
        const std::size_t candidate = results[first]->candidate;
        while (last < results.size() && results[last]->candidate == candidate)
            ++last;
        const CandidateSums sums = sums_of(alike, evidence, results.data() + first, results.data() + last);
        AlikeEvidence::Pattern made = pattern_of(alike, sums);
        const auto [at, is_new] = known.emplace(key(made), alike.patterns.size());
        if (is_new)
            alike.patterns.push_back(std::move(made));
        AlikeEvidence::Pattern& pattern = alike.patterns[at->second];
        alike.places[candidate].emplace(at->second, pattern.members.size());
        pattern.members.push_back(candidate);
        pattern.last_times.push_back(sums.last_time);
        for (const auto& [kind, sum] : sums.kinds)
            pattern.sums.push_back(sum);
        ++alike.candidates;
    }
}

} // namespace

bool has_trend(const AlikeEvidence& evidence) {
    return std::any_of(evidence.patterns.begin(), evidence.patterns.end(),
                       [](const AlikeEvidence::Pattern& pattern) { return pattern.trend; });
}

AlikeEvidence alike(const Evidence& evidence, double centre, std::optional<double> origin) {
    check_evidence(evidence);
    AlikeEvidence alike;
    alike.centre = centre;
    alike.origin = origin ? *origin : mean_time(evidence);
    alike.results = evidence.results.size();
    const std::vector<const Result*> results = by_candidate(evidence);
    add_parts(alike, evidence, results);
    add_patterns(alike, evidence, results);
    return alike;
}

} // namespace inkturn
