#include "solver.hpp"

#include "group_sums.hpp"

#include <cmath>

namespace inkturn {
namespace {

using namespace dense;
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
    Solver(const AlikeEvidence& evidence, const std::vector<PatternDesign>& designs,
           const Design& paper_design, PaperPrior prior, const Scatters& variances)
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
        add_sums();
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
        spread_ = MatrixXd::Zero(shared_, shared_);
        pulled_ = VectorXd::Zero(groups_);
        for (std::size_t p = 0; p < evidence_.patterns.size(); ++p)
            add_pattern(evidence_.patterns[p], designs_[p]);
        for (Index j = 0; j < shared_; ++j)
            spread_.row(j).tail(shared_ - j) = spread_.col(j).tail(shared_ - j);
    }

    void add_pattern(const Pattern& pattern, const PatternDesign& design) {
        const VectorXd prior = prior_of(pattern);
        VectorXd precision(index(pattern.did.size()));
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            precision[index(i)] = terms_.precision[index(pattern.did[i].group)];
        MatrixXd information = design.whole.information(precision);
        information.diagonal() += prior.cwiseInverse();
        const Factor factor(std::move(information));
        const auto members = static_cast<double>(pattern.members.size());
        deviance_ += members * (prior.array().log().sum() + factor.log_determinant());
        solved_.candidate_covariances.push_back(factor.inverse());
        design.shared.add_covariance(solved_.candidate_covariances.back(), members, spread_);
        add_members(pattern, design.whole, solved_.candidate_covariances.back());
    }

    void add_members(const Pattern& pattern, const Design& design, const MatrixXd& covariance) {
        MatrixXd squares = MatrixXd::Zero(covariance.rows(), covariance.cols());
        VectorXd sum = VectorXd::Zero(covariance.rows());
        for (std::size_t member = 0; member < pattern.members.size(); ++member) {
            const VectorXd effects = design.added_up(weighted_sums(pattern, member, kinds_));
            squares += outer(effects, effects);
            sum += effects;
        }
        deviance_ -= squares.cwiseProduct(covariance).sum();
        const VectorXd pulled = design.reached(times(covariance, sum));
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            pulled_[index(pattern.did[i].group)] += pulled[index(i)];
        squares_.push_back(std::move(squares));
        sums_.push_back(std::move(sum));
    }

    /// The parts' own effects.
    void add_parts() {
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
    }

    /// What candidates' effects make of sums over groups.
    MatrixXd spread_times(const MatrixXd& by_group) const {
        MatrixXd result(groups_, by_group.cols());
        result.topRows(shared_) = product(spread_, by_group.topRows(shared_));
        result.bottomRows(groups_ - shared_).setZero();
        for (std::size_t p = 0; p < designs_.size(); ++p)
            if (designs_[p].alone.rows() > 0)
                add_spread_alone(p, by_group, result);
        return result;
    }

    /// What `spread_` leaves out: where a pattern's groups that nobody else did come in.
    void add_spread_alone(std::size_t p, const MatrixXd& by_group, MatrixXd& result) const {
        const MatrixXd covariance =
            static_cast<double>(evidence_.patterns[p].members.size()) * solved_.candidate_covariances[p];
        const MatrixXd alone = product(covariance, designs_[p].alone.groups_added_up(by_group));
        const MatrixXd shared = product(covariance, designs_[p].shared.groups_added_up(by_group));
        designs_[p].shared.add_reached(alone, result);
        designs_[p].alone.add_reached(alone + shared, result);
    }

    /// What candidates and the parts' effects make of two kinds of sums over groups: the weights of the
    /// paper's effects and, last, what the parts gathered.
    void add_sums() {
        const MatrixXd weighted = paper_design_.weighted(terms_.weight);
        MatrixXd sums(groups_, weighted.cols() + 1);
        sums << weighted, gathered_;
        solved_.shared_scale = terms_.drawn.head(shared_).cwiseSqrt();
        const auto scale = solved_.shared_scale.asDiagonal();
        MatrixXd left = scale * spread_ * scale;
        left = MatrixXd::Identity(shared_, shared_) - left;
        solved_.shared_factor = Factor(std::move(left));
        deviance_ += solved_.shared_factor.log_determinant();
        const MatrixXd once = spread_times(sums).topRows(shared_);
        carried_ = sums;
        carried_.topRows(shared_) +=
            scale * solved_.shared_factor.back(solved_.shared_factor.forward(scale * once));
        through_ = spread_times(carried_);
        products_ = inner(sums, through_);
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
        const Index effects = paper_design_.effects();
        MatrixXd information =
            paper_design_.information(terms_.counted) - products_.topLeftCorner(effects, effects);
        add_paper_prior(information);
        const Factor factor(std::move(information));
        const VectorXd pulled = paper_design_.added_up(kept_sums_) + products_.col(effects).head(effects);
        solved_.paper = factor.solve(pulled);
        solved_.paper_covariance = factor.inverse();
        deviance_ += factor.log_determinant() - pulled.dot(solved_.paper) - products_(effects, effects);
        const double free = prior_.level_variance ? 0 : 1;
        deviance_ += (static_cast<double>(evidence_.results) - free) * log_of_two_pi;
        levels_ = paper_design_.reached(solved_.paper);
        solved_.by_paper = carried_.leftCols(effects);
        solved_.group_sums = carried_.col(effects) + times(solved_.by_paper, solved_.paper);
        through_total_ = through_.col(effects) + times(through_.leftCols(effects), solved_.paper);
    }

    void find_part_levels() {
        for (std::size_t i = 0; i < evidence_.parts.size(); ++i) {
            const KindTerms& terms = kinds_[evidence_.parts[i].kind];
            const Index group = index(evidence_.kinds[evidence_.parts[i].kind].group);
            const double level = terms.kept * (terms.part * own_[i] + levels_[group] +
                                               terms.part / terms.rest * through_total_[group]);
            solved_.part_levels.push_back(level);
            solved_.part_effects.push_back(level - levels_[group]);
        }
    }

    /// How the deviance changes with all that it is made of.
    void find_slopes() {
        shared_half_ = solved_.shared_factor.lower_inverse();
        const Index effects = paper_design_.effects();
        sums_squared_ = MatrixXd(effects + 1, effects + 1);
        sums_squared_ << solved_.paper_covariance + outer(solved_.paper, solved_.paper), solved_.paper,
            solved_.paper.transpose(), 1;
        slope_by_paper();
        slope_by_parts();
        for (std::size_t p = 0; p < evidence_.patterns.size(); ++p)
            slope_by_pattern(p);
        slope_by_kinds();
        solved_.slopes = slopes_;
    }

    /// The expected products of the paper's effects.
    MatrixXd paper_squares() const {
        const Index effects = paper_design_.effects();
        return sums_squared_.topLeftCorner(effects, effects);
    }

    void slope_by_paper() {
        const double topic = of(variances_, Scatter::topic);
        const Index topics = paper_design_.effects() - before_topics();
        of(slopes_, Scatter::topic) = static_cast<double>(topics) / topic -
                                      paper_squares().diagonal().tail(topics).sum() / (topic * topic);
    }

    /// By the weights of the kinds.
    void slope_by_parts() {
        const Index effects = paper_design_.effects();
        const MatrixXd through_weighted = through_.leftCols(effects);
        const MatrixXd through_paper = product(through_weighted, solved_.paper_covariance);
        const MatrixXd design = paper_design_.weighted(VectorXd::Ones(groups_));
        d_counted_ = paper_design_.variances(paper_squares());
        d_weight_ =
            -2 * design.cwiseProduct(product(through_, sums_squared_.leftCols(effects))).rowwise().sum();
        d_drawn_ = VectorXd::Zero(groups_);
        for (Index g = 0; g < shared_; ++g)
            if (terms_.drawn[g] > 0)
                d_drawn_[g] = -(shared_half_.col(g).squaredNorm() - 1) / terms_.drawn[g] -
                              through_total_[g] * through_total_[g] -
                              through_paper.row(g).dot(through_weighted.row(g));
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
        const Design& design = designs_[p].whole;
        const MatrixXd& covariance = solved_.candidate_covariances[p];
        const auto members = static_cast<double>(pattern.members.size());
        VectorXd d_pulled(index(pattern.did.size()));
        for (std::size_t i = 0; i < pattern.did.size(); ++i)
            d_pulled[index(i)] = d_pulled_[index(pattern.did[i].group)];
        const VectorXd back = design.added_up(d_pulled);
        const MatrixXd cross = outer(back, sums_[p]);
        const MatrixXd squares = squares_[p] - (cross + cross.transpose()) / 2 + members * sums_squared(p);
        const MatrixXd change = members * covariance + sandwich(covariance, squares);
        slope_by_prior(pattern, change, members);

        const VectorXd d_precision = design.variances(change);
        for (std::size_t i = 0; i < pattern.kinds.size(); ++i) {
            const std::size_t k = pattern.kinds[i];
            const auto parts = static_cast<double>(evidence_.kinds[k].parts);
            d_rest_[k] -= parts * d_precision[index(pattern.did_of[i])] / (kinds_[k].rest * kinds_[k].rest);
        }
        slope_by_members(p, design.reached(times(covariance, back)));
    }

    /// The expected products of a pattern's sums of parts.
    MatrixXd sums_squared(std::size_t p) const {
        const MatrixXd half = designs_[p].shared.columns_added_up(shared_half_, solved_.shared_scale);
        return sandwich(designs_[p].whole.groups_added_up(carried_), sums_squared_) + inner(half, half);
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
        const Design& design = designs_[p].whole;
        for (std::size_t member = 0; member < pattern.members.size(); ++member) {
            const VectorXd effects = design.added_up(weighted_sums(pattern, member, kinds_));
            const VectorXd d_sums =
                back - 2 * design.reached(times(solved_.candidate_covariances[p], effects));
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
    const std::vector<PatternDesign>& designs_;
    const Design& paper_design_;
    PaperPrior prior_;
    const Scatters& variances_;
    Index groups_;
    Index shared_;

    SolvedModel solved_{};
    double deviance_ = 0;
    Scatters slopes_{};
    std::vector<KindTerms> kinds_;
    GroupTerms terms_;
    MatrixXd spread_; ///< what candidates' effects take from the precision of sums of shared groups
    VectorXd pulled_; ///< the groups' sums that candidates' effects explain
    std::vector<MatrixXd> squares_; ///< by pattern, over its members
    std::vector<VectorXd> sums_;    ///< by pattern, over its members
    std::vector<double> own_;       ///< by part: what candidates' effects leave of its sum, weighted
    VectorXd gathered_;             ///< by group
    VectorXd kept_sums_;            ///< by group
    MatrixXd carried_;              ///< see add_sums(): how the groups' sums of parts follow
    MatrixXd through_;              ///< what candidates and the parts' effects make of both
    MatrixXd products_;             ///< of both with that
    VectorXd through_total_;        ///< with the paper's effects put in
    VectorXd levels_;               ///< by group: level and topic
    MatrixXd shared_half_;          ///< the inverse of the shared groups' factor
    MatrixXd sums_squared_;         ///< expected products of the paper's effects and, last, 1
    std::vector<double> d_rest_;    ///< by kind
    VectorXd d_counted_;
    VectorXd d_weight_;
    VectorXd d_drawn_;
    VectorXd d_pulled_;
};

} // namespace

SolvedModel solve(const AlikeEvidence& evidence, const std::vector<PatternDesign>& designs,
                  const Design& paper_design, PaperPrior prior, const Scatters& variances, bool with_slopes) {
    return Solver(evidence, designs, paper_design, prior, variances).solve(with_slopes);
}

} // namespace inkturn
