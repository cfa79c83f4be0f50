#pragma once

#include "inkturn/statistics/evidence.hpp"
#include "inkturn/statistics/uncertain_share.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace inkturn {

/// What candidates can do, as marks show it: the linear mixed model of docs/method.md, fitted to evidence.
/// The same evidence gives the same model.
class Abilities {
  public:
    /// Throws Error as check_evidence() does.
    explicit Abilities(const Evidence& evidence);

    /// Those with a result, on which the figures rest.
    std::size_t candidates() const;

    /// The share of their marks that a candidate is to be expected to earn in new parts of a topic: of all
    /// such parts, not of a few of them. A candidate without results is one of whom nothing is known. Throws
    /// Error where there is no such candidate or topic.
    UncertainShare expected(std::size_t candidate, std::size_t topic) const;

    /// The share of its marks that a candidate is to be expected to earn in a new paper of parts like these.
    UncertainShare expected_total(std::size_t candidate, const std::vector<Evidence::Part>& paper) const;

    /// The share to be expected in a part that others did, between 0 and 1.
    double expected_in_part(std::size_t candidate, std::size_t part) const;

    /// How much easier a part was than others of its topic, as a share of its marks; nothing for one that
    /// fewer than two candidates did.
    std::optional<double> part_ease(std::size_t part) const;

  private:
    class Fit;
    std::shared_ptr<const Fit> fit_;
};

} // namespace inkturn
