#include "inkturn/base/interval.hpp"

#include "inkturn/base/error.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/students_t.hpp>

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

void check_share(double share, const std::string& what) {
    if (!(share > 0 && share < 1))
        throw Error(what + " must lie between 0 and 1", Error::Kind::misused);
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

} // namespace inkturn
