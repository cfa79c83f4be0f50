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

/// What candidates can do on a topic has a longer tail to the weak side than a normal distribution.
struct TopicScatter {
    double weight;
    double offset; ///< of the mean, in deviations of candidates on topics
    double times;  ///< their variance
};
constexpr std::array<TopicScatter, 2> topic_scatters{{{0.73, 0.74, 0.55}, {0.27, -2, 2}}};

/// A sum of effects: of a member of a pattern, then of the paper.
using Sum = VectorXd;

} // namespace

/// The evidence and the models that fit it.
class FittedAbilities {
  public:
    FittedAbilities(const Evidence& evidence, const HowFar& told)
        : topics_(evidence.topics),
          evidence_(alike(evidence, UsualScatter::level)),
          model_(evidence_, evidence.topics, usual_paper(evidence_)),
          models_(fit(model_, evidence.topics, told)) {}

    const AlikeEvidence& evidence() const { return evidence_; }
    std::size_t topics() const { return topics_; }
    const std::vector<WeightedModel>& models() const { return models_; }
    const MixedModel& model() const { return model_; }

    const AlikeEvidence::Pattern* pattern_of(std::size_t candidate) const {
        const auto& place = evidence_.places.at(candidate);
        return place ? &evidence_.patterns[place->first] : nullptr;
    }

    /// Of a candidate without results: a level of his own of which nothing is known.
    MixedModel::Known known_of(const SolvedModel& model, std::size_t candidate) const {
        if (const auto& place = evidence_.places.at(candidate))
            return model_.known_of(model, place->first, place->second);
        const Index paper = model.paper.size();
        MixedModel::Known known{VectorXd::Zero(1 + paper), Eigen::MatrixXd::Zero(1 + paper, 1 + paper)};
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

    /// Of the candidates' shares on a topic.
    MixedModel::Moments average(const SolvedModel& model, const std::vector<std::size_t>& candidates,
                                std::size_t topic) const {
        std::vector<MixedModel::Term> terms;
        const auto count = static_cast<double>(candidates.size());
        VectorXd paper = VectorXd::Zero(model.paper.size());
        double unknown = 0; // candidates, or what they do on the topic, of whom there are no results
        for (const std::size_t candidate : candidates) {
            check_candidate(candidate);
            Sum sum = level_of(candidate, effects_of(candidate), model.paper.size()) / count;
            unknown += add_topic(sum, model, candidate, topic, 1 / count);
            paper += sum.tail(model.paper.size());
            if (const auto& place = evidence_.places[candidate])
                terms.push_back({place->first, place->second, sum.head(effects_of(candidate))});
            else
                unknown += of(model.variances, Scatter::candidate) / (count * count);
        }
        MixedModel::Moments moments = model_.moments(model, terms, paper);
        moments.variance += unknown;
        return moments;
    }

    Index effects_of(std::size_t candidate) const {
        const AlikeEvidence::Pattern* pattern = pattern_of(candidate);
        return pattern ? (pattern->trend ? 2 : 1) + static_cast<Index>(pattern->topics.size()) : 1;
    }

    std::optional<std::size_t> topic_of(std::size_t part) const {
        return evidence_.groups[evidence_.kinds[evidence_.parts[part].kind].group].topic;
    }

    void check_topic(std::size_t topic) const {
        if (topic >= topics_)
            throw Error("there is no such topic among the marks", Error::Kind::misused);
    }

    void check_candidate(std::size_t candidate) const {
        if (candidate >= evidence_.places.size())
            throw Error("there is no such candidate among the marks", Error::Kind::misused);
    }

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

/// What each of the models knows of a candidate.
class Ability::Known {
  public:
    Known(std::shared_ptr<const FittedAbilities> fit, std::size_t candidate)
        : fit_(std::move(fit)), candidate_(candidate) {
        for (const WeightedModel& weighted : fit_->models())
            by_model_.push_back(fit_->known_of(weighted.model, candidate));
    }

    const FittedAbilities& fit() const { return *fit_; }
    std::size_t candidate() const { return candidate_; }
    const MixedModel::Known& by(std::size_t model) const { return by_model_[model]; }

    /// A share without a topic, to which topics may be added.
    Sum level(std::size_t model) const {
        const Index paper = fit_->models()[model].model.paper.size();
        return fit_->level_of(candidate_, by_model_[model].means.size() - paper, paper);
    }

    double mean(std::size_t model, const Sum& sum) const {
        return fit_->evidence().centre + sum.dot(by_model_[model].means);
    }
    double variance(std::size_t model, const Sum& sum) const {
        return sum.dot(by_model_[model].covariance * sum);
    }

    OnTopic on_topic(std::size_t number, std::size_t topic) const {
        const SolvedModel& model = fit_->models()[number].model;
        const double usual = of(model.variances, Scatter::candidate_topic);
        Sum sum = level(number);
        const double unknown = fit_->add_topic(sum, model, candidate_, topic, 1);
        OnTopic on{mean(number, sum), variance(number, sum) + unknown, 0, usual, usual};
        if (const auto position = fit_->position_of(candidate_, topic)) {
            const MixedModel::Known& known = by_model_[number];
            on.topic_mean = known.means[*position];
            on.topic_variance = known.covariance(*position, *position);
            on.covariance = known.covariance.row(*position).dot(sum);
        }
        return on;
    }

  private:
    std::shared_ptr<const FittedAbilities> fit_;
    std::size_t candidate_;
    std::vector<MixedModel::Known> by_model_;
};

UncertainShare Ability::on_topic(std::size_t topic) const {
    known_->fit().check_topic(topic);
    std::vector<UncertainShare::Normal> normals;
    for (std::size_t number = 0; number < known_->fit().models().size(); ++number) {
        const WeightedModel& weighted = known_->fit().models()[number];
        const double usual = of(weighted.model.variances, Scatter::candidate_topic);
        const OnTopic on = known_->on_topic(number, topic);
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

namespace {

double marks_of(const std::vector<Evidence::Part>& paper) {
    double marks = 0;
    for (const Evidence::Part& part : paper)
        marks += part.max.count();
    return marks;
}

std::vector<double> topic_shares(const FittedAbilities& fit, const std::vector<Evidence::Part>& paper) {
    const double marks = marks_of(paper);
    std::vector<double> shares(fit.topics(), 0);
    for (const Evidence::Part& part : paper)
        if (part.topic) {
            fit.check_topic(*part.topic);
            shares[*part.topic] += part.max.count() / marks;
        }
    return shares;
}

/// What the parts and the rest add to the scatter of a paper's share.
double scatter_of_parts(const Scatters& variances, const std::vector<Evidence::Part>& paper) {
    const double marks = marks_of(paper);
    double sum = 0;
    for (const Evidence::Part& part : paper) {
        const double share = part.max.count() / marks;
        sum += share * share * (of(variances, Scatter::part) + rest_variance(variances, part.max.count()));
    }
    return sum;
}

} // namespace

UncertainShare Ability::in_paper(const std::vector<Evidence::Part>& paper) const {
    const FittedAbilities& fit = known_->fit();
    if (paper.empty())
        throw Error("a paper has at least one part", Error::Kind::misused);
    const std::vector<double> topics = topic_shares(fit, paper);
    std::vector<UncertainShare::Normal> normals;
    for (std::size_t number = 0; number < fit.models().size(); ++number) {
        const SolvedModel& model = fit.models()[number].model;
        Sum sum = known_->level(number);
        double variance = scatter_of_parts(model.variances, paper);
        for (std::size_t topic = 0; topic < topics.size(); ++topic)
            if (topics[topic] > 0)
                variance += fit.add_topic(sum, model, known_->candidate(), topic, topics[topic]);
        variance += known_->variance(number, sum);
        normals.push_back({fit.models()[number].weight, known_->mean(number, sum), std::sqrt(variance)});
    }
    return UncertainShare(std::move(normals));
}

double Ability::in_part(std::size_t part) const {
    const FittedAbilities& fit = known_->fit();
    const auto number = fit.evidence().part_numbers.at(part);
    if (!number)
        throw Error("nobody did this part", Error::Kind::misused);
    double share = 0;
    for (std::size_t i = 0; i < fit.models().size(); ++i) {
        const SolvedModel& model = fit.models()[i].model;
        Sum sum = known_->level(i);
        if (const auto topic = fit.topic_of(*number))
            fit.add_topic(sum, model, known_->candidate(), *topic, 1);
        share += fit.models()[i].weight * (known_->mean(i, sum) + model.part_effects[*number]);
    }
    return std::clamp(share, 0.0, 1.0);
}

Abilities::Abilities(const Evidence& evidence, const HowFar& told)
    : fit_(std::make_shared<const FittedAbilities>(evidence, told)) {}

std::size_t Abilities::candidates() const {
    return fit_->evidence().candidates;
}

Ability Abilities::of(std::size_t candidate) const {
    fit_->check_candidate(candidate);
    return Ability(std::make_shared<const Ability::Known>(fit_, candidate));
}

UncertainShare Abilities::average(const std::vector<std::size_t>& candidates, std::size_t topic) const {
    fit_->check_topic(topic);
    if (candidates.empty())
        throw Error("an average is over one candidate at least", Error::Kind::misused);
    std::vector<UncertainShare::Normal> normals;
    for (const WeightedModel& weighted : fit_->models()) {
        const MixedModel::Moments moments = fit_->average(weighted.model, candidates, topic);
        normals.push_back(
            {weighted.weight, fit_->evidence().centre + moments.mean, std::sqrt(moments.variance)});
    }
    return UncertainShare(std::move(normals));
}

std::optional<double> Abilities::part_ease(std::size_t part) const {
    const auto number = fit_->evidence().part_numbers.at(part);
    const AlikeEvidence& evidence = fit_->evidence();
    if (!number || evidence.groups[evidence.kinds[evidence.parts[*number].kind].group].candidates < 2)
        return std::nullopt;
    double ease = 0;
    for (const WeightedModel& weighted : fit_->models())
        ease += weighted.weight * weighted.model.part_effects[*number];
    return ease;
}

} // namespace inkturn
