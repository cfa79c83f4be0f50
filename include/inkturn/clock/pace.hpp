#pragma once

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// The times to keep beside a paper while it is sat.
struct Pace {
    struct PacedPart {
        std::size_t position; ///< in Paper::parts()
        Seconds allowance;
        std::optional<Seconds> by; ///< working time; nothing from the first part on of a choice not made yet
    };

    Paper paper;
    ExtraTime extra;
    std::vector<PacedPart> parts; ///< those to be sat
    Marks marks;                  ///< that count
    Seconds length;               ///< what these buy
    bool has_choice = false;      ///< between questions to be sat: more of them than count
};

/// Of the parts at the positions `set`, or of all.
Pace pace_of(const Paper& paper, ExtraTime extra, const std::optional<std::vector<std::size_t>>& set = {});

} // namespace inkturn
