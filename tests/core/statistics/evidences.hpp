#pragma once

#include "dice.hpp"
#include "inkturn/statistics/evidence.hpp"

namespace inkturn::test {

/// A few candidates who did most of some papers of three parts each, at times that now and then differ; some
/// parts have no topic.
inline Evidence dealt_evidence(std::mt19937& dice, std::size_t candidates, std::size_t papers, int topics) {
    Evidence evidence;
    evidence.candidates = candidates;
    evidence.topics = static_cast<std::size_t>(topics);
    for (std::size_t part = 0; part < 3 * papers; ++part) {
        std::optional<std::size_t> topic;
        if (topics > 0 && pick(dice, 0, 4) > 0)
            topic = static_cast<std::size_t>(pick(dice, 0, topics - 1));
        evidence.parts.push_back({Marks(pick(dice, 1, 5)), topic});
    }
    for (std::size_t candidate = 0; candidate < candidates; ++candidate)
        for (std::size_t paper = 0; paper < papers; ++paper) {
            if (pick(dice, 0, 3) == 0)
                continue;
            const double time = static_cast<double>(paper) + (pick(dice, 0, 4) == 0 ? 0.5 : 0.0);
            for (std::size_t part = 3 * paper; part < 3 * paper + 3; ++part)
                if (pick(dice, 0, 9) > 0)
                    evidence.results.push_back(
                        {candidate, part, Marks(pick(dice, 0, evidence.parts[part].max.count())), time});
        }
    return evidence;
}

} // namespace inkturn::test
