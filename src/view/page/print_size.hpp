#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// How large a page's words are printed: at about 10 points, or at 18 and all else in proportion.
enum class PrintSize { usual, large };

/// How the style of a page to print begins.
constexpr std::string_view printed_page_style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 180mm; margin: 0 auto; padding: 1rem; font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; margin: 0 0 0.3em; break-after: avoid; }
h1 { font-size: 1.5rem; }
)";

/// For the end of a page's style: its font sizes in large print; empty for the usual one.
std::string print_size_style(PrintSize size);

/// What goes for one size or the other.
template <typename Value>
constexpr Value by_size(PrintSize size, Value usual, Value large) {
    return size == PrintSize::large ? large : usual;
}

} // namespace inkturn
