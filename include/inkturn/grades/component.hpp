#pragma once

#include "inkturn/paper/marks.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// By what a component's marks are multiplied in the sum of an award: 0.0001 to 100, exact.
class Weight {
  public:
    static constexpr int unit = 10000; ///< parts of one mark that weighted marks are counted in

    constexpr Weight() = default; ///< 1
    /// In ten-thousandths, 1 to 1,000,000. Throws Error.
    explicit Weight(int ten_thousandths);
    constexpr int ten_thousandths() const { return ten_thousandths_; }

    friend constexpr bool operator==(Weight a, Weight b) { return a.ten_thousandths_ == b.ten_thousandths_; }
    friend constexpr bool operator!=(Weight a, Weight b) { return !(a == b); }

  private:
    int ten_thousandths_ = unit;
};

/// `1.25`: as few decimals as it takes.
std::string to_text(Weight weight);
/// At most four decimals. Throws Error that begins with `what`.
Weight parse_weight(std::string_view text, const std::string& what);

/// Weighted marks, in ten-thousandths of a mark, so that they add up exactly.
using WeightedMarks = std::int64_t;

/// Whole marks, a half rounded up.
Marks rounded(WeightedMarks marks);

/// A paper of an award, whatever its series.
struct Component {
    std::string name;
    Marks marks;                    ///< that each of its papers has
    Weight weight{};                ///< of these in the award's sum
    std::optional<Marks> uniform{}; ///< the uniform maximum they are converted to; nothing: they aren't

    /// What full marks bring in the award.
    WeightedMarks maximum() const;

    friend bool operator==(const Component& a, const Component& b) {
        return a.name == b.name && a.marks == b.marks && a.weight == b.weight && a.uniform == b.uniform;
    }
};

/// Raw marks times the weight.
WeightedMarks weighted(const Component& component, Marks raw);

} // namespace inkturn
