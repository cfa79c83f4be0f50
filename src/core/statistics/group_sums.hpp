#pragma once

#include "mixed_model.hpp"

#include <Eigen/Dense>

#include <cstddef>
#include <vector>

/// What the parts and groups of alike evidence add up to, for solving a mixed model.
namespace inkturn::mixed {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Pattern = AlikeEvidence::Pattern;

inline Index index(std::size_t position) {
    return static_cast<Index>(position);
}

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
VectorXd weighted_sums(const Pattern& pattern, std::size_t member, const std::vector<KindTerms>& kinds);

/// The positions of a pattern's groups, ascending.
std::vector<Index> groups_of(const Pattern& pattern);

MatrixXd rows_of(const MatrixXd& all, const std::vector<Index>& rows);

/// The covariance of the groups' sums of parts, carried over to effects by a design with a row for each
/// group. The groups ascend.
MatrixXd covariance_of_sums(const SolvedModel& solved, std::vector<Index> groups, const MatrixXd& design);

/// The same for the expected products of these sums.
MatrixXd sums_squared(const SolvedModel& solved, const std::vector<Index>& groups, const MatrixXd& design);

} // namespace inkturn::mixed
