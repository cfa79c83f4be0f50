#include "mixed_model.hpp"

#include "group_sums.hpp"
#include "solver.hpp"

#include <utility>

namespace inkturn {

using namespace dense;
using namespace mixed;

namespace {

Design design_of(const Pattern& pattern) {
    Design design(pattern.trend, pattern.topics.size());
    for (const AlikeEvidence::Did& did : pattern.did)
        design.add(did.group, did.time, did.topic);
    return design;
}

Design paper_design_of(const AlikeEvidence& evidence, std::size_t topics, bool trend) {
    Design design(trend, topics);
    for (std::size_t group = 0; group < evidence.groups.size(); ++group)
        design.add(group, evidence.groups[group].mean_time, evidence.groups[group].topic);
    return design;
}

} // namespace

double rest_variance(const Scatters& variances, double marks) {
    const double steady = of(variances, Scatter::steady);
    return of(variances, Scatter::rest) * (steady + (1 - steady) / marks);
}

MixedModel::MixedModel(const AlikeEvidence& evidence, std::size_t topics, PaperPrior prior)
    : evidence_(evidence),
      prior_(prior),
      paper_design_(paper_design_of(evidence, topics, prior.trend_variance.has_value())) {
    for (const Pattern& pattern : evidence.patterns) {
        Design whole = design_of(pattern);
        Design shared = whole.before(evidence.shared);
        Design alone = whole.from(evidence.shared);
        designs_.push_back({std::move(whole), std::move(shared), std::move(alone)});
    }
}

MixedModel::Known MixedModel::known_of(const SolvedModel& solved, std::size_t pattern,
                                       std::size_t member) const {
    const Design& design = designs_[pattern].whole;
    const MatrixXd& own = solved.candidate_covariances[pattern];
    const MatrixXd by_paper = design.groups_added_up(solved.by_paper);
    const MatrixXd half =
        solved.shared_factor.forward(designs_[pattern].shared.weighted(solved.shared_scale));
    const VectorXd sums = design.added_up(
        weighted_sums(evidence_.patterns[pattern], member, kind_terms(evidence_, solved.variances)));
    const Index effects = own.rows();
    const Index paper = solved.paper.size();
    Known known{VectorXd(effects + paper), MatrixXd(effects + paper, effects + paper)};
    known.means.head(effects) = times(own, sums - design.groups_added_up(solved.group_sums).col(0));
    known.means.tail(paper) = solved.paper;
    const MatrixXd across = product(product(own, by_paper), solved.paper_covariance);
    known.covariance.topLeftCorner(effects, effects) =
        own + sandwich(own, sandwich(by_paper, solved.paper_covariance) + inner(half, half));
    known.covariance.topRightCorner(effects, paper) = -across;
    known.covariance.bottomLeftCorner(paper, effects) = -across.transpose();
    known.covariance.bottomRightCorner(paper, paper) = solved.paper_covariance;
    return known;
}

MixedModel::Moments MixedModel::moments(const SolvedModel& solved, const std::vector<Term>& terms,
                                        const VectorXd& paper) const {
    const std::vector<KindTerms> kinds = kind_terms(evidence_, solved.variances);
    VectorXd reach = VectorXd::Zero(index(evidence_.groups.size())); // how the sum leans on the groups' sums
    Moments moments{solved.paper.dot(paper), 0};
    for (const Term& term : terms) {
        const Pattern& pattern = evidence_.patterns[term.pattern];
        const VectorXd own = times(solved.candidate_covariances[term.pattern], term.effects);
        const VectorXd by_row = designs_[term.pattern].whole.reached(own);
        moments.mean += by_row.dot(weighted_sums(pattern, term.member, kinds));
        moments.variance += own.dot(term.effects);
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            reach[index(pattern.did[i].group)] += by_row[index(i)];
    }
    moments.mean -= reach.dot(solved.group_sums);
    const Index shared = solved.shared_scale.size();
    const MatrixXd half = solved.shared_factor.forward(solved.shared_scale.cwiseProduct(reach.head(shared)));
    const VectorXd left = paper - inner(solved.by_paper, reach).col(0);
    moments.variance += half.squaredNorm() + left.dot(times(solved.paper_covariance, left));
    return moments;
}

SolvedModel MixedModel::solve(const Scatters& variances, bool with_slopes) const {
    return inkturn::solve(evidence_, designs_, paper_design_, prior_, variances, with_slopes);
}

} // namespace inkturn
