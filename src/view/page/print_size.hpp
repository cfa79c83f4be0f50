#pragma once

#include <string>

namespace inkturn {

/// How large a page's words are printed: at about 10 points, or at 18 and all else in proportion.
enum class PrintSize { usual, large };

/// For the end of a page's style: its font sizes in large print; empty for the usual one.
std::string print_size_style(PrintSize size);

/// What goes for one size or the other.
template <typename Value>
constexpr Value by_size(PrintSize size, Value usual, Value large) {
    return size == PrintSize::large ? large : usual;
}

} // namespace inkturn
