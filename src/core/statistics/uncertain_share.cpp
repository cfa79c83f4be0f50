#include "inkturn/statistics/uncertain_share.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

using Normal = UncertainShare::Normal;

/// Of the standard normal distribution.
double chance_below(double value) {
    return std::erfc(-value / std::sqrt(2.0)) / 2;
}

double density(double value) {
    constexpr double root_of_two_pi = 2.5066282746310002;
    return std::exp(-value * value / 2) / root_of_two_pi;
}

double standardised(const Normal& normal, double share) {
    return (share - normal.mean) / normal.deviation;
}

/// The chance between two shares.
double chance_between(const Normal& normal, double low, double high) {
    const double from = standardised(normal, low);
    const double to = standardised(normal, high);
    return from > 0 ? chance_below(-from) - chance_below(-to) : chance_below(to) - chance_below(from);
}

/// The mean over what lies between two shares, times the chance of that.
double mean_between(const Normal& normal, double low, double high) {
    return normal.mean * chance_between(normal, low, high) +
           normal.deviation * (density(standardised(normal, low)) - density(standardised(normal, high)));
}

/// A normal of which next to nothing lies within 0 and 1 becomes a narrow one at the end that it is beyond.
Normal within(const Normal& normal) {
    constexpr double least_chance = 1e-9;
    if (chance_between(normal, 0, 1) >= least_chance)
        return normal;
    return {normal.weight, std::clamp(normal.mean, 0.0, 1.0), 1e-6};
}

} // namespace

UncertainShare::UncertainShare(std::vector<Normal> normals) : normals_(std::move(normals)) {
    if (normals_.empty())
        throw Error("a share is uncertain by one normal distribution at least");
    double sum = 0;
    for (Normal& normal : normals_) {
        normal = within(normal);
        sum += normal.weight;
    }
    for (Normal& normal : normals_)
        normal.weight /= sum * chance_between(normal, 0, 1);
}

double UncertainShare::mean() const {
    double sum = 0;
    for (const Normal& normal : normals_)
        sum += normal.weight * mean_between(normal, 0, 1);
    return std::clamp(sum, 0.0, 1.0);
}

double UncertainShare::below(double share) const {
    double sum = 0;
    for (const Normal& normal : normals_)
        sum += normal.weight * chance_between(normal, 0, std::clamp(share, 0.0, 1.0));
    return std::clamp(sum, 0.0, 1.0);
}

double UncertainShare::quantile(double chance) const {
    double low = 0;
    double high = 1;
    while (high - low > 1e-10) {
        const double middle = (low + high) / 2;
        (below(middle) < chance ? low : high) = middle;
    }
    return (low + high) / 2;
}

Interval UncertainShare::range(double confidence) const {
    return {quantile((1 - confidence) / 2), quantile((1 + confidence) / 2)};
}

UncertainShare mixture(const std::vector<UncertainShare>& shares) {
    std::vector<Normal> normals;
    for (const UncertainShare& share : shares)
        for (Normal normal : share.normals_) {
            normal.weight *= chance_between(normal, 0, 1); // as before it was cut off
            normals.push_back(normal);
        }
    return UncertainShare(std::move(normals));
}

} // namespace inkturn
