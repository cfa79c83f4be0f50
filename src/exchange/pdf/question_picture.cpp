#include "exchange/pdf/question_picture.hpp"

#include "exchange/pdf/margins.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace inkturn {
namespace {

constexpr Millimetres edge{1}; ///< of white round a picture
constexpr Millimetres thickest_sliver{1};
constexpr Millimetres thickest_rule{0.9};
constexpr Millimetres max_dot_gap{2};     ///< between the dots of a rule
constexpr double rule_width = 0.6;        ///< least share of the text's width
constexpr Millimetres closest_rules{4.5}; ///< from one line to write on to the next
constexpr Millimetres farthest_rules{16}; ///< likewise
constexpr Millimetres uneven{0.8};        ///< by which these distances may differ
constexpr Millimetres min_frame{40};      ///< of a strip whose frame is looked for
constexpr Millimetres thickest_frame{1};
constexpr double frame_height = 0.95;  ///< least share of the strip's height
constexpr double beside_a_frame = .02; ///< most ink in a column next to it, as a share of the height
constexpr Points crop_marks_reach{40}; ///< from a page's corners
constexpr std::size_t page_break = std::numeric_limits<std::size_t>::max();

Pixels pixels(std::size_t count) {
    return Pixels(static_cast<double>(count));
}

bool is_ink(std::uint8_t pixel) {
    return pixel < ink_below;
}

/// Rows that touch, with ink in each, and the columns that have ink. What ends is not included.
struct Band {
    std::size_t top;
    std::size_t bottom;
    std::size_t left;
    std::size_t right;
};

/// Widens the band to the ink of a row; false where there is none.
bool takes_row(Band& band, const Raster& raster, std::size_t y) {
    const std::uint8_t* const row = raster.row(y);
    if (!has_ink(row, raster.width))
        return false;
    band.bottom = y + 1;
    band.left = first_ink(row, band.left);
    band.right += end_of_ink(row + band.right, raster.width - band.right);
    return true;
}

/// The tip of something that lies beyond the strip.
bool is_sliver(const Raster& raster, const Band& band, const QuestionCut& cut) {
    return (band.top == 0 || band.bottom == raster.height) &&
           pixels(band.bottom - band.top) < thickest_sliver * cut.scale;
}

std::vector<Band> bands_of(const Raster& raster, const QuestionCut& cut) {
    std::vector<Band> bands;
    for (std::size_t y = 0; y < raster.height;) {
        Band band{y, y, raster.width, 0};
        while (y < raster.height && takes_row(band, raster, y))
            ++y;
        if (band.bottom == band.top)
            ++y;
        else if (!is_sliver(raster, band, cut))
            bands.push_back(band);
    }
    return bands;
}

bool has_ink_in_column(const Raster& raster, const Band& band, std::size_t x) {
    for (std::size_t y = band.top; y < band.bottom; ++y)
        if (is_ink(raster.row(y)[x]))
            return true;
    return false;
}

/// A thin line, drawn through or dotted, over most of the text's width.
bool is_rule(const Raster& raster, const Band& band, Pixels text_width, const QuestionCut& cut) {
    const Pixels thickness = pixels(band.bottom - band.top);
    const Pixels width = pixels(band.right - band.left);
    if (thickness > thickest_rule * cut.scale || width < rule_width * text_width)
        return false;
    const Pixels most = max_dot_gap * cut.scale;
    std::size_t last_ink = band.left;
    for (std::size_t x = band.left; x < band.right; ++x) {
        if (!has_ink_in_column(raster, band, x))
            continue;
        if (pixels(x - last_ink) > most)
            return false;
        last_ink = x;
    }
    return true;
}

/// Where a run of lines to write on that begins with this band ends; not included.
std::size_t end_of_lines(const std::vector<Band>& bands, const std::vector<bool>& rules, std::size_t first,
                         const QuestionCut& cut) {
    std::size_t next = first + 1;
    std::optional<Millimetres> pitch;
    for (; next < bands.size() && rules[next]; ++next) {
        const Millimetres step = pixels(bands[next].top - bands[next - 1].top) / cut.scale;
        if (step < closest_rules || step > farthest_rules || (pitch && abs(step - *pitch) > uneven))
            break;
        pitch = pitch.value_or(step);
    }
    return next;
}

std::vector<Band> without_lines_to_write_on(const Raster& raster, const std::vector<Band>& bands,
                                            const QuestionCut& cut) {
    std::size_t left = raster.width, right = 0;
    for (const Band& band : bands) {
        left = std::min(left, band.left);
        right = std::max(right, band.right);
    }
    std::vector<bool> rules;
    for (const Band& band : bands)
        rules.push_back(is_rule(raster, band, pixels(right - left), cut));
    std::vector<Band> kept;
    for (std::size_t i = 0; i < bands.size();) {
        const std::size_t end = rules[i] ? end_of_lines(bands, rules, i, cut) : i + 1;
        if (end == i + 1)
            kept.push_back(bands[i]);
        i = end;
    }
    return kept;
}

std::size_t ink_in_column(const Raster& raster, std::size_t x) {
    std::size_t count = 0;
    for (std::size_t y = 0; y < raster.height; ++y)
        count += is_ink(raster.row(y)[x]) ? 1U : 0U;
    return count;
}

/// How many columns from this one on, towards the inner side, are an upright line with hardly anything beside
/// it; 0 if they aren't one.
std::size_t frame_thickness(const Raster& raster, std::size_t x, bool is_left, const QuestionCut& cut) {
    const auto height = static_cast<double>(raster.height);
    double most = 0;
    std::size_t thickness = 0;
    for (; thickness < raster.width; ++thickness, x = is_left ? x + 1 : x - 1) {
        const auto ink = static_cast<double>(ink_in_column(raster, x));
        if (ink <= beside_a_frame * height)
            return most >= frame_height * height ? thickness : 0;
        if (pixels(thickness + 1) > thickest_frame * cut.scale)
            return 0;
        most = std::max(most, ink);
    }
    return 0;
}

void wipe_columns(Raster& raster, std::size_t first, std::size_t count) {
    for (std::size_t y = 0; y < raster.height; ++y)
        std::fill_n(raster.row(y) + first, count, std::uint8_t{255});
}

void wipe_frame(Raster& raster, const QuestionCut& cut) {
    if (pixels(raster.height) < min_frame * cut.scale)
        return;
    std::size_t left = raster.width, right = 0;
    for (std::size_t y = 0; y < raster.height; ++y) {
        const std::uint8_t* const row = raster.row(y);
        left = first_ink(row, left);
        right += end_of_ink(row + right, raster.width - right);
    }
    if (right == 0)
        return;
    const std::size_t at_left = frame_thickness(raster, left, true, cut);
    const std::size_t at_right = frame_thickness(raster, right - 1, false, cut);
    wipe_columns(raster, left, at_left);
    wipe_columns(raster, right - at_right, at_right);
}

/// A band that is shown, and how many blank rows were before it.
struct Slice {
    const Raster* strip;
    Band band;
    std::size_t blank;
};

std::vector<Slice> slices_of(const std::vector<Raster>& strips, const QuestionCut& cut) {
    std::vector<Slice> slices;
    for (const Raster& strip : strips) {
        std::size_t blank = page_break;
        std::size_t bottom = 0;
        for (const Band& band : without_lines_to_write_on(strip, bands_of(strip, cut), cut)) {
            slices.push_back({&strip, band, blank == page_break ? blank : band.top - bottom});
            bottom = band.bottom;
            blank = 0;
        }
    }
    return slices;
}

/// Turns slices into pictures of one width.
class Pictures {
  public:
    Pictures(const std::vector<Slice>& slices, const QuestionCut& cut)
        : slices_(slices),
          edge_(whole_pixels(edge, cut)),
          max_blank_(whole_pixels(cut.max_blank, cut)),
          blank_left_(whole_pixels(cut.blank_left, cut)) {
        std::size_t right = 0;
        left_ = page_break;
        for (const Slice& slice : slices) {
            left_ = std::min(left_, slice.band.left);
            right = std::max(right, slice.band.right);
        }
        width_ = std::max(right - left_ + 2 * edge_, whole_pixels(cut.min_width, cut));
        max_height_ = static_cast<std::size_t>(static_cast<double>(width_) * cut.max_height_ratio);
    }

    void paint(std::vector<Raster>& pictures) const {
        std::size_t count = 0;
        for (std::size_t first = 0; first < slices_.size(); ++count) {
            pictures.resize(std::max(pictures.size(), count + 1));
            const std::size_t end = end_of_picture(first);
            paint(first, end, pictures[count]);
            first = end;
        }
        pictures.resize(count);
    }

  private:
    static std::size_t whole_pixels(Millimetres length, const QuestionCut& cut) {
        return static_cast<std::size_t>(std::round((length * cut.scale).value()));
    }

    std::size_t blank_before(std::size_t slice) const {
        return slices_[slice].blank > max_blank_ ? blank_left_ : slices_[slice].blank;
    }

    std::size_t height(std::size_t slice) const {
        return slices_[slice].band.bottom - slices_[slice].band.top;
    }

    /// Breaks at the longest blank in the lower half, the last of these.
    std::size_t end_of_picture(std::size_t first) const {
        std::size_t filled = 2 * edge_ + height(first);
        std::size_t end = first + 1;
        std::size_t best = 0;
        for (; end < slices_.size(); ++end) {
            const std::size_t more = blank_before(end) + height(end);
            if (2 * filled > max_height_ && (best == 0 || slices_[end].blank >= slices_[best].blank))
                best = end;
            if (filled + more > max_height_)
                return best > 0 ? best : end;
            filled += more;
        }
        return end;
    }

    void paint(std::size_t first, std::size_t end, Raster& picture) const {
        std::size_t tall = 2 * edge_;
        for (std::size_t i = first; i < end; ++i)
            tall += height(i) + (i > first ? blank_before(i) : 0);
        picture.width = width_;
        picture.height = tall;
        picture.pixels.assign(width_ * tall, 255);
        std::size_t at = edge_;
        for (std::size_t i = first; i < end; ++i) {
            const auto& [strip, band, blank] = slices_[i];
            at += i > first ? blank_before(i) : 0;
            for (std::size_t y = band.top; y < band.bottom; ++y, ++at)
                std::copy(strip->row(y) + band.left, strip->row(y) + band.right,
                          picture.row(at) + edge_ + band.left - left_);
        }
    }

    const std::vector<Slice>& slices_;
    std::size_t edge_;
    std::size_t max_blank_;
    std::size_t blank_left_;
    std::size_t left_;
    std::size_t width_;
    std::size_t max_height_;
};

/// Whether there is some ink, but little, in all four corners.
bool has_crop_marks(const Raster& page, std::size_t reach) {
    constexpr double most = 0.08; // of a corner
    if (page.width < 4 * reach || page.height < 4 * reach)
        return false;
    for (const std::size_t left : {std::size_t{0}, page.width - reach})
        for (const std::size_t top : {std::size_t{0}, page.height - reach}) {
            std::ptrdiff_t ink = 0;
            for (std::size_t y = top; y < top + reach; ++y)
                ink += std::count_if(page.row(y) + left, page.row(y) + left + reach, is_ink);
            if (ink == 0 || static_cast<double>(ink) > most * static_cast<double>(reach * reach))
                return false;
        }
    return true;
}

} // namespace

PageStrip within_crop_marks(const PageStrip& strip, const PrintedPage& page, const Raster& drawn,
                            PixelsPerPoint scale) {
    const auto reach = static_cast<std::size_t>((crop_marks_reach * scale).value());
    if (!has_crop_marks(drawn, reach))
        return strip;
    const auto has_column = [&](std::size_t x) { return ink_in_column(drawn, x) > 0; };
    const auto has_row = [&](std::size_t y) { return has_ink(drawn.row(y), drawn.width); };
    const auto from_right = [&](std::size_t x) { return has_column(drawn.width - 1 - x); };
    const auto from_bottom = [&](std::size_t y) { return has_row(drawn.height - 1 - y); };
    const PrintedBox words = text_box(page);
    const auto cut = [&](Points before_words, const auto& has) {
        const double most = std::min(static_cast<double>(reach), (before_words * scale).value());
        auto at = static_cast<std::size_t>(std::max(0.0, most));
        while (at > 0 && has(at))
            --at;
        return pixels(at) / scale;
    };
    PageStrip inner = strip;
    inner.left = std::max(inner.left, cut(words.left, has_column));
    inner.top = std::max(inner.top, cut(words.top, has_row));
    inner.right = std::min(inner.right, page.width - cut(page.width - words.right, from_right));
    inner.bottom = std::min(inner.bottom, page.height - cut(page.height - words.bottom, from_bottom));
    return inner;
}

void paint_question(std::vector<Raster>& strips, const QuestionCut& cut, std::vector<Raster>& pictures) {
    for (Raster& strip : strips)
        wipe_frame(strip, cut);
    const std::vector<Slice> slices = slices_of(strips, cut);
    if (slices.empty())
        pictures.clear();
    else
        Pictures(slices, cut).paint(pictures);
}

} // namespace inkturn
