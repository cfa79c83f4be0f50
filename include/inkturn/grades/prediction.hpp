#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/uncertain_share.hpp"

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace inkturn {

/// What the next unseen paper may bring in time.
struct Prediction {
    struct Range {
        Marks low;
        Marks high;
    };
    Marks total; ///< out of which
    Marks middle;
    Range half; ///< holds it as often as not: 50%
    Range most; ///< 90%

    static constexpr std::size_t min_papers = 3;
};

/// Of a total above 0. Ends are rounded outwards.
Prediction prediction(const UncertainShare& share, Marks total);

/// The share that the next unseen paper of a subject may bring a candidate; nothing where that can't be told.
using NextPaper = std::function<std::optional<UncertainShare>(const std::string& subject)>;

/// The subjects of the candidate's whole papers that `subject` covers, each in its first sitting.
std::set<std::string> subjects_sat_whole(const Candidate& candidate, std::string_view subject);

/// The subject of the candidate's whole papers, each in its first sitting, if an empty `subject` covers
/// several only where they share one. Nothing below Prediction::min_papers of them.
std::optional<std::string> predictable_subject(const Candidate& candidate, std::string_view subject);

} // namespace inkturn
