#pragma once

#include <cstdint>
#include <tuple>

namespace inkturn::board {

using Amount = std::int64_t; ///< seconds, or of unevenness

/// What its day costs an item, evenness apart. Compared in this order.
struct Fare {
    Amount without = 0; ///< seconds
    Amount on_exam = 0; ///< seconds
    Amount outside = 0; ///< seconds
    Amount away = 0;

    bool is_free() const { return without == 0 && on_exam == 0 && outside == 0 && away == 0; }
    auto in_order() const { return std::tie(without, on_exam, outside, away); }
};

inline bool operator<(const Fare& a, const Fare& b) {
    return a.in_order() < b.in_order();
}
inline bool operator==(const Fare& a, const Fare& b) {
    return a.in_order() == b.in_order();
}
inline Fare operator+(const Fare& a, const Fare& b) {
    return {a.without + b.without, a.on_exam + b.on_exam, a.outside + b.outside, a.away + b.away};
}
inline Fare operator-(const Fare& a, const Fare& b) {
    return {a.without - b.without, a.on_exam - b.on_exam, a.outside - b.outside, a.away - b.away};
}

} // namespace inkturn::board
