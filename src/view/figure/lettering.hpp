#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Pixels from one line of a figure's text to the next; the letters are 12 pixels high.
constexpr double line_height = 14;

/// Pixels left free between text and the figure's right edge: browsers make the box of letters up to a
/// pixel wider than the letters, depending on the font.
constexpr double beside_text = 1;

/// The most pixels that text, made visible(), takes in a figure, in any common sans-serif font.
double text_width(std::string_view text);

/// The text made visible(), cut with `...` as one character at its end if it is wider.
std::string cut_to_width(std::string_view text, double width);

/// The text made visible(), broken at blanks into at most `most` lines, each cut_to_width(); what is left
/// over goes into the last one. No lines for an empty text.
std::vector<std::string> lines_of_width(std::string_view text, double width, std::size_t most);

/// A label that has its place.
struct PlacedLabel {
    std::size_t label; ///< position among those wanted
    double at;
};

/// Puts labels along a line, as near as possible to where they are wanted (least sum of squares), in their
/// order and at least `gap` pixels apart, from `low` to `high`. If there is no room for all, evenly chosen
/// ones are left out. The wanted places ascend.
std::vector<PlacedLabel> place_apart(const std::vector<double>& wanted, double gap, double low, double high);

} // namespace inkturn
