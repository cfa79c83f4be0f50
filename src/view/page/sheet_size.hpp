#pragma once

#include "inkturn/base/length.hpp"

#include <cstdint>
#include <string>
#include <string_view>

namespace inkturn {

/// What pages are printed on.
enum class SheetSize : std::uint8_t {
    a4,    ///< 210 mm by 297 mm (ISO 216)
    letter ///< 8.5 by 11 inches
};

/// For all pages of the program, to which the printer's paper is the same; A4 until it is set.
void set_sheet_size(SheetSize size) noexcept;
/// For people: `A4`, `letter paper`.
std::string_view sheet_size_text() noexcept;

/// A height that a sheet of A4 has room for, on the sheets that are used.
Millimetres on_sheet(Millimetres on_a4) noexcept;

/// `size: A4; margin: 15mm;`, to stand in an `@page` rule.
std::string sheet_rule(std::string_view margin);
/// The style of what fills a sheet of its own when it is printed; `on_a4`: its height there.
std::string whole_sheet_style(std::string_view selector, Millimetres on_a4, std::string_view margin);

} // namespace inkturn
