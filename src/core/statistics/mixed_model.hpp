#pragma once

#include "alike.hpp"
#include "design.hpp"
#include "variances.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// A linear mixed model with its variances given, solved for one body of evidence:
/// share = level + common trend · time + topic + part + candidate + trend · time + candidate on topic + rest.
/// The names follow docs/method.md; `shared` groups are those of two candidates and more.
struct SolvedModel {
    Scatters variances;
    double deviance = 0;   ///< -2 log of the (restricted) likelihood, with its constants
    Scatters slopes{};     ///< of the deviance by each of `variances`
    dense::VectorXd paper; ///< level, common trend if there is one, topics: means, less AlikeEvidence::centre
    dense::MatrixXd paper_covariance;
    /// The covariance of the shared groups' weighted sums of parts, given level and topics, is the inverse of
    /// what this factor is of, times the scale from both sides.
    dense::Factor shared_factor;
    dense::VectorXd shared_scale;
    dense::MatrixXd by_paper;         ///< of the groups' sums, on level and topics: a row for each group
    dense::VectorXd group_sums;       ///< of parts divided by their rest's variance: means
    std::vector<double> part_levels;  ///< level, topic and part together: means, of AlikeEvidence::parts
    std::vector<double> part_effects; ///< the part's own
    std::vector<dense::MatrixXd> candidate_covariances; ///< by pattern, given the parts
};

/// What is taken as known of papers before any marks.
struct PaperPrior {
    std::optional<double> level_variance; ///< about `centre`; nothing: any level is as likely as any other,
                                          ///< which makes the likelihood a restricted one
    std::optional<double> trend_variance; ///< of what all gain in a unit of time; nothing: they gain nothing
};

/// Of a pattern's groups, of those that others did too, and of those that nobody else did.
struct PatternDesign {
    Design whole;
    Design shared;
    Design alone;
};

/// The evidence laid out for solving.
class MixedModel {
  public:
    MixedModel(const AlikeEvidence& evidence, std::size_t topics, PaperPrior prior);

    /// `slopes` are left out where they are not wanted.
    SolvedModel solve(const Scatters& variances, bool with_slopes = true) const;

    /// What is known of a member of a pattern: its candidate's own level, trend if the pattern has one, then
    /// its topics; after these the paper's level and all topics.
    struct Known {
        dense::VectorXd means;
        dense::MatrixXd covariance;
    };
    Known known_of(const SolvedModel& solved, std::size_t pattern, std::size_t member) const;

    /// A member's part in a sum of effects, in the order of Known.
    struct Term {
        std::size_t pattern;
        std::size_t member;
        dense::VectorXd effects;
    };
    struct Moments {
        double mean;
        double variance;
    };
    /// Of a sum of effects of different members and of the paper.
    Moments moments(const SolvedModel& solved, const std::vector<Term>& terms,
                    const dense::VectorXd& paper) const;

    const AlikeEvidence& evidence() const { return evidence_; }
    bool has_common_trend() const { return prior_.trend_variance.has_value(); }

  private:
    const AlikeEvidence& evidence_;
    PaperPrior prior_;
    std::vector<PatternDesign> designs_; ///< by pattern
    Design paper_design_;                ///< of all groups, at their mean times
};

} // namespace inkturn
