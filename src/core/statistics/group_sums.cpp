#include "group_sums.hpp"

#include <algorithm>

namespace inkturn::mixed {
namespace {

KindTerms terms_of(const AlikeEvidence& evidence, const AlikeEvidence::Kind& kind,
                   const Scatters& variances) {
    const std::size_t candidates = evidence.groups[kind.group].candidates;
    KindTerms terms;
    terms.rest = rest_variance(variances, kind.marks);
    terms.alone = candidates == 1;
    if (terms.alone)
        terms.rest += of(variances, Scatter::part);
    else
        terms.part = of(variances, Scatter::part);
    terms.kept = 1 / (1 + terms.part * static_cast<double>(candidates) / terms.rest);
    return terms;
}

MatrixXd block_of(const MatrixXd& all, const std::vector<Index>& rows) {
    if (index(rows.size()) == all.rows())
        return all;
    MatrixXd some(index(rows.size()), index(rows.size()));
    for (Index j = 0; j < some.cols(); ++j)
        for (Index i = 0; i < some.rows(); ++i)
            some(i, j) = all(rows[static_cast<std::size_t>(i)], rows[static_cast<std::size_t>(j)]);
    return some;
}

} // namespace

std::vector<KindTerms> kind_terms(const AlikeEvidence& evidence, const Scatters& variances) {
    std::vector<KindTerms> all;
    all.reserve(evidence.kinds.size());
    for (const AlikeEvidence::Kind& kind : evidence.kinds)
        all.push_back(terms_of(evidence, kind, variances));
    return all;
}

VectorXd weighted_sums(const Pattern& pattern, std::size_t member, const std::vector<KindTerms>& kinds) {
    VectorXd sums = VectorXd::Zero(index(pattern.did.size()));
    const double* row = pattern.sums.data() + member * pattern.kinds.size();
    for (std::size_t i = 0; i < pattern.kinds.size(); ++i)
        sums[index(pattern.did_of[i])] += row[i] / kinds[pattern.kinds[i]].rest;
    return sums;
}

std::vector<Index> groups_of(const Pattern& pattern) {
    std::vector<Index> groups;
    groups.reserve(pattern.did.size());
    for (const AlikeEvidence::Did& did : pattern.did)
        groups.push_back(index(did.group));
    return groups;
}

MatrixXd rows_of(const MatrixXd& all, const std::vector<Index>& rows) {
    MatrixXd some(index(rows.size()), all.cols());
    for (std::size_t i = 0; i < rows.size(); ++i)
        some.row(index(i)) = all.row(rows[i]);
    return some;
}

MatrixXd covariance_of_sums(const SolvedModel& solved, std::vector<Index> groups, const MatrixXd& design) {
    const MatrixXd reached = design.transpose() * rows_of(solved.by_paper, groups);
    // Groups ascend, so those that are shared come first.
    groups.erase(std::lower_bound(groups.begin(), groups.end(), solved.shared_covariance.rows()),
                 groups.end());
    const auto shared_design = design.topRows(index(groups.size()));
    return reached * solved.paper_covariance * reached.transpose() +
           shared_design.transpose() * (block_of(solved.shared_covariance, groups) * shared_design);
}

MatrixXd sums_squared(const SolvedModel& solved, const std::vector<Index>& groups, const MatrixXd& design) {
    const VectorXd summed = design.transpose() * rows_of(solved.group_sums, groups);
    return covariance_of_sums(solved, groups, design) + summed * summed.transpose();
}

} // namespace inkturn::mixed
