#include "inkturn/statistics/abilities.hpp"

#include "fit.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace inkturn {
namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Known = MixedModel::Known;

/// What candidates can do on a topic has a longer tail to the weak side than a normal distribution.
struct TopicScatter {
    double weight;
    double offset; ///< of the mean, in deviations of candidates on topics
    double times;  ///< their variance
};
constexpr std::array<TopicScatter, 2> topic_scatters{{{0.8, 0.5, 0.7}, {0.2, -2, 2}}};

/// A sum of effects: of a member of a pattern, then of the paper.
using Sum = VectorXd;

double covariance(const Known& known, const Sum& a, const Sum& b) {
    return a.dot(known.covariance * b);
}

} // namespace

class Abilities::Fit {
  public:
    explicit Fit(const Evidence& evidence)
        : topics_(evidence.topics),
          evidence_(alike(evidence, UsualScatter::level)),
          model_(evidence_, evidence.topics, usual_paper(evidence_)),
          models_(fit(model_, evidence.topics)) {}

    const AlikeEvidence& evidence() const { return evidence_; }
    std::size_t topics() const { return topics_; }
    const std::vector<WeightedModel>& models() const { return models_; }
    const SolvedModel& likeliest() const { return models_.front().model; }

    const AlikeEvidence::Pattern* pattern_of(std::size_t candidate) const {
        const auto& place = evidence_.places.at(candidate);
        return place ? &evidence_.patterns[place->first] : nullptr;
    }

    /// Of a candidate without results: a level of his own of which nothing is known.
    Known known_of(const SolvedModel& model, std::size_t candidate) const {
        if (const auto& place = evidence_.places.at(candidate))
            return model_.known_of(model, place->first, place->second);
        const Index paper = model.paper.size();
        Known known{VectorXd::Zero(1 + paper), Eigen::MatrixXd::Zero(1 + paper, 1 + paper)};
        known.means.tail(paper) = model.paper;
        known.covariance(0, 0) = of(model.variances, Scatter::candidate);
        known.covariance.bottomRightCorner(paper, paper) = model.paper_covariance;
        return known;
    }

    std::optional<Index> position_of(std::size_t candidate, std::size_t topic) const {
        const AlikeEvidence::Pattern* pattern = pattern_of(candidate);
        if (!pattern)
            return std::nullopt;
        const auto at = std::lower_bound(pattern->topics.begin(), pattern->topics.end(), topic);
        if (at == pattern->topics.end() || *at != topic)
            return std::nullopt;
        return (pattern->trend ? 2 : 1) + static_cast<Index>(at - pattern->topics.begin());
    }

    /// The effects that make up a share at the candidate's latest time, in a part without a topic.
    Sum level_of(std::size_t candidate, Index effects, Index paper) const {
        Sum sum = Sum::Zero(effects + paper);
        sum[0] = 1;
        sum[effects] = 1;
        const auto& place = evidence_.places.at(candidate);
        if (!place)
            return sum;
        const AlikeEvidence::Pattern& pattern = evidence_.patterns[place->first];
        if (pattern.trend)
            sum[1] = pattern.last_times[place->second];
        if (model_.has_common_trend())
            sum[effects + 1] = pattern.last_times[place->second];
        return sum;
    }

    /// With weights of topics: together at most 1. What the candidate did not do of them adds to the variance
    /// that is returned.
    double add_topic(Sum& sum, const SolvedModel& model, std::size_t candidate, std::size_t topic,
                     double weight) const {
        sum[sum.size() - static_cast<Index>(topics_ - topic)] += weight;
        if (const auto position = position_of(candidate, topic)) {
            sum[*position] += weight;
            return 0;
        }
        return weight * weight * of(model.variances, Scatter::candidate_topic);
    }

    double mean(const Known& known, const Sum& sum) const { return evidence_.centre + sum.dot(known.means); }

  private:
    std::size_t topics_;
    AlikeEvidence evidence_;
    MixedModel model_;
    std::vector<WeightedModel> models_;
};

namespace {

/// A share with what a candidate does on its topic apart: that may scatter more, or less.
struct OnTopic {
    double mean;
    double variance;
    double topic_mean = 0;     ///< of what the candidate does on the topic
    double topic_variance = 0; ///< of that
    double covariance = 0;     ///< of both
};

/// The share where candidates on topics scatter with another variance than the model's.
UncertainShare::Normal with_scatter(const OnTopic& known, double usual, TopicScatter scatter) {
    const double variance = usual * scatter.times;
    const double offset = std::sqrt(usual) * scatter.offset;
    const double precision = std::max(0.0, 1 / known.topic_variance - 1 / usual); // of the marks alone
    const double pull = known.topic_mean / known.topic_variance + offset / variance;
    const double topic_variance = 1 / (precision + 1 / variance);
    const double moved = topic_variance * pull - known.topic_mean;
    const double ratio = known.covariance / known.topic_variance;
    const double spread = known.variance + ratio * ratio * (topic_variance - known.topic_variance);
    const double likelihood = std::exp((topic_variance * pull * pull - offset * offset / variance) / 2) /
                              std::sqrt(1 + precision * variance);
    return {scatter.weight * likelihood, known.mean + ratio * moved, std::sqrt(std::max(spread, 1e-12))};
}

} // namespace

Abilities::Abilities(const Evidence& evidence) : fit_(std::make_shared<const Fit>(evidence)) {}

std::size_t Abilities::candidates() const {
    return fit_->evidence().candidates;
}

UncertainShare Abilities::expected(std::size_t candidate, std::size_t topic) const {
    if (candidate >= fit_->evidence().places.size() || topic >= fit_->topics())
        throw Error("there is no such candidate or topic among the marks");
    std::vector<UncertainShare::Normal> normals;
    for (const WeightedModel& weighted : fit_->models()) {
        const SolvedModel& model = weighted.model;
        const Known known = fit_->known_of(model, candidate);
        Sum sum = fit_->level_of(candidate, known.means.size() - model.paper.size(), model.paper.size());
        const double usual = of(model.variances, Scatter::candidate_topic);
        const double unknown = fit_->add_topic(sum, model, candidate, topic, 1);
        OnTopic on{fit_->mean(known, sum), covariance(known, sum, sum) + unknown, 0, usual, usual};
        if (const auto position = fit_->position_of(candidate, topic)) {
            on.topic_mean = known.means[*position];
            on.topic_variance = known.covariance(*position, *position);
            on.covariance = known.covariance.row(*position).dot(sum);
        }
        const std::size_t first = normals.size();
        double together = 0;
        for (const TopicScatter& scatter : topic_scatters) {
            normals.push_back(with_scatter(on, usual, scatter));
            together += normals.back().weight;
        }
        for (std::size_t i = first; i < normals.size(); ++i)
            normals[i].weight *= weighted.weight / together;
    }
    return UncertainShare(std::move(normals));
}

UncertainShare Abilities::expected_total(std::size_t candidate,
                                         const std::vector<Evidence::Part>& paper) const {
    if (candidate >= fit_->evidence().places.size())
        throw Error("there is no such candidate among the marks");
    double marks = 0;
    std::vector<double> by_topic(fit_->topics(), 0);
    for (const Evidence::Part& part : paper)
        marks += part.max.count();
    for (const Evidence::Part& part : paper)
        if (part.topic)
            by_topic.at(*part.topic) += part.max.count() / marks;
    std::vector<UncertainShare::Normal> normals;
    for (const WeightedModel& weighted : fit_->models()) {
        const SolvedModel& model = weighted.model;
        const Known known = fit_->known_of(model, candidate);
        Sum sum = fit_->level_of(candidate, known.means.size() - model.paper.size(), model.paper.size());
        double variance = 0;
        for (std::size_t topic = 0; topic < by_topic.size(); ++topic)
            if (by_topic[topic] > 0)
                variance += fit_->add_topic(sum, model, candidate, topic, by_topic[topic]);
        for (const Evidence::Part& part : paper) {
            const double share = part.max.count() / marks;
            variance +=
                share * share *
                (of(model.variances, Scatter::part) + rest_variance(model.variances, part.max.count()));
        }
        variance += covariance(known, sum, sum);
        normals.push_back({weighted.weight, fit_->mean(known, sum), std::sqrt(variance)});
    }
    return UncertainShare(std::move(normals));
}

double Abilities::expected_in_part(std::size_t candidate, std::size_t part) const {
    const auto& number = fit_->evidence().part_numbers.at(part);
    if (candidate >= fit_->evidence().places.size() || !number)
        throw Error("there is no such candidate, or nobody did the part");
    const auto topic =
        fit_->evidence().groups[fit_->evidence().kinds[fit_->evidence().parts[*number].kind].group].topic;
    double share = 0;
    for (const WeightedModel& weighted : fit_->models()) {
        const SolvedModel& model = weighted.model;
        const Known known = fit_->known_of(model, candidate);
        Sum sum = fit_->level_of(candidate, known.means.size() - model.paper.size(), model.paper.size());
        if (topic)
            fit_->add_topic(sum, model, candidate, *topic, 1);
        share += weighted.weight * (fit_->mean(known, sum) + model.part_effects[*number]);
    }
    return std::clamp(share, 0.0, 1.0);
}

std::optional<double> Abilities::part_ease(std::size_t part) const {
    const auto& number = fit_->evidence().part_numbers.at(part);
    const AlikeEvidence& evidence = fit_->evidence();
    if (!number || evidence.groups[evidence.kinds[evidence.parts[*number].kind].group].candidates < 2)
        return std::nullopt;
    double ease = 0;
    for (const WeightedModel& weighted : fit_->models())
        ease += weighted.weight * weighted.model.part_effects[*number];
    return ease;
}

} // namespace inkturn
