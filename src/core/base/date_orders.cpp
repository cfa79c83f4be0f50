#include "inkturn/base/date_orders.hpp"

#include <algorithm>
#include <cstddef>

namespace inkturn {

std::optional<Day> DateOrders::read(std::string_view text) noexcept {
    std::optional<Day> only;
    std::array<bool, 3> fits{};
    for (std::size_t i = 0; i < fits.size(); ++i) {
        const auto day = read_day_in_order(text, static_cast<DateOrder>(i));
        if (day && only && *day != *only)
            return std::nullopt;
        if (day)
            only = day;
        fits[i] = day && possible_[i];
    }
    if (std::none_of(fits.begin(), fits.end(), [](bool one) { return one; }))
        return std::nullopt;
    possible_ = fits;
    return only;
}

} // namespace inkturn
