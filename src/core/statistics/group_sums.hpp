#pragma once

#include "mixed_model.hpp"

#include <cstddef>
#include <vector>

/// What the parts and groups of alike evidence add up to, for solving a mixed model.
namespace inkturn::mixed {

using Pattern = AlikeEvidence::Pattern;

/// What follows from the variances for the parts of one kind. A part that a single candidate did has its own
/// effect counted into the rest, from which it can't be told.
struct KindTerms {
    double rest = 0; ///< variance
    double part = 0; ///< variance of the part's own effect; 0 where it is in the rest
    double kept = 1; ///< the weight of the rest in a part's mean: 1 / (1 + part · candidates / rest)
    bool alone = true;
};

/// Of all kinds, in their order.
std::vector<KindTerms> kind_terms(const AlikeEvidence& evidence, const Scatters& variances);

/// A member's shares, each divided by its rest's variance, added up by group.
dense::VectorXd weighted_sums(const Pattern& pattern, std::size_t member,
                              const std::vector<KindTerms>& kinds);

} // namespace inkturn::mixed
