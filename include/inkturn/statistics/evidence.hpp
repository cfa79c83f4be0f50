#pragma once

#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// The marks that say what candidates can do. Candidates, parts and topics are numbered from 0.
struct Evidence {
    struct Part {
        Marks max;                        ///< above 0
        std::optional<std::size_t> topic; ///< nothing: none stated
    };
    struct Result {
        std::size_t candidate;
        std::size_t part;
        Marks earned; ///< 0 to the part's max
        double time;  ///< when, in spans of 28 days from a day that all results have in common
    };

    std::size_t candidates = 0; ///< with results or without
    std::size_t topics = 0;
    std::vector<Part> parts;
    std::vector<Result> results; ///< at most one of a candidate in a part
};

/// Throws Error where a number names nothing, marks are not the part's, a time is not finite, or a candidate
/// has a part twice.
void check_evidence(const Evidence& evidence);

} // namespace inkturn
