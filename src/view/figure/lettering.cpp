#include "view/figure/lettering.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/utf8.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cassert>

namespace inkturn {
namespace {

constexpr double font_size = 12;
constexpr const char* ellipsis = "\xE2\x80\xA6";

/// In hundredths of the letters' size: at least the character's width in the wider of the common fonts.
int width_of(char first_byte) {
    constexpr std::string_view narrow = " !'(),./:;I[\\]fijlrt|-";
    constexpr std::string_view wide = "MWm%@&w+<=>~#";
    if (!is_ascii(first_byte))
        return 130;
    if (narrow.find(first_byte) != std::string_view::npos)
        return 45;
    if (wide.find(first_byte) != std::string_view::npos)
        return 102;
    return is_upper(first_byte) ? 80 : 66;
}

/// Only the characters' width.
double width_as_is(std::string_view shown) {
    int width = 0;
    for (const char c : shown)
        if (!continues_character(c))
            width += width_of(c);
    return width * font_size / 100;
}

/// Of visible() text.
std::string cut(std::string text, double width) {
    if (width_as_is(text) <= width)
        return text;
    while (!text.empty() && width_as_is(text + ellipsis) > width) {
        while (!!continues_character(text.back()))
            text.pop_back();
        text.pop_back();
    }
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    return text + ellipsis;
}

/// Labels that push each other stand side by side as a block, centred on the average of their wanted places.
struct Block {
    std::size_t labels;
    double first; ///< where the first of them goes

    double next(double gap) const { return first + static_cast<double>(labels) * gap; }
};

Block joined(const Block& a, const Block& b, double gap) {
    const auto in_a = static_cast<double>(a.labels);
    const auto in_b = static_cast<double>(b.labels);
    return {a.labels + b.labels, (in_a * a.first + in_b * (b.first - in_a * gap)) / (in_a + in_b)};
}

std::vector<std::size_t> evenly_chosen(std::size_t count, std::size_t most) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < std::min(count, most); ++i)
        chosen.push_back(count <= most ? i : most == 1 ? 0 : i * (count - 1) / (most - 1));
    return chosen;
}

} // namespace

double text_width(std::string_view text) {
    return width_as_is(visible(text));
}

std::string cut_to_width(std::string_view text, double width) {
    return cut(visible(text), width);
}

std::vector<std::string> lines_of_width(std::string_view text, double width, std::size_t most) {
    std::vector<std::string> lines;
    const std::string shown = visible(text);
    for (std::size_t start = 0; start < shown.size();) {
        const std::size_t end = std::min(shown.find(' ', start), shown.size());
        const std::string word = shown.substr(start, end - start);
        if (!lines.empty() && (lines.size() == most || width_as_is(lines.back() + " " + word) <= width))
            lines.back() += " " + word;
        else
            lines.push_back(word);
        start = end + 1;
    }
    for (std::string& line : lines)
        line = cut(line, width);
    return lines;
}

std::vector<PlacedLabel> place_apart(const std::vector<double>& wanted, double gap, double low, double high) {
    assert(std::is_sorted(wanted.begin(), wanted.end()) && gap > 0 && low <= high);
    const auto room = static_cast<std::size_t>((high - low) / gap + 1e-9) + 1;
    const std::vector<std::size_t> chosen = evenly_chosen(wanted.size(), room);
    std::vector<Block> blocks;
    for (const std::size_t label : chosen) {
        blocks.push_back({1, wanted[label]});
        while (blocks.size() > 1 && blocks[blocks.size() - 2].next(gap) > blocks.back().first) {
            const Block last = blocks.back();
            blocks.pop_back();
            blocks.back() = joined(blocks.back(), last, gap);
        }
    }
    std::vector<PlacedLabel> placed;
    for (const Block& block : blocks)
        for (std::size_t i = 0; i < block.labels; ++i) {
            const auto before = static_cast<double>(placed.size());
            const auto after = static_cast<double>(chosen.size() - placed.size() - 1);
            const double at = block.first + static_cast<double>(i) * gap;
            placed.push_back(
                {chosen[placed.size()], std::max(low + before * gap, std::min(at, high - after * gap))});
        }
    return placed;
}

} // namespace inkturn
