#include "fit.hpp"

#include "minimum.hpp"

#include "inkturn/base/interval.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace inkturn {
namespace {

using namespace dense; // the vocabulary of matrices

/// Variances are looked for by their logarithms, the steady share by its logit.
double to_free(Scatter which, double number) {
    return which == Scatter::steady ? std::log(number / (1 - number)) : std::log(number);
}

double from_free(Scatter which, double number) {
    return which == Scatter::steady ? 1 / (1 + std::exp(-number)) : std::exp(number);
}

/// By how much a number changes with its free form.
double stretch(Scatter which, double number) {
    return which == Scatter::steady ? number * (1 - number) : number;
}

struct Likely {
    double minus_log;
    double slope; ///< by the free form
};

/// A deviation is exponential with the usual one as its mean (which keeps it off 0 without saying much), the
/// rest's variance as from `rest_weight` parts, the steady share logistic-normal.
Likely likely(Scatter which, double number) {
    const double usual = of(UsualScatter::deviations, which);
    if (which == Scatter::steady) {
        const double off = to_free(which, number) - to_free(which, usual);
        return {off * off / 2, off};
    }
    if (which == Scatter::rest) {
        const double half = UsualScatter::rest_weight / 2;
        const double ratio = usual * usual / number;
        return {half * (std::log(number) + ratio), half * (1 - ratio)};
    }
    const double deviation = std::sqrt(number);
    return {deviation / usual - std::log(deviation), (deviation / usual - 1) / 2};
}

/// How many effects scatter so, each counted by the square of how far the marks tell it: half the sum is
/// about how the deviance bends by the variance's logarithm.
class Told {
  public:
    Told(const MixedModel& model, const SolvedModel& solved)
        : model_(model), evidence_(model.evidence()), solved_(solved) {}

    double effects(Scatter which) const {
        switch (which) {
        case Scatter::part:
            return parts();
        case Scatter::topic:
            return topics();
        case Scatter::rest:
            return static_cast<double>(evidence_.results);
        case Scatter::steady:
            return static_cast<double>(evidence_.results) / 10;
        case Scatter::candidate:
        case Scatter::trend:
        case Scatter::candidate_topic:
            break;
        }
        return candidates(which);
    }

  private:
    /// With what is left of a variance.
    double squared(Scatter which, double left) const {
        const double told = std::clamp(1 - left / of(solved_.variances, which), 0.0, 1.0);
        return told * told;
    }

    double parts() const {
        double sum = 0;
        for (const AlikeEvidence::Kind& kind : evidence_.kinds) {
            const auto candidates = static_cast<double>(evidence_.groups[kind.group].candidates);
            const double part = of(solved_.variances, Scatter::part);
            const double rest = rest_variance(solved_.variances, kind.marks) / candidates;
            sum += static_cast<double>(kind.parts) * squared(Scatter::part, part * rest / (part + rest));
        }
        return sum;
    }

    double topics() const {
        double sum = 0;
        for (Index topic = model_.has_common_trend() ? 2 : 1; topic < solved_.paper.size(); ++topic)
            sum += squared(Scatter::topic, solved_.paper_covariance(topic, topic));
        return sum;
    }

    double candidates(Scatter which) const {
        double sum = 0;
        for (std::size_t p = 0; p < evidence_.patterns.size(); ++p)
            sum += static_cast<double>(evidence_.patterns[p].members.size()) *
                   candidate(which, evidence_.patterns[p].trend, solved_.candidate_covariances[p]);
        return sum;
    }

    double candidate(Scatter which, bool trend, const MatrixXd& covariance) const {
        if (which == Scatter::candidate)
            return squared(which, covariance(0, 0));
        if (which == Scatter::trend)
            return trend ? squared(which, covariance(1, 1)) : 0;
        double sum = 0;
        for (Index topic = trend ? 2 : 1; topic < covariance.rows(); ++topic)
            sum += squared(which, covariance(topic, topic));
        return sum;
    }

    const MixedModel& model_;
    const AlikeEvidence& evidence_;
    const SolvedModel& solved_;
};

/// Half the deviance, with what is usual, over the free forms of some scatters.
class Objective {
  public:
    Objective(const MixedModel& model, Scatters fixed, const std::vector<Scatter>& to_fit, bool with_usual)
        : model_(model), fixed_(fixed), to_fit_(to_fit), with_usual_(with_usual) {}

    Scatters variances(const VectorXd& free) const {
        Scatters numbers = fixed_;
        for (std::size_t i = 0; i < to_fit_.size(); ++i)
            of(numbers, to_fit_[i]) = from_free(to_fit_[i], free[index(i)]);
        return numbers;
    }

    VectorXd free(const Scatters& numbers) const {
        VectorXd free(index(to_fit_.size()));
        for (std::size_t i = 0; i < to_fit_.size(); ++i)
            free[index(i)] = to_free(to_fit_[i], of(numbers, to_fit_[i]));
        return free;
    }

    Sloped operator()(const VectorXd& free) const {
        constexpr double least_curved = 0.25;
        const SolvedModel solved = model_.solve(variances(free));
        const Told told(model_, solved);
        Sloped sloped{minus_log(solved), VectorXd(free.size()), VectorXd(free.size())};
        for (std::size_t i = 0; i < to_fit_.size(); ++i) {
            const double number = of(solved.variances, to_fit_[i]);
            double slope = of(solved.slopes, to_fit_[i]) / 2 * stretch(to_fit_[i], number);
            if (with_usual_)
                slope += likely(to_fit_[i], number).slope;
            sloped.slope[index(i)] = slope;
            sloped.curved[index(i)] = least_curved + told.effects(to_fit_[i]) / 2;
        }
        return sloped;
    }

    double minus_log(const SolvedModel& solved) const {
        double sum = solved.deviance / 2;
        if (with_usual_)
            for (const Scatter which : to_fit_)
                sum += likely(which, of(solved.variances, which)).minus_log;
        return sum;
    }

  private:
    const MixedModel& model_;
    Scatters fixed_;
    const std::vector<Scatter>& to_fit_;
    bool with_usual_;
};

/// The position-th point of a sequence that fills 0 to 1 evenly, to a prime base (Halton 1960).
double evenly(std::size_t position, std::size_t base) {
    double sum = 0;
    for (double digit = 1.0 / static_cast<double>(base); position > 0;
         position /= base, digit /= static_cast<double>(base))
        sum += digit * static_cast<double>(position % base);
    return sum;
}

/// Points that fill a standard normal distribution evenly, each with its mirror image.
std::vector<VectorXd> spread_points(Index dimensions) {
    constexpr std::size_t pairs = 6;
    constexpr std::array<std::size_t, scatters> bases{2, 3, 5, 7, 11, 13, 17};
    constexpr double normal = std::numeric_limits<double>::infinity(); // as Student's t is then
    std::vector<VectorXd> points;
    for (std::size_t pair = 1; pair <= pairs; ++pair) {
        VectorXd point(dimensions);
        for (Index i = 0; i < dimensions; ++i)
            point[i] = student_t_quantile(evenly(pair, bases[static_cast<std::size_t>(i)]), normal);
        points.push_back(point);
        points.push_back(-point);
    }
    return points;
}

/// How the free forms scatter about the likeliest: a row for each form, of steps that are independent of each
/// other.
MatrixXd deviations(const MatrixXd& covariance) {
    constexpr double most = 2; // no flatter, whatever the steps to the minimum say
    MatrixXd steps = Factor(covariance).lower().triangularView<Eigen::Lower>();
    for (Index i = 0; i < steps.rows(); ++i)
        steps.row(i) *= std::min(1.0, most / steps.row(i).norm());
    return steps;
}

constexpr double hardly_any_room = 0.15; // of a variance's logarithm: 7% of a deviation

void add_spread(std::vector<WeightedModel>& models, const MixedModel& model, const Objective& objective,
                const Minimum& likeliest, const HowFar& told) {
    const MatrixXd steps = deviations(likeliest.inverse);
    if (steps.rowwise().norm().maxCoeff() < hardly_any_room)
        return;
    const double least = objective.minus_log(models.front().model);
    const std::vector<VectorXd> points = spread_points(likeliest.at.size());
    for (const VectorXd& point : points) {
        SolvedModel solved = model.solve(objective.variances(likeliest.at + times(steps, point)), false);
        const double weight = std::exp(least - objective.minus_log(solved) + point.squaredNorm() / 2);
        models.push_back({std::min(weight, 4.0), std::move(solved)});
        tell(told, models.size() - 1, points.size());
    }
}

} // namespace

PaperPrior usual_paper(const AlikeEvidence& evidence) {
    PaperPrior prior;
    prior.level_variance = UsualScatter::level_deviation * UsualScatter::level_deviation;
    if (has_trend(evidence))
        prior.trend_variance = UsualScatter::common_trend_deviation * UsualScatter::common_trend_deviation;
    return prior;
}

Scatters usual_variances() {
    Scatters variances = UsualScatter::deviations;
    for (double& number : variances)
        number *= number;
    of(variances, Scatter::steady) = of(UsualScatter::deviations, Scatter::steady);
    return variances;
}

std::vector<Scatter> scatters_to_fit(const AlikeEvidence& evidence, std::size_t topics) {
    std::vector<Scatter> to_fit{Scatter::rest};
    if (evidence.candidates >= UsualScatter::min_candidates) {
        to_fit.push_back(Scatter::candidate);
        to_fit.push_back(Scatter::part);
    }
    if (has_trend(evidence))
        to_fit.push_back(Scatter::trend);
    if (topics > 1 && (evidence.candidates >= UsualScatter::min_candidates)) {
        to_fit.push_back(Scatter::topic);
        to_fit.push_back(Scatter::candidate_topic);
    }
    std::set<double> marks;
    for (const AlikeEvidence::Kind& kind : evidence.kinds)
        marks.insert(kind.marks);
    if (marks.size() > 1)
        to_fit.push_back(Scatter::steady);
    return to_fit;
}

Scatters likeliest(const MixedModel& model, Scatters start, const std::vector<Scatter>& to_fit,
                   bool with_usual, double least_gain) {
    const Objective objective(model, start, to_fit, with_usual);
    return objective.variances(minimum(objective, objective.free(start), least_gain).at);
}

std::vector<WeightedModel> fit(const MixedModel& model, std::size_t topics, const HowFar& told) {
    constexpr double likeliest_found = 0.7; // of the time, about
    constexpr double least_gain = 1e-8;     // what is told does not depend on the last steps
    const std::vector<Scatter> to_fit = scatters_to_fit(model.evidence(), topics);
    const Objective objective(model, usual_variances(), to_fit, true);
    const Minimum best =
        minimum(objective, objective.free(usual_variances()), least_gain, part_of(told, 0, likeliest_found));
    std::vector<WeightedModel> models{{1, model.solve(objective.variances(best.at), false)}};
    add_spread(models, model, objective, best, part_of(told, likeliest_found, 1));
    double sum = 0;
    for (const WeightedModel& weighted : models)
        sum += weighted.weight;
    for (WeightedModel& weighted : models)
        weighted.weight /= sum;
    return models;
}

} // namespace inkturn
