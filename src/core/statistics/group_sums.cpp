#include "group_sums.hpp"

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

} // namespace

std::vector<KindTerms> kind_terms(const AlikeEvidence& evidence, const Scatters& variances) {
    std::vector<KindTerms> all;
    all.reserve(evidence.kinds.size());
    for (const AlikeEvidence::Kind& kind : evidence.kinds)
        all.push_back(terms_of(evidence, kind, variances));
    return all;
}

dense::VectorXd weighted_sums(const Pattern& pattern, std::size_t member,
                              const std::vector<KindTerms>& kinds) {
    dense::VectorXd sums = dense::VectorXd::Zero(dense::index(pattern.did.size()));
    const double* row = pattern.sums.data() + member * pattern.kinds.size();
    for (std::size_t i = 0; i < pattern.kinds.size(); ++i)
        sums[dense::index(pattern.did_of[i])] += row[i] / kinds[pattern.kinds[i]].rest;
    return sums;
}

} // namespace inkturn::mixed
