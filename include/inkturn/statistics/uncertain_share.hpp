#pragma once

#include "inkturn/base/interval.hpp"

#include <vector>

namespace inkturn {

/// A share of marks that is known up to a scatter: a mixture of normal distributions, cut off at 0 and 1.
class UncertainShare {
  public:
    struct Normal {
        double weight; ///< above 0
        double mean;
        double deviation; ///< above 0
    };

    /// At least one. Their weights need not add up to 1.
    explicit UncertainShare(std::vector<Normal> normals);

    double mean() const;
    /// The chance that it is below a share.
    double below(double share) const;
    /// The share that it is below with this chance, above 0 and below 1; to 1e-9.
    double quantile(double chance) const;
    /// From the quantile that leaves half of the rest below it to the one that leaves half above.
    Interval range(double confidence) const;
    /// Any of several, at least one, each as likely as the others.
    friend UncertainShare mixture(const std::vector<UncertainShare>& shares);

  private:
    std::vector<Normal> normals_; ///< weighted by what of them lies within 0 and 1; together 1
};

UncertainShare mixture(const std::vector<UncertainShare>& shares);

} // namespace inkturn
