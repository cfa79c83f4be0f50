#include "mixed_model.hpp"

#include "group_sums.hpp"

#include <cmath>

namespace inkturn {
namespace {

using namespace mixed; // the model's own vocabulary

constexpr double log_of_two_pi = 1.8378770664093453;

/// Sums over the parts of a group.
struct GroupTerms {
    VectorXd precision; ///< 1 / rest
    VectorXd drawn;     ///< variance of the weighted sum of its parts' effects, given its data
    VectorXd weight;    ///< kept / rest
    VectorXd counted;   ///< candidates · kept / rest
};

/// What is solved for one set of variances, step by step; the adjoints, named d_, run back through it.
class Solver {
  public:
    Solver(const AlikeEvidence& evidence, const std::vector<MatrixXd>& designs, const MatrixXd& paper_design,
           PaperPrior prior, const Scatters& variances)
        : evidence_(evidence),
          designs_(designs),
          paper_design_(paper_design),
          prior_(prior),
          variances_(variances),
          groups_(index(evidence.groups.size())),
          shared_(index(evidence.shared)),
          kinds_(kind_terms(evidence, variances)) {}

    SolvedModel solve(bool with_slopes) {
        weigh_kinds();
        add_candidates();
        add_parts();
        add_paper();
        solved_.variances = variances_;
        solved_.deviance = deviance_;
        find_part_levels();
        if (with_slopes)
            find_slopes();
        return std::move(solved_);
    }

  private:
    std::size_t candidates_in(const AlikeEvidence::Kind& kind) const {
        return evidence_.groups[kind.group].candidates;
    }

    void weigh_kinds() {
        terms_.precision = terms_.drawn = terms_.weight = terms_.counted = VectorXd::Zero(groups_);
        for (std::size_t k = 0; k < kinds_.size(); ++k) {
            const AlikeEvidence::Kind& kind = evidence_.kinds[k];
            const KindTerms& terms = kinds_[k];
            const auto candidates = static_cast<double>(candidates_in(kind));
            const auto parts = static_cast<double>(kind.parts);
            const Index group = index(kind.group);
            terms_.precision[group] += parts / terms.rest;
            terms_.drawn[group] += parts * terms.part * terms.kept / (terms.rest * terms.rest);
            terms_.weight[group] += parts * terms.kept / terms.rest;
            terms_.counted[group] += parts * candidates * terms.kept / terms.rest;
            deviance_ += parts * (candidates * std::log(terms.rest) - std::log(terms.kept)) +
                         kind.squares / terms.rest;
        }
    }

    VectorXd prior_of(const Pattern& pattern) const {
        VectorXd variances(index(1 + (pattern.trend ? 1 : 0) + pattern.topics.size()));
        variances.setConstant(of(variances_, Scatter::candidate_topic));
        variances[0] = of(variances_, Scatter::candidate);
        if (pattern.trend)
            variances[1] = of(variances_, Scatter::trend);
        return variances;
    }

    void add_candidates() {
        spread_ = MatrixXd::Zero(groups_, groups_);
        pulled_ = VectorXd::Zero(groups_);
        for (std::size_t p = 0; p < evidence_.patterns.size(); ++p)
            add_pattern(evidence_.patterns[p], designs_[p]);
    }

    void add_pattern(const Pattern& pattern, const MatrixXd& design) {
        const VectorXd prior = prior_of(pattern);
        VectorXd precision(index(pattern.did.size()));
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            precision[index(i)] = terms_.precision[index(pattern.did[i].group)];
        MatrixXd information = design.transpose() * precision.asDiagonal() * design;
        information.diagonal() += prior.cwiseInverse();
        const Eigen::LLT<MatrixXd> factor(information);
        const auto members = static_cast<double>(pattern.members.size());
        deviance_ +=
            members * (prior.array().log().sum() + 2 * factor.matrixLLT().diagonal().array().log().sum());
        const MatrixXd covariance = factor.solve(MatrixXd::Identity(prior.size(), prior.size()));
        const MatrixXd reached = design * covariance; // a row a group
        add_spread(pattern, reached, members);
        add_members(pattern, design, covariance);
        solved_.candidate_covariances.push_back(covariance);
    }

    void add_spread(const Pattern& pattern, const MatrixXd& reached, double members) {
        const Index first_topic = pattern.trend ? 2 : 1;
        const bool all = pattern.did.size() == evidence_.groups.size();
        for (std::size_t j = 0; j < pattern.did.size(); ++j) {
            const AlikeEvidence::Did& did = pattern.did[j];
            VectorXd column = reached.col(0);
            if (pattern.trend)
                column += did.time * reached.col(1);
            if (did.topic)
                column += reached.col(first_topic + index(*did.topic));
            if (all) {
                spread_.col(index(j)) += members * column;
                continue;
            }
            double* to = spread_.col(index(did.group)).data();
            for (std::size_t i = 0; i < pattern.did.size(); ++i)
                to[pattern.did[i].group] += members * column[index(i)];
        }
    }

    void add_members(const Pattern& pattern, const MatrixXd& design, const MatrixXd& covariance) {
        MatrixXd squares = MatrixXd::Zero(covariance.rows(), covariance.cols());
        VectorXd sum = VectorXd::Zero(covariance.rows());
        for (std::size_t member = 0; member < pattern.members.size(); ++member) {
            const VectorXd effects = design.transpose() * weighted_sums(pattern, member, kinds_);
            squares.noalias() += effects * effects.transpose();
            sum += effects;
        }
        deviance_ -= squares.cwiseProduct(covariance).sum();
        const VectorXd pulled = design * (covariance * sum);
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            pulled_[index(pattern.did[i].group)] += pulled[index(i)];
        squares_.push_back(squares);
        sums_.push_back(sum);
    }

    /// The parts' own effects.
    void add_parts() {
        const VectorXd root = terms_.drawn.head(shared_).cwiseSqrt();
        const MatrixXd left = MatrixXd::Identity(shared_, shared_) -
                              root.asDiagonal() * spread_.topLeftCorner(shared_, shared_) * root.asDiagonal();
        const Eigen::LLT<MatrixXd> factor(left);
        deviance_ += 2 * factor.matrixLLT().diagonal().array().log().sum();
        solved_.shared_covariance = root.asDiagonal() * factor.solve(MatrixXd(root.asDiagonal()));

        own_.resize(evidence_.parts.size());
        gathered_ = VectorXd::Zero(groups_);
        kept_sums_ = VectorXd::Zero(groups_);
        for (std::size_t i = 0; i < evidence_.parts.size(); ++i) {
            const KindTerms& terms = kinds_[evidence_.parts[i].kind];
            const Index group = index(evidence_.kinds[evidence_.parts[i].kind].group);
            own_[i] = (evidence_.parts[i].sum - pulled_[group]) / terms.rest;
            deviance_ -= terms.part * terms.kept * own_[i] * own_[i];
            gathered_[group] += terms.part * terms.kept * own_[i] / terms.rest;
            kept_sums_[group] += terms.kept * own_[i];
        }
        deviance_ -= gathered_.dot(through(gathered_));
    }

    /// What the candidates and the parts' effects make of a sum over each group.
    template <typename Sums>
    Sums through(const Sums& sums) const {
        const Sums once = spread_ * sums;
        return once + spread_.leftCols(shared_) * (solved_.shared_covariance * once.topRows(shared_));
    }

    /// How the groups' sums of parts follow from sums over groups.
    template <typename Sums>
    Sums carried(const Sums& sums) const {
        Sums result = sums;
        result.topRows(shared_) += solved_.shared_covariance * (spread_.topRows(shared_) * sums);
        return result;
    }

    /// How many of the paper's effects are no topics: they come first.
    Index before_topics() const { return prior_.trend_variance ? 2 : 1; }

    void add_paper_prior(MatrixXd& information) {
        const Index topics = information.rows() - before_topics();
        const double topic = of(variances_, Scatter::topic);
        information.diagonal().tail(topics).array() += 1 / topic;
        deviance_ += static_cast<double>(topics) * std::log(topic);
        if (prior_.level_variance) {
            information(0, 0) += 1 / *prior_.level_variance;
            deviance_ += std::log(*prior_.level_variance);
        }
        if (prior_.trend_variance) {
            information(1, 1) += 1 / *prior_.trend_variance;
            deviance_ += std::log(*prior_.trend_variance);
        }
    }

    void add_paper() {
        const MatrixXd weighted = terms_.weight.asDiagonal() * paper_design_;
        through_weighted_ = through(weighted);
        MatrixXd information = paper_design_.transpose() * terms_.counted.asDiagonal() * paper_design_ -
                               weighted.transpose() * through_weighted_;
        add_paper_prior(information);
        const Eigen::LLT<MatrixXd> factor(information);
        deviance_ += 2 * factor.matrixLLT().diagonal().array().log().sum();
        through_gathered_ = through(gathered_);
        const VectorXd shared_sums = kept_sums_ + terms_.weight.cwiseProduct(through_gathered_);
        const VectorXd pulled = paper_design_.transpose() * shared_sums;
        solved_.paper = factor.solve(pulled);
        deviance_ -= pulled.dot(solved_.paper);
        solved_.paper_covariance = factor.solve(MatrixXd::Identity(information.rows(), information.cols()));
        const double free = prior_.level_variance ? 0 : 1;
        deviance_ += (static_cast<double>(evidence_.results) - free) * log_of_two_pi;
        solved_.by_paper = carried(weighted);
        levels_ = paper_design_ * solved_.paper;
        solved_.group_sums = carried(VectorXd(gathered_ + terms_.weight.cwiseProduct(levels_)));
    }

    /// How the deviance changes with all that it is made of.
    void find_slopes() {
        const MatrixXd paper_squares = solved_.paper_covariance + solved_.paper * solved_.paper.transpose();
        slope_by_paper(paper_squares);
        slope_by_parts(paper_squares);
        for (std::size_t p = 0; p < evidence_.patterns.size(); ++p)
            slope_by_pattern(p);
        slope_by_kinds();
        solved_.slopes = slopes_;
    }

    void find_part_levels() {
        through_total_ = through(VectorXd(gathered_ + terms_.weight.cwiseProduct(levels_)));
        for (std::size_t i = 0; i < evidence_.parts.size(); ++i) {
            const KindTerms& terms = kinds_[evidence_.parts[i].kind];
            const Index group = index(evidence_.kinds[evidence_.parts[i].kind].group);
            const double level = terms.kept * (terms.part * own_[i] + levels_[group] +
                                               terms.part / terms.rest * through_total_[group]);
            solved_.part_levels.push_back(level);
            solved_.part_effects.push_back(level - levels_[group]);
        }
    }

    void slope_by_paper(const MatrixXd& paper_squares) {
        const double topic = of(variances_, Scatter::topic);
        const Index topics = paper_squares.rows() - before_topics();
        of(slopes_, Scatter::topic) = static_cast<double>(topics) / topic -
                                      paper_squares.diagonal().tail(topics).sum() / (topic * topic);
    }

    /// By the weights of the kinds.
    void slope_by_parts(const MatrixXd& paper_squares) {
        d_counted_ = (paper_design_ * paper_squares).cwiseProduct(paper_design_).rowwise().sum();
        d_weight_ = -2 * (paper_design_ * paper_squares).cwiseProduct(through_weighted_).rowwise().sum() -
                    2 * levels_.cwiseProduct(through_gathered_);

        d_drawn_ = VectorXd::Zero(groups_);
        const MatrixXd through_paper = through_weighted_ * solved_.paper_covariance;
        for (Index g = 0; g < shared_; ++g) {
            const double drawn = terms_.drawn[g];
            if (drawn > 0)
                d_drawn_[g] = -(solved_.shared_covariance(g, g) / drawn - 1) / drawn -
                              through_total_[g] * through_total_[g] -
                              through_paper.row(g).dot(through_weighted_.row(g));
        }
        slope_by_part_terms();
    }

    /// What a part's numbers change, by kind.
    void slope_by_part_terms() {
        d_rest_.assign(kinds_.size(), 0);
        d_pulled_ = VectorXd::Zero(groups_);
        for (std::size_t k = 0; k < kinds_.size(); ++k)
            slope_by_kind(k);
        for (std::size_t i = 0; i < evidence_.parts.size(); ++i)
            slope_by_part(i);
    }

    void slope_by_kind(std::size_t k) {
        const KindTerms& terms = kinds_[k];
        const Index group = index(evidence_.kinds[k].group);
        const auto parts = static_cast<double>(evidence_.kinds[k].parts);
        const auto candidates = static_cast<double>(candidates_in(evidence_.kinds[k]));
        const double rest = terms.rest;
        d_rest_[k] += parts * (candidates / rest -
                               2 * d_drawn_[group] * terms.part * terms.kept / (rest * rest * rest) -
                               d_counted_[group] * candidates * terms.kept / (rest * rest) -
                               d_weight_[group] * terms.kept / (rest * rest)) -
                      evidence_.kinds[k].squares / (rest * rest);
        const double d_kept = parts * (-1 / terms.kept + d_drawn_[group] * terms.part / (rest * rest) +
                                       d_counted_[group] * candidates / rest + d_weight_[group] / rest);
        change_kept(k, d_kept);
        if (!terms.alone)
            of(slopes_, Scatter::part) += parts * d_drawn_[group] * terms.kept / (rest * rest);
    }

    void change_kept(std::size_t k, double d_kept) {
        const KindTerms& terms = kinds_[k];
        if (terms.alone)
            return;
        const auto candidates = static_cast<double>(candidates_in(evidence_.kinds[k]));
        const double kept_squared = terms.kept * terms.kept;
        d_rest_[k] += d_kept * kept_squared * terms.part * candidates / (terms.rest * terms.rest);
        of(slopes_, Scatter::part) -= d_kept * kept_squared * candidates / terms.rest;
    }

    void slope_by_part(std::size_t i) {
        const std::size_t k = evidence_.parts[i].kind;
        const KindTerms& terms = kinds_[k];
        const Index group = index(evidence_.kinds[k].group);
        const double own = own_[i];
        const double d_gathered = -2 * through_total_[group];
        change_kept(k, -terms.part * own * own + d_gathered * terms.part * own / terms.rest -
                           2 * levels_[group] * own);
        d_rest_[k] += -d_gathered * terms.part * terms.kept * own / (terms.rest * terms.rest) +
                      2 * solved_.part_levels[i] * own / terms.rest;
        d_pulled_[group] += 2 * solved_.part_levels[i] / terms.rest;
        if (!terms.alone)
            of(slopes_, Scatter::part) +=
                -terms.kept * own * own + d_gathered * terms.kept * own / terms.rest;
    }

    void slope_by_pattern(std::size_t p) {
        const Pattern& pattern = evidence_.patterns[p];
        const MatrixXd& design = designs_[p];
        const MatrixXd& covariance = solved_.candidate_covariances[p];
        const auto members = static_cast<double>(pattern.members.size());
        VectorXd d_pulled(index(pattern.did.size()));
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            d_pulled[index(i)] = d_pulled_[index(pattern.did[i].group)];
        const VectorXd back = design.transpose() * d_pulled;
        const MatrixXd cross = back * sums_[p].transpose();
        const MatrixXd squares = squares_[p] - (cross + cross.transpose()) / 2 +
                                 members * sums_squared(solved_, groups_of(pattern), design);
        const MatrixXd change = members * covariance + covariance * squares * covariance;
        slope_by_prior(pattern, change, members);

        const VectorXd d_precision = (design * change).cwiseProduct(design).rowwise().sum();
        for (std::size_t i = 0; i < pattern.kinds.size(); ++i) {
            const std::size_t k = pattern.kinds[i];
            const auto parts = static_cast<double>(evidence_.kinds[k].parts);
            d_rest_[k] -= parts * d_precision[index(pattern.did_of[i])] / (kinds_[k].rest * kinds_[k].rest);
        }
        slope_by_members(p, design * (covariance * back));
    }

    void slope_by_prior(const Pattern& pattern, const MatrixXd& change, double members) {
        const VectorXd prior = prior_of(pattern);
        const VectorXd slopes =
            members * prior.cwiseInverse() - change.diagonal().cwiseQuotient(prior.cwiseAbs2());
        of(slopes_, Scatter::candidate) += slopes[0];
        if (pattern.trend)
            of(slopes_, Scatter::trend) += slopes[1];
        of(slopes_, Scatter::candidate_topic) += slopes.tail(slopes.size() - (pattern.trend ? 2 : 1)).sum();
    }

    /// By what the members' sums are divided by.
    void slope_by_members(std::size_t p, const VectorXd& back) {
        const Pattern& pattern = evidence_.patterns[p];
        const MatrixXd& design = designs_[p];
        const MatrixXd reached = -2 * design * solved_.candidate_covariances[p] * design.transpose();
        for (std::size_t member = 0; member < pattern.members.size(); ++member) {
            const VectorXd d_sums = reached * weighted_sums(pattern, member, kinds_) + back;
            const double* row = pattern.sums.data() + member * pattern.kinds.size();
            for (std::size_t i = 0; i < pattern.kinds.size(); ++i) {
                const double rest = kinds_[pattern.kinds[i]].rest;
                d_rest_[pattern.kinds[i]] -= row[i] / (rest * rest) * d_sums[index(pattern.did_of[i])];
            }
        }
    }

    void slope_by_kinds() {
        const double rest = of(variances_, Scatter::rest);
        const double steady = of(variances_, Scatter::steady);
        for (std::size_t k = 0; k < kinds_.size(); ++k) {
            const double shrunk = 1 / evidence_.kinds[k].marks;
            of(slopes_, Scatter::rest) += d_rest_[k] * (steady + (1 - steady) * shrunk);
            of(slopes_, Scatter::steady) += d_rest_[k] * rest * (1 - shrunk);
            if (kinds_[k].alone)
                of(slopes_, Scatter::part) += d_rest_[k];
        }
    }

    const AlikeEvidence& evidence_;
    const std::vector<MatrixXd>& designs_;
    const MatrixXd& paper_design_;
    PaperPrior prior_;
    const Scatters& variances_;
    Index groups_;
    Index shared_;

    SolvedModel solved_{};
    double deviance_ = 0;
    Scatters slopes_{};
    std::vector<KindTerms> kinds_;
    GroupTerms terms_;
    MatrixXd spread_;               ///< what candidates' effects take from the precision of groups' sums
    VectorXd pulled_;               ///< the groups' sums that candidates' effects explain
    std::vector<MatrixXd> squares_; ///< by pattern, over its members
    std::vector<VectorXd> sums_;    ///< by pattern, over its members
    std::vector<double> own_;       ///< by part: what candidates' effects leave of its sum, weighted
    VectorXd gathered_;             ///< by group
    VectorXd kept_sums_;            ///< by group
    VectorXd levels_;               ///< by group: level and topic
    VectorXd through_gathered_;
    MatrixXd through_weighted_;
    VectorXd through_total_;
    std::vector<double> d_rest_; ///< by kind
    VectorXd d_counted_;
    VectorXd d_weight_;
    VectorXd d_drawn_;
    VectorXd d_pulled_;
};

MatrixXd design_of(const Pattern& pattern) {
    const Index first_topic = pattern.trend ? 2 : 1;
    MatrixXd design = MatrixXd::Zero(index(pattern.did.size()), first_topic + index(pattern.topics.size()));
    design.col(0).setOnes();
    for (std::size_t i = 0; i < pattern.did.size(); ++i) {
        if (pattern.trend)
            design(index(i), 1) = pattern.did[i].time;
        if (pattern.did[i].topic)
            design(index(i), first_topic + index(*pattern.did[i].topic)) = 1;
    }
    return design;
}

MatrixXd paper_design_of(const AlikeEvidence& evidence, std::size_t topics, bool trend) {
    const std::size_t before_topics = trend ? 2 : 1;
    MatrixXd design = MatrixXd::Zero(index(evidence.groups.size()), index(before_topics + topics));
    design.col(0).setOnes();
    for (std::size_t group = 0; group < evidence.groups.size(); ++group) {
        if (trend)
            design(index(group), 1) = evidence.groups[group].mean_time;
        if (const auto topic = evidence.groups[group].topic)
            design(index(group), index(before_topics + *topic)) = 1;
    }
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
    for (const Pattern& pattern : evidence.patterns)
        designs_.push_back(design_of(pattern));
}

MixedModel::Known MixedModel::known_of(const SolvedModel& solved, std::size_t pattern,
                                       std::size_t member) const {
    const Pattern& did = evidence_.patterns[pattern];
    const MatrixXd& design = designs_[pattern];
    const MatrixXd& own = solved.candidate_covariances[pattern];
    const std::vector<Index> groups = groups_of(did);
    const MatrixXd sums = rows_of(solved.group_sums, groups);
    const MatrixXd reach = own * design.transpose();
    const Index effects = own.rows();
    const Index paper = solved.paper.size();
    Known known{VectorXd(effects + paper), MatrixXd(effects + paper, effects + paper)};
    known.means << reach * (weighted_sums(did, member, kind_terms(evidence_, solved.variances)) - sums),
        solved.paper;
    const MatrixXd across = -reach * rows_of(solved.by_paper, groups) * solved.paper_covariance;
    known.covariance.topLeftCorner(effects, effects) =
        own + own * covariance_of_sums(solved, groups, design) * own;
    known.covariance.topRightCorner(effects, paper) = across;
    known.covariance.bottomLeftCorner(paper, effects) = across.transpose();
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
        const VectorXd own = solved.candidate_covariances[term.pattern] * term.effects;
        const VectorXd by_group = designs_[term.pattern] * own;
        moments.mean += by_group.dot(weighted_sums(pattern, term.member, kinds));
        moments.variance += own.dot(term.effects);
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            reach[index(pattern.did[i].group)] += by_group[index(i)];
    }
    moments.mean -= reach.dot(solved.group_sums);
    const Index shared = solved.shared_covariance.rows();
    const VectorXd left = paper - solved.by_paper.transpose() * reach;
    moments.variance += reach.head(shared).dot(solved.shared_covariance * reach.head(shared)) +
                        left.dot(solved.paper_covariance * left);
    return moments;
}

SolvedModel MixedModel::solve(const Scatters& variances, bool with_slopes) const {
    return Solver(evidence_, designs_, paper_design_, prior_, variances).solve(with_slopes);
}

} // namespace inkturn
