#include "exchange/picture/paper_edge.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

// What counts as certain, our own: docs/method.md.
constexpr double min_contrast = 50; ///< of the mean greys, of 255
constexpr double min_share_of_picture = 0.25;
constexpr double min_filled = 0.96;  ///< of the area between the edges
constexpr double max_off_line = 1.5; ///< pixels
constexpr double min_on_line = 0.9;  ///< of an edge's pixels
constexpr double max_slope = 0.158;  ///< tan 9 degrees
constexpr double max_slope_difference = 0.05;
constexpr std::size_t min_side = 40; ///< pixels, of the picture

/// The grey that parts dark from bright best (Otsu 1979, IEEE Trans. SMC 9(1), 62-66), and the means.
struct GreySplit {
    std::size_t threshold = 0; ///< above it is bright
    double dark = 0;
    double bright = 0;
};

GreySplit split_greys(const Raster& grey) {
    std::array<double, 256> counts{};
    for (const std::uint8_t pixel : grey.pixels)
        ++counts[pixel];
    const double all = static_cast<double>(grey.pixels.size());
    double sum = 0;
    for (std::size_t i = 0; i < counts.size(); ++i)
        sum += static_cast<double>(i) * counts[i];
    GreySplit best;
    double best_spread = -1;
    double below = 0;
    double sum_below = 0;
    for (std::size_t i = 0; i + 1 < counts.size(); ++i) {
        below += counts[i];
        sum_below += static_cast<double>(i) * counts[i];
        if (below == 0 || below == all)
            continue;
        const double dark = sum_below / below;
        const double bright = (sum - sum_below) / (all - below);
        const double spread = below * (all - below) * (bright - dark) * (bright - dark);
        if (spread > best_spread) {
            best_spread = spread;
            best = {i, dark, bright};
        }
    }
    return best;
}

/// The largest run of bright pixels that touch.
class BrightArea {
  public:
    BrightArea(const Raster& grey, std::size_t threshold) : width_(grey.width), of_(grey.pixels.size(), 0) {
        std::uint32_t number = 0;
        std::size_t largest = 0;
        for (std::size_t i = 0; i < of_.size(); ++i) {
            if (of_[i] != 0 || grey.pixels[i] <= threshold)
                continue;
            const std::size_t size = fill(grey, threshold, i, ++number);
            if (size > largest) {
                largest = size;
                number_ = number;
            }
        }
    }

    bool holds(std::size_t x, std::size_t y) const { return of_[y * width_ + x] == number_; }
    bool is_empty() const { return number_ == 0; }

  private:
    std::size_t fill(const Raster& grey, std::size_t threshold, std::size_t start, std::uint32_t number) {
        std::vector<std::size_t> open{start};
        of_[start] = number;
        std::size_t size = 0;
        while (!open.empty()) {
            const std::size_t at = open.back();
            open.pop_back();
            ++size;
            const std::size_t x = at % width_;
            const auto visit = [&](std::size_t next) {
                if (of_[next] == 0 && grey.pixels[next] > threshold) {
                    of_[next] = number;
                    open.push_back(next);
                }
            };
            if (x > 0)
                visit(at - 1);
            if (x + 1 < width_)
                visit(at + 1);
            if (at >= width_)
                visit(at - width_);
            if (at + width_ < of_.size())
                visit(at + width_);
        }
        return size;
    }

    std::size_t width_;
    std::vector<std::uint32_t> of_; ///< the number of the area that a pixel is in; 0: dark
    std::uint32_t number_ = 0;
};

/// The first and last bright pixel of each row, or of each column.
struct Outline {
    std::vector<double> along; ///< rows, or columns
    std::vector<double> first;
    std::vector<double> last;
};

Outline outline_of(const BrightArea& area, std::size_t lines, std::size_t length, bool of_rows) {
    Outline outline;
    for (std::size_t line = 0; line < lines; ++line) {
        const auto is_bright = [&](std::size_t at) {
            return of_rows ? area.holds(at, line) : area.holds(line, at);
        };
        std::size_t first = 0;
        while (first < length && !is_bright(first))
            ++first;
        if (first == length)
            continue;
        std::size_t last = length - 1;
        while (!is_bright(last))
            --last;
        outline.along.push_back(static_cast<double>(line));
        outline.first.push_back(static_cast<double>(first));
        outline.last.push_back(static_cast<double>(last));
    }
    return outline;
}

/// at = start + slope * along.
struct Edge {
    double start;
    double slope;

    double at(double along) const { return start + slope * along; }
};

Edge least_squares(const std::vector<double>& along, const std::vector<double>& at,
                   const std::vector<std::size_t>& used) {
    const double count = static_cast<double>(used.size());
    double mean_along = 0;
    double mean_at = 0;
    for (const std::size_t i : used) {
        mean_along += along[i] / count;
        mean_at += at[i] / count;
    }
    double above = 0;
    double below = 0;
    for (const std::size_t i : used) {
        above += (along[i] - mean_along) * (at[i] - mean_at);
        below += (along[i] - mean_along) * (along[i] - mean_along);
    }
    const double slope = below > 0 ? above / below : 0;
    return {mean_at - slope * mean_along, slope};
}

/// A straight edge through the middle four fifths; nothing where they don't lie on one, or at the picture's
/// own edge, beyond which the sheet may go on.
std::optional<Edge> straight_edge(const std::vector<double>& along, const std::vector<double>& at,
                                  double picture_edge) {
    std::vector<std::size_t> middle(along.size() - 2 * (along.size() / 10));
    std::iota(middle.begin(), middle.end(), along.size() / 10);
    std::vector<std::size_t> used = middle;
    Edge edge = least_squares(along, at, used);
    for (int round = 0; round < 5; ++round) {
        std::vector<std::size_t> near;
        for (const std::size_t i : middle)
            if (std::abs(at[i] - edge.at(along[i])) <= max_off_line * (round < 3 ? 4 - round : 1))
                near.push_back(i);
        if (near.size() < 8)
            return std::nullopt;
        used = std::move(near);
        edge = least_squares(along, at, used);
    }
    const bool is_straight =
        static_cast<double>(used.size()) >= min_on_line * static_cast<double>(middle.size());
    const bool is_seen = std::none_of(used.begin(), used.end(),
                                      [&](std::size_t i) { return std::abs(at[i] - picture_edge) < 1.5; });
    if (!is_straight || !is_seen || std::abs(edge.slope) > max_slope)
        return std::nullopt;
    return edge;
}

/// Of an edge given by its x along y, and one given by its y along x.
PicturePoint meeting(const Edge& upright, const Edge& level) {
    const double y = (level.start + level.slope * upright.start) / (1 - level.slope * upright.slope);
    return {upright.at(y), y};
}

double area_of(const PaperCorners& corners) {
    double twice = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const PicturePoint& a = corners[i];
        const PicturePoint& b = corners[(i + 1) % corners.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return twice / 2;
}

/// Of the pixels between the first and the last of each row.
double area_within(const Outline& rows) {
    double area = 0;
    for (std::size_t i = 0; i < rows.along.size(); ++i)
        area += rows.last[i] - rows.first[i] + 1;
    return area;
}

bool is_nearly_square(const Edge& left, const Edge& right, const Edge& top, const Edge& bottom) {
    const double turned = (top.slope + bottom.slope) / 2; // right angles: the upright ones lean the other way
    return std::abs(left.slope - right.slope) <= max_slope_difference &&
           std::abs(top.slope - bottom.slope) <= max_slope_difference &&
           std::abs(left.slope + turned) <= max_slope_difference &&
           std::abs(right.slope + turned) <= max_slope_difference;
}

} // namespace

std::optional<PaperCorners> paper_corners(const Raster& grey) {
    if (grey.width < min_side || grey.height < min_side)
        return std::nullopt;
    const GreySplit split = split_greys(grey);
    const BrightArea area(grey, split.threshold);
    if (area.is_empty() || split.bright - split.dark < min_contrast)
        return std::nullopt;
    const Outline rows = outline_of(area, grey.height, grey.width, true);
    const Outline columns = outline_of(area, grey.width, grey.height, false);
    if (rows.along.size() < min_side / 2 || columns.along.size() < min_side / 2)
        return std::nullopt;
    const auto left = straight_edge(rows.along, rows.first, 0);
    const auto right = straight_edge(rows.along, rows.last, static_cast<double>(grey.width - 1));
    const auto top = straight_edge(columns.along, columns.first, 0);
    const auto bottom = straight_edge(columns.along, columns.last, static_cast<double>(grey.height - 1));
    if (!left || !right || !top || !bottom || !is_nearly_square(*left, *right, *top, *bottom))
        return std::nullopt;
    const PaperCorners corners{meeting(*left, *top), meeting(*right, *top), meeting(*right, *bottom),
                               meeting(*left, *bottom)};
    const double sheet = area_of(corners);
    const double filled = area_within(rows) / sheet;
    if (sheet < min_share_of_picture * static_cast<double>(grey.pixels.size()) || filled < min_filled ||
        filled > 2 - min_filled)
        return std::nullopt;
    return corners;
}

} // namespace inkturn
