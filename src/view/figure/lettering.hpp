#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Pixels from one line of a figure's text to the next; the letters are 12 pixels high.
constexpr double line_height = 14;

/// Pixels left free between text and the figure's right edge: browsers take the box of letters for up to a
/// pixel wider than they are, and differ in it by the font.
constexpr double beside_text = 1;

/// Pixels that text, made visible(), takes at most in a figure, whichever common sans-serif font a reader
/// has.
double text_width(std::string_view text);

/// The text made visible(), cut with `...` as one character at its end where it is wider.
std::string cut_to_width(std::string_view text, double width);

/// The text made visible(), broken at blanks into at most `most` lines, each cut_to_width(); what is left
/// over goes into the last one. No line for an empty text.
std::vector<std::string> lines_of_width(std::string_view text, double width, std::size_t most);

/// A label that has found its place.
struct PlacedLabel {
    std::size_t label; ///< position among those wanted
    double at;
};

/// Puts labels along a line, each as near as can be to where it is wanted (least sum of squares), in their
/// order and `gap` pixels apart at least, from `low` to `high`. Where there is no room for all, evenly chosen
/// ones are left out. The wanted places ascend.
std::vector<PlacedLabel> place_apart(const std::vector<double>& wanted, double gap, double low, double high);

} // namespace inkturn
