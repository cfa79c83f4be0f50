#pragma once

#include "inkturn/base/how_far.hpp"
#include "inkturn/statistics/evidence.hpp"
#include "inkturn/statistics/uncertain_share.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace inkturn {

/// What one candidate can do, as marks show it.
class Ability {
  public:
    /// The share of their marks that the candidate is to be expected to earn in new parts of a topic: of all
    /// such parts, not of a few of them. Throws Error where there is no such topic.
    UncertainShare on_topic(std::size_t topic) const;

    /// The share of its marks that the candidate is to be expected to earn in a new paper of parts like
    /// these, at least one. Throws Error where there is no such topic.
    UncertainShare in_paper(const std::vector<Evidence::Part>& paper) const;

    /// The share to be expected in a part of the evidence, between 0 and 1. Throws Error where nobody did it.
    double in_part(std::size_t part) const;

  private:
    friend class Abilities;
    class Known;
    explicit Ability(std::shared_ptr<const Known> known) : known_(std::move(known)) {}
    std::shared_ptr<const Known> known_;
};

/// What candidates can do: the linear mixed model of docs/method.md, fitted to evidence. The same evidence
/// gives the same model.
class Abilities {
  public:
    /// Throws Error as check_evidence() does.
    explicit Abilities(const Evidence& evidence, const HowFar& told = {});

    /// Those with a result, on which the figures rest.
    std::size_t candidates() const;

    /// A candidate without results is one of whom nothing is known. Throws Error where there is none.
    Ability of(std::size_t candidate) const;

    /// The average over some candidates, at least one, of what they are to be expected to earn in new parts
    /// of a topic. Throws Error where there is no such candidate or topic.
    UncertainShare average(const std::vector<std::size_t>& candidates, std::size_t topic) const;

    /// How much easier a part was than others of its topic, as a share of its marks; nothing for one that
    /// fewer than two candidates did.
    std::optional<double> part_ease(std::size_t part) const;

  private:
    std::shared_ptr<const class FittedAbilities> fit_;
};

} // namespace inkturn
