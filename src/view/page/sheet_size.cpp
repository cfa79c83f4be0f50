#include "view/page/sheet_size.hpp"

#include "view/text/text.hpp"

namespace inkturn {
namespace {

constexpr Millimetres shorter_than_a4{17.6}; ///< 297 mm less 11 inches

SheetSize sheet_size_used = SheetSize::a4;

bool is_letter() {
    return sheet_size_used == SheetSize::letter;
}

} // namespace

void set_sheet_size(SheetSize size) noexcept {
    sheet_size_used = size;
}

std::string_view sheet_size_text() noexcept {
    return is_letter() ? "letter paper" : "A4";
}

Millimetres on_sheet(Millimetres on_a4) noexcept {
    return is_letter() ? on_a4 - shorter_than_a4 : on_a4;
}

std::string sheet_rule(std::string_view margin) {
    return std::string("size: ") + (is_letter() ? "letter" : "A4") + "; margin: " + std::string(margin) + ";";
}

std::string whole_sheet_style(std::string_view selector, Millimetres on_a4, std::string_view margin) {
    return "@media print { " + std::string(selector) +
           " { min-height: " + decimal(on_sheet(on_a4).value(), 0) + "mm; } }\n@page { " +
           sheet_rule(margin) + " }\n";
}

} // namespace inkturn
