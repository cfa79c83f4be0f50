#pragma once

#include "mixed_model.hpp"

#include "inkturn/base/how_far.hpp"

#include <vector>

namespace inkturn {

/// What is taken as likely before any marks are seen: docs/method.md says why.
struct UsualScatter {
    static constexpr double level = 0.6;            ///< of a paper's marks
    static constexpr double level_deviation = 0.25; ///< of that
    /// Deviations, but for `steady`.
    static constexpr Scatters deviations{0.15, 0.04, 0.15, 0.08, 0.1, 0.4, 0.35};
    static constexpr double common_trend_deviation = 0.1; ///< of what all gain in a unit of time
    static constexpr double rest_weight = 12;             ///< the rest's counts as so many parts
    /// With fewer, one candidate can't be told from the level, nor a part from the rest: both deviations are
    /// the usual ones.
    static constexpr std::size_t min_candidates = 5;
};

/// The scatters that the evidence says something about. The others are the usual ones.
std::vector<Scatter> scatters_to_fit(const AlikeEvidence& evidence, std::size_t topics);

PaperPrior usual_paper(const AlikeEvidence& evidence);

Scatters usual_variances();

/// The variances that are likeliest, of those to fit; the others stay as given. `with_usual` weighs in what
/// is usual, otherwise the evidence alone decides. `least_gain` is of half the deviance, see minimum().
Scatters likeliest(const MixedModel& model, Scatters start, const std::vector<Scatter>& to_fit,
                   bool with_usual, double least_gain);

/// A model with some variances, and how likely these are.
struct WeightedModel {
    double weight; ///< together 1
    SolvedModel model;
};

/// Models with variances spread over what is likely, the likeliest first; it alone where the evidence leaves
/// them hardly any room.
std::vector<WeightedModel> fit(const MixedModel& model, std::size_t topics, const HowFar& told = {});

} // namespace inkturn
