#pragma once

#include "inkturn/base/day.hpp"

#include <array>
#include <optional>
#include <string_view>

namespace inkturn {

/// Reads the dates of one file that says nowhere in which order their numbers stand. One that could be two
/// days, as 10/11/2026, is never guessed.
class DateOrders {
  public:
    /// The day that a date such as 25/11/2026 must mean: there is no other in any order, and an order fits it
    /// and all dates read before. Nothing otherwise.
    std::optional<Day> read(std::string_view text) noexcept;

  private:
    std::array<bool, 3> possible_{true, true, true}; ///< by DateOrder: it fits all dates so far
};

} // namespace inkturn
