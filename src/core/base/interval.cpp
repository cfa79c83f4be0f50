#include "inkturn/base/interval.hpp"

#include "inkturn/base/error.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace inkturn {
namespace {

namespace policies = boost::math::policies;

/// Nothing is thrown and nothing is worked out in long double.
using Quiet = policies::policy<
    policies::domain_error<policies::ignore_error>, policies::pole_error<policies::ignore_error>,
    policies::overflow_error<policies::ignore_error>, policies::underflow_error<policies::ignore_error>,
    policies::denorm_error<policies::ignore_error>, policies::evaluation_error<policies::ignore_error>,
    policies::rounding_error<policies::ignore_error>,
    policies::indeterminate_result_error<policies::ignore_error>, policies::promote_float<false>,
    policies::promote_double<false>>;

Score sum(const std::vector<Score>& scores) {
    Score all{};
    for (const Score& score : scores) {
        all.earned += score.earned;
        all.max += score.max;
    }
    return all;
}

/// s² where a score's share has the variance s² ÷ its marks: Σ m (share - p)² ÷ (n - 1), p being the share of
/// all marks. The differences are formed as whole numbers, so equal shares give 0.
double variance_of_a_mark(const std::vector<Score>& scores, const Score& all) {
    double squares = 0;
    for (const Score& score : scores) {
        const std::int64_t difference = std::int64_t{score.earned.count()} * all.max.count() -
                                        std::int64_t{all.earned.count()} * score.max.count();
        const double from_all = static_cast<double>(difference) / all.max.count();
        squares += from_all * from_all / score.max.count();
    }
    return squares / static_cast<double>(scores.size() - 1);
}

void check_share(double share, const std::string& what) {
    if (!(share > 0 && share < 1))
        throw Error(what + " must lie between 0 and 1", Error::Kind::misused);
}

Marks within(double marks, Marks most) {
    return Marks(static_cast<int>(std::clamp(marks, 0.0, static_cast<double>(most.count()))));
}

} // namespace

Interval jeffreys_interval(double successes, double trials, double confidence) {
    check_share(confidence, "a confidence");
    if (!(trials > 0) || !(successes >= 0) || successes > trials)
        throw Error("an interval needs trials above 0, and successes from 0 to their number",
                    Error::Kind::misused);
    const boost::math::beta_distribution<double, Quiet> share(successes + 0.5, trials - successes + 0.5);
    const double tail = (1 - confidence) / 2;
    return {quantile(share, tail), quantile(complement(share, tail))};
}

double effective_parts(const std::vector<Marks>& parts) {
    double marks = 0;
    double squares = 0;
    for (const Marks part : parts) {
        marks += part.count();
        squares += static_cast<double>(part.count()) * part.count();
    }
    return squares > 0 ? marks * marks / squares : 0;
}

double student_t_quantile(double probability, double degrees_of_freedom) {
    check_share(probability, "a probability");
    if (!(degrees_of_freedom > 0))
        throw Error("degrees of freedom must be above 0", Error::Kind::misused);
    return quantile(boost::math::students_t_distribution<double, Quiet>(degrees_of_freedom), probability);
}

double student_t_tails(double t, double degrees_of_freedom) {
    if (!(degrees_of_freedom > 0))
        throw Error("degrees of freedom must be above 0", Error::Kind::misused);
    const boost::math::students_t_distribution<double, Quiet> distribution(degrees_of_freedom);
    return 2 * cdf(complement(distribution, std::fabs(t)));
}

std::optional<Prediction> predict_next(const std::vector<Score>& past, Marks next, double confidence) {
    check_share(confidence, "a confidence");
    const auto is_score = [](const Score& score) {
        return score.max > Marks(0) && score.earned <= score.max;
    };
    if (next == Marks(0) || !std::all_of(past.begin(), past.end(), is_score))
        throw Error("a prediction needs marks above 0, and scores within their maxima", Error::Kind::misused);
    if (past.empty())
        return std::nullopt;
    const Score all = sum(past);
    const std::int64_t earned_times_next = std::int64_t{all.earned.count()} * next.count();
    const std::int64_t max = all.max.count();

    Prediction prediction;
    prediction.middle = Marks(static_cast<int>((2 * earned_times_next + max) / (2 * max)));
    if (past.size() < Prediction::min_scores_for_range)
        return prediction;
    const double centre = static_cast<double>(earned_times_next) / static_cast<double>(max);
    const double error = next.count() * std::sqrt(variance_of_a_mark(past, all) *
                                                  (1.0 / next.count() + 1.0 / all.max.count()));
    const double reach =
        student_t_quantile((1 + confidence) / 2, static_cast<double>(past.size() - 1)) * error;
    prediction.range =
        Prediction::Range{within(std::floor(centre - reach), next), within(std::ceil(centre + reach), next)};
    return prediction;
}

} // namespace inkturn
