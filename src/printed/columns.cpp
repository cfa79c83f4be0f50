#include "inkturn/base/ascii.hpp"
#include "printed/line.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr Points min_gutter{4.5};
constexpr std::size_t places = 120; // where a gutter may lie: evenly over the middle of the page
constexpr double middle_from = 0.3; // of the page's width
constexpr double middle_to = 0.7;
constexpr double wide_text = 0.2; // likewise: what a column has, and a table seldom
constexpr std::size_t min_column_lines = 5;

Points place(std::size_t i, Points width) {
    return (middle_from + (middle_to - middle_from) * static_cast<double>(i) / places) * width;
}

bool is_free_at(const Line& line, Points at) {
    return std::none_of(line.words.begin(), line.words.end(), [&](const PrintedWord* word) {
        return word->box.left < at + min_gutter / 2 && word->box.right > at - min_gutter / 2;
    });
}

using WordAt = Words::const_iterator;

/// Running text: several words, and letters in them.
bool is_text(WordAt first, WordAt end, Points width) {
    if (end - first < 3 || (*(end - 1))->box.right - (*first)->box.left < wide_text * width)
        return false;
    return std::accumulate(
               first, end, std::ptrdiff_t{0}, [](std::ptrdiff_t letters, const PrintedWord* word) {
                   return letters + std::count_if(word->text.begin(), word->text.end(), is_letter);
               }) >= 8;
}

/// How many lines leave each place free, and have text left and right of it.
class TextBeside {
  public:
    void add(const Words& words, Points width) {
        lines_ += is_text(words.begin(), words.end(), width) ? 1U : 0U;
        Points free_from;
        for (WordAt word = words.begin();; ++word) {
            const Points free_to = word == words.end() ? width : (*word)->box.left;
            if (free_to - free_from >= min_gutter) {
                const bool is_left = is_text(words.begin(), word, width);
                const bool is_right = is_text(word, words.end(), width);
                for (std::size_t i = 0; i < places; ++i)
                    if (free_from + min_gutter / 2 <= place(i, width) &&
                        place(i, width) <= free_to - min_gutter / 2) {
                        ++free_[i];
                        left_[i] += is_left ? 1U : 0U;
                        right_[i] += is_right ? 1U : 0U;
                    }
            }
            if (word == words.end())
                return;
            free_from = std::max(free_from, (*word)->box.right);
        }
    }

    /// The middle of the places that fewest lines cross, of those with most lines of text on both sides; the
    /// nearer to the page's middle, the more these count. Nothing where there are no columns, or more text
    /// crosses them.
    std::optional<std::size_t> gutter() const {
        constexpr double nearly = 0.95;
        double most = 0;
        for (std::size_t i = 0; i < places; ++i)
            most = std::max(most, worth(i));
        std::vector<std::size_t> best;
        for (std::size_t i = 0; i < places && most > 0; ++i) {
            if (worth(i) < nearly * most || (!best.empty() && free_[i] < free_[best.front()]))
                continue;
            if (!best.empty() && free_[i] > free_[best.front()])
                best.clear();
            best.push_back(i);
        }
        return best.empty() ? std::nullopt : std::optional<std::size_t>(best[best.size() / 2]);
    }

  private:
    double worth(std::size_t i) const {
        const std::size_t lines = std::min(left_[i], right_[i]);
        const double off_centre = std::abs(static_cast<double>(i) / places - 0.5);
        return lines < min_column_lines || lines_ > free_[i] + lines
                   ? 0
                   : static_cast<double>(lines) * (1 - off_centre);
    }

    std::size_t lines_ = 0; ///< of text in all
    std::array<std::size_t, places> free_{};
    std::array<std::size_t, places> left_{};
    std::array<std::size_t, places> right_{};
};

/// Cuts a page into its regions.
class Cutter {
  public:
    Cutter(Layout& layout, std::size_t page, Points width, PageBody body)
        : layout_(layout), page_(page), width_(width), body_(std::move(body)), top_(body_.top) {}

    void cut(std::optional<Points> gutter) {
        const std::vector<Line>& lines = body_.lines;
        for (std::size_t first = 0; first < lines.size();) {
            std::size_t end = first;
            while (gutter && end < lines.size() && is_free_at(lines[end], *gutter))
                ++end;
            if (end > first && append_columns(first, end, *gutter))
                first = end;
            else
                do
                    whole_.push_back(lines[first++]);
                while (first < end);
        }
        close_whole(body_.bottom);
    }

  private:
    void close_whole(Points bottom) {
        if (whole_.empty())
            return;
        append({page_, {Points(0), top_, width_, bottom}, Region::Side::whole}, std::move(whole_));
        whole_.clear();
        top_ = bottom;
    }

    /// The lines as two columns, if there is text on both sides.
    bool append_columns(std::size_t first, std::size_t end, Points at) {
        Words left;
        Words right;
        bool has_left = false;
        bool has_right = false;
        for (std::size_t i = first; i < end; ++i) {
            const Words& words = body_.lines[i].words;
            const auto middle = std::find_if(words.begin(), words.end(),
                                             [&](const PrintedWord* word) { return word->box.left > at; });
            has_left = has_left || is_text(words.begin(), middle, width_);
            has_right = has_right || is_text(middle, words.end(), width_);
            left.insert(left.end(), words.begin(), middle);
            right.insert(right.end(), middle, words.end());
        }
        if (!has_left || !has_right)
            return false;
        close_whole(std::max(top_, body_.lines[first].box.top));
        const Points bottom = end < body_.lines.size() ? body_.lines[end].box.top : body_.bottom;
        append({page_, {Points(0), top_, at, bottom}, Region::Side::left}, lines_of(left));
        append({page_, {at, top_, width_, bottom}, Region::Side::right}, lines_of(right));
        top_ = bottom;
        return true;
    }

    void append(Region region, std::vector<Line> lines) {
        for (Line& line : lines) {
            if (is_notice(line))
                continue;
            line.region = layout_.regions.size();
            layout_.lines.push_back(std::move(line));
        }
        layout_.regions.push_back(region);
    }

    Layout& layout_;
    std::size_t page_;
    Points width_;
    PageBody body_;
    Points top_;
    std::vector<Line> whole_; ///< since the last columns
};

} // namespace

Layout regions_of(const std::vector<PrintedPage>& pages, std::vector<PageBody> bodies, Columns columns) {
    TextBeside text;
    for (std::size_t page = 0; columns == Columns::told && page < pages.size(); ++page)
        for (const Line& line : bodies[page].lines)
            text.add(line.words, pages[page].width);
    const auto gutter = text.gutter();
    Layout layout;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        const Points width = pages[page].width;
        Cutter(layout, page, width, std::move(bodies[page]))
            .cut(gutter ? std::optional<Points>(place(*gutter, width)) : std::nullopt);
    }
    return layout;
}

} // namespace inkturn::printed
