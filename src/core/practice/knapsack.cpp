#include "core/practice/knapsack.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

namespace inkturn {
namespace {

/// A day of the weakest offers adds up to less.
constexpr std::int64_t above_weakness = std::int64_t{1} << 37;

/// What makes one choice of the same time better than another: sums, compared in this order.
struct Merit {
    std::int64_t never_sat_then_weakness; ///< the first in units of above_weakness
    std::int64_t preference;

    friend Merit operator+(const Merit& a, const Merit& b) {
        return {a.never_sat_then_weakness + b.never_sat_then_weakness, a.preference + b.preference};
    }
    friend bool operator<(const Merit& a, const Merit& b) {
        if (a.never_sat_then_weakness != b.never_sat_then_weakness)
            return a.never_sat_then_weakness < b.never_sat_then_weakness;
        return a.preference < b.preference;
    }
};

constexpr Merit out_of_reach{-1, 0};

bool is_reached(const Merit& merit) {
    return merit.never_sat_then_weakness >= 0;
}

Merit merit_of(const Offer& offer) {
    const std::int64_t time = offer.time.count();
    return {(offer.never_sat ? time * above_weakness : 0) + time * offer.weakness, time * offer.preference};
}

/// The longest time that divides those of all offers.
std::int64_t common_unit(const std::vector<Offer>& offers) {
    std::int64_t unit = 0;
    for (const Offer& offer : offers)
        unit = std::gcd(unit, std::int64_t{offer.time.count()});
    return std::max<std::int64_t>(unit, 1);
}

/// The best choices from the offers that were looked at so far, by their time in units; `taken` says of an
/// offer for which times the best choice has it.
class Choices {
  public:
    explicit Choices(std::size_t max_time) : best_(max_time + 1, out_of_reach) { best_[0] = {0, 0}; }

    std::vector<bool> look_at(const Offer& offer, std::size_t time) {
        const std::size_t max_time = best_.size() - 1;
        std::vector<bool> taken(max_time + 1);
        if (time > max_time)
            return taken;
        max_sum_ = std::min(max_time, max_sum_ + time);
        const Merit merit = merit_of(offer);
        for (std::size_t sum = max_sum_; sum >= time; --sum) {
            if (!is_reached(best_[sum - time]))
                continue;
            const Merit with = best_[sum - time] + merit;
            if (with < best_[sum])
                continue;
            best_[sum] = with;
            taken[sum] = true;
        }
        return taken;
    }

    std::size_t max_reached() const {
        std::size_t sum = max_sum_;
        while (!is_reached(best_[sum]))
            --sum;
        return sum;
    }

  private:
    std::vector<Merit> best_;
    std::size_t max_sum_ = 0; ///< none above it is reached
};

/// The positions of the offers that the best choice can hold: of those that are alike only as many as fit the
/// time, the first of them.
std::vector<std::size_t> in_question(const std::vector<Offer>& offers, Seconds time) {
    std::map<std::tuple<Seconds, bool, std::int64_t, std::int64_t>, std::int64_t> alike;
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < offers.size(); ++i) {
        const Offer& offer = offers[i];
        std::int64_t& before = alike[{offer.time, offer.never_sat, offer.weakness, offer.preference}];
        if (++before <= time / offer.time)
            positions.push_back(i);
    }
    return positions;
}

std::vector<std::size_t> fullest_of(const std::vector<Offer>& offers, Seconds time) {
    const std::int64_t unit = common_unit(offers);
    const auto units = [unit](Seconds length) { return static_cast<std::size_t>(length.count() / unit); };
    Choices choices(units(time));
    // From last to first, each taken where it does no harm, so that the first wins a tie.
    std::vector<std::vector<bool>> taken(offers.size());
    for (std::size_t i = offers.size(); i-- > 0;)
        taken[i] = choices.look_at(offers[i], units(offers[i].time));

    std::vector<std::size_t> chosen;
    std::size_t left = choices.max_reached();
    for (std::size_t i = 0; i < offers.size(); ++i)
        if (taken[i][left]) {
            chosen.push_back(i);
            left -= units(offers[i].time);
        }
    return chosen;
}

} // namespace

std::vector<std::size_t> fullest(const std::vector<Offer>& offers, Seconds time) {
    const std::vector<std::size_t> positions = in_question(offers, time);
    std::vector<Offer> few;
    few.reserve(positions.size());
    for (const std::size_t position : positions)
        few.push_back(offers[position]);
    std::vector<std::size_t> chosen;
    for (const std::size_t i : fullest_of(few, time))
        chosen.push_back(positions[i]);
    return chosen;
}

} // namespace inkturn
