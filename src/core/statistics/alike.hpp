#pragma once

#include "inkturn/statistics/evidence.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// Evidence with what is alike taken together, so that no sum is formed twice.
struct AlikeEvidence {
    /// Parts of one topic that the same candidates did at the same times.
    struct Group {
        std::size_t candidates = 0;
        std::optional<std::size_t> topic;
        double mean_time = 0; ///< from the origin, over its candidates
    };
    /// Parts of a group with the same marks.
    struct Kind {
        std::size_t group = 0;
        double marks = 0;
        std::size_t parts = 0;
        double squares = 0; ///< of the shares of all its parts and candidates
    };
    struct Part {
        std::size_t kind;
        double sum = 0; ///< of its candidates' shares
    };
    /// One of the groups that a candidate did.
    struct Did {
        std::size_t group;
        double time = 0;                  ///< from the origin; 0 without a trend
        std::optional<std::size_t> topic; ///< position in Pattern::topics
    };
    /// Candidates who did the same groups at the same times.
    struct Pattern {
        std::vector<Did> did;
        std::vector<std::size_t> topics;  ///< of these groups, ascending
        std::vector<std::size_t> kinds;   ///< of these groups
        std::vector<std::size_t> did_of;  ///< of each kind: position in `did`
        std::vector<std::size_t> members; ///< candidates
        std::vector<double> sums;         ///< of shares: a row for each member, an entry for each kind
        std::vector<double> last_times;   ///< of the members, from the origin
        bool trend = false;               ///< three times at least
    };

    double centre = 0;          ///< taken off each share
    double origin = 0;          ///< taken off each time
    std::size_t candidates = 0; ///< with a result
    std::size_t results = 0;
    std::size_t shared = 0; ///< groups of two candidates and more: those before this position
    std::vector<Group> groups;
    std::vector<Kind> kinds;                              ///< by group
    std::vector<Part> parts;                              ///< those with a result, by kind
    std::vector<std::optional<std::size_t>> part_numbers; ///< of the evidence's parts, among these
    std::vector<Pattern> patterns;
    std::vector<std::optional<std::pair<std::size_t, std::size_t>>>
        places; ///< of the evidence's candidates: their pattern, and position among its members
};

constexpr std::size_t min_times_for_trend = 3;

bool has_trend(const AlikeEvidence& evidence); ///< of any candidate

/// The shares less `centre`; times from the origin, or from their mean where none is given.
AlikeEvidence alike(const Evidence& evidence, double centre, std::optional<double> origin = {});

} // namespace inkturn
