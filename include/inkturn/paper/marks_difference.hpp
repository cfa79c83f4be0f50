#pragma once

#include "inkturn/paper/marks.hpp"

namespace inkturn {

/// By how many marks one count is above another; below 0 where it is short of it.
class MarksDifference {
  public:
    constexpr MarksDifference() = default;
    constexpr MarksDifference(Marks of, Marks above) : count_(of.count() - above.count()) {}
    constexpr int count() const { return count_; }

    friend constexpr bool operator==(MarksDifference a, MarksDifference b) { return a.count_ == b.count_; }
    friend constexpr bool operator!=(MarksDifference a, MarksDifference b) { return !(a == b); }
    friend constexpr bool operator<(MarksDifference a, MarksDifference b) { return a.count_ < b.count_; }
    friend constexpr bool operator>(MarksDifference a, MarksDifference b) { return b < a; }
    friend constexpr bool operator<=(MarksDifference a, MarksDifference b) { return !(b < a); }
    friend constexpr bool operator>=(MarksDifference a, MarksDifference b) { return !(a < b); }

  private:
    int count_ = 0;
};

} // namespace inkturn
