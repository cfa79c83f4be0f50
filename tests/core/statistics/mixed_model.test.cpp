#include "core/statistics/mixed_model.hpp"

#include "catch.hpp"
#include "evidences.hpp"

#include <Eigen/Cholesky>

#include <cmath>

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using namespace inkturn::test;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double centre = 0.5;
constexpr double log_of_two_pi = 1.8378770664093453;

Scatters dealt_variances(std::mt19937& dice) {
    Scatters variances{};
    for (double& number : variances)
        number = pick(dice, 2, 60) / 1000.0;
    of(variances, Scatter::steady) = pick(dice, 1, 9) / 10.0;
    return variances;
}

PaperPrior usual_prior() {
    PaperPrior prior;
    prior.level_variance = 0.06;
    prior.trend_variance = 0.02;
    return prior;
}

/// The same model with every share's covariance with every other written out.
class WrittenOut {
  public:
    WrittenOut(const Evidence& evidence, const AlikeEvidence& alike, const Scatters& variances,
               PaperPrior prior)
        : evidence_(evidence),
          alike_(alike),
          variances_(variances),
          prior_(prior),
          size_(static_cast<Index>(evidence.results.size())),
          shares_(size_),
          covariance_(size_, size_) {
        for (Index i = 0; i < size_; ++i) {
            const Evidence::Result& result = at(i);
            shares_[i] =
                static_cast<double>(result.earned.count()) / evidence.parts[result.part].max.count() - centre;
            for (Index j = 0; j < size_; ++j)
                covariance_(i, j) = covariance_of(i, j);
        }
        factor_.compute(covariance_);
        if (!prior.level_variance) {
            const VectorXd ones = VectorXd::Ones(size_);
            information_ = ones.dot(factor_.solve(ones));
            level_ = ones.dot(factor_.solve(shares_)) / information_;
        }
    }

    double deviance() const {
        const VectorXd off = shares_.array() - level_;
        double sum = 2 * factor_.matrixLLT().diagonal().array().log().sum() + off.dot(factor_.solve(off)) +
                     static_cast<double>(size_) * log_of_two_pi;
        if (!prior_.level_variance)
            sum += std::log(information_) - log_of_two_pi;
        return sum;
    }

    double level() const { return level_; }

    /// Of a sum of effects that has these covariances with the shares, and this variance, before any marks.
    double mean(const VectorXd& with_shares) const {
        const VectorXd off = shares_.array() - level_;
        return with_shares.dot(factor_.solve(off));
    }
    double variance(const VectorXd& with_shares, double before) const {
        return before - with_shares.dot(factor_.solve(with_shares));
    }

    /// Of a candidate's share in new parts of a topic at a time, with all shares.
    VectorXd with_new(std::size_t candidate, std::size_t topic, double time) const {
        VectorXd with(size_);
        for (Index i = 0; i < size_; ++i) {
            const Evidence::Result& result = at(i);
            with[i] = prior_.level_variance.value_or(0) +
                      prior_.trend_variance.value_or(0) * mean_time(result) * time;
            if (evidence_.parts[result.part].topic == topic)
                with[i] += of(variances_, Scatter::topic);
            if (result.candidate != candidate)
                continue;
            with[i] += of(variances_, Scatter::candidate);
            if (has_own_trend(candidate))
                with[i] += of(variances_, Scatter::trend) * (result.time - alike_.origin) * time;
            if (evidence_.parts[result.part].topic == topic)
                with[i] += of(variances_, Scatter::candidate_topic);
        }
        return with;
    }
    double before(std::size_t candidate, double time) const {
        return *prior_.level_variance + *prior_.trend_variance * time * time +
               of(variances_, Scatter::topic) + of(variances_, Scatter::candidate) +
               (has_own_trend(candidate) ? of(variances_, Scatter::trend) * time * time : 0) +
               of(variances_, Scatter::candidate_topic);
    }
    bool has_own_trend(std::size_t candidate) const {
        return alike_.patterns[alike_.places[candidate]->first].trend;
    }

  private:
    const Evidence::Result& at(Index i) const { return evidence_.results[static_cast<std::size_t>(i)]; }

    double mean_time(const Evidence::Result& result) const {
        const auto part = alike_.part_numbers[result.part];
        return alike_.groups[alike_.kinds[alike_.parts[*part].kind].group].mean_time;
    }

    double covariance_of(Index i, Index j) const {
        const Evidence::Result& a = at(i);
        const Evidence::Result& b = at(j);
        const auto topic_a = evidence_.parts[a.part].topic;
        const bool same_topic = topic_a && topic_a == evidence_.parts[b.part].topic;
        double sum = prior_.level_variance.value_or(0) +
                     prior_.trend_variance.value_or(0) * mean_time(a) * mean_time(b);
        if (same_topic)
            sum += of(variances_, Scatter::topic);
        if (a.part == b.part)
            sum += of(variances_, Scatter::part);
        if (a.candidate == b.candidate) {
            sum += of(variances_, Scatter::candidate);
            if (has_own_trend(a.candidate))
                sum += of(variances_, Scatter::trend) * (a.time - alike_.origin) * (b.time - alike_.origin);
            if (same_topic)
                sum += of(variances_, Scatter::candidate_topic);
        }
        if (i == j)
            sum += rest_variance(variances_, evidence_.parts[a.part].max.count());
        return sum;
    }

    const Evidence& evidence_;
    const AlikeEvidence& alike_;
    const Scatters& variances_;
    PaperPrior prior_;
    Index size_;
    VectorXd shares_;
    MatrixXd covariance_;
    Eigen::LLT<MatrixXd> factor_;
    double information_ = 0;
    double level_ = 0;
};

} // namespace

TEST_CASE("the likelihood is that of the model written out") {
    std::mt19937 dice(161);
    for (int round = 0; round < 60; ++round) {
        const Evidence evidence =
            dealt_evidence(dice, static_cast<std::size_t>(pick(dice, 1, 7)), 4, pick(dice, 0, 3));
        if (evidence.results.size() < 2)
            continue;
        const AlikeEvidence together = alike(evidence, centre);
        const Scatters variances = dealt_variances(dice);
        for (const PaperPrior& prior : {PaperPrior{}, usual_prior()}) {
            const SolvedModel solved = MixedModel(together, evidence.topics, prior).solve(variances);
            const WrittenOut written(evidence, together, variances, prior);
            CHECK_THAT(solved.deviance, WithinAbs(written.deviance(), 1e-8));
            if (!prior.level_variance)
                CHECK_THAT(solved.paper[0], WithinAbs(written.level(), 1e-10));
        }
    }
}

TEST_CASE("the slopes of the likelihood are those of its differences") {
    std::mt19937 dice(162);
    for (int round = 0; round < 25; ++round) {
        const Evidence evidence = dealt_evidence(dice, static_cast<std::size_t>(pick(dice, 1, 7)), 4, 3);
        if (evidence.results.size() < 2)
            continue;
        const AlikeEvidence together = alike(evidence, centre);
        const Scatters variances = dealt_variances(dice);
        const MixedModel model(together, evidence.topics, usual_prior());
        const SolvedModel solved = model.solve(variances);
        for (std::size_t which = 0; which < scatters; ++which) {
            Scatters up = variances;
            Scatters down = variances;
            const double apart = 1e-4 * variances[which];
            up[which] += apart;
            down[which] -= apart;
            const double slope = (model.solve(up).deviance - model.solve(down).deviance) / (2 * apart);
            CHECK_THAT(solved.slopes[which], WithinAbs(slope, 1e-4 * (1 + std::abs(slope))));
        }
    }
}

TEST_CASE("what is known of a candidate is what the model written out says") {
    std::mt19937 dice(163);
    for (int round = 0; round < 25; ++round) {
        const Evidence evidence = dealt_evidence(dice, 5, 4, 2);
        const AlikeEvidence together = alike(evidence, centre);
        const Scatters variances = dealt_variances(dice);
        const MixedModel model(together, evidence.topics, usual_prior());
        const SolvedModel solved = model.solve(variances);
        const WrittenOut written(evidence, together, variances, usual_prior());
        for (std::size_t candidate = 0; candidate < evidence.candidates; ++candidate) {
            const auto& place = together.places[candidate];
            if (!place)
                continue;
            const AlikeEvidence::Pattern& pattern = together.patterns[place->first];
            const MixedModel::Known known = model.known_of(solved, place->first, place->second);
            const double time = 1.25;
            for (std::size_t i = 0; i < pattern.topics.size(); ++i) {
                const Index before_topics = pattern.trend ? 2 : 1;
                const Index effects = before_topics + static_cast<Index>(pattern.topics.size());
                VectorXd sum = VectorXd::Zero(known.means.size());
                sum[0] = sum[effects] = 1;
                sum[effects + 1] = time;
                if (pattern.trend)
                    sum[1] = time;
                sum[before_topics + static_cast<Index>(i)] = 1;
                sum[effects + 2 + static_cast<Index>(pattern.topics[i])] = 1;
                const VectorXd with = written.with_new(candidate, pattern.topics[i], time);
                CHECK_THAT(sum.dot(known.means), WithinAbs(written.mean(with), 1e-9));
                CHECK_THAT(sum.dot(known.covariance * sum),
                           WithinAbs(written.variance(with, written.before(candidate, time)), 1e-9));
            }
        }
    }
}

TEST_CASE("parts of one topic that the same candidates did at the same times are one group") {
    Evidence evidence;
    evidence.candidates = 2;
    evidence.topics = 2;
    evidence.parts = {{Marks(3), 0}, {Marks(3), 0}, {Marks(4), 0}, {Marks(3), 1}, {Marks(3), 0}};
    for (std::size_t candidate = 0; candidate < 2; ++candidate)
        for (std::size_t part = 0; part < 4; ++part)
            evidence.results.push_back({candidate, part, Marks(1), 0});
    evidence.results.push_back({0, 4, Marks(3), 1});
    const AlikeEvidence together = alike(evidence, centre);
    CHECK(together.groups.size() == 3);
    CHECK(together.shared == 2);
    CHECK(together.kinds.size() == 4);
    CHECK(together.patterns.size() == 2);
}
