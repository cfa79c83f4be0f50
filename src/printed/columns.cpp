#include "inkturn/base/ascii.hpp"
#include "printed/line.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr Points min_gutter{4.5};
constexpr Points same_column_edge{4};
constexpr double middle_from = 0.3; // of the page's width: where a gutter may lie
constexpr double middle_to = 0.7;
constexpr std::size_t min_column_lines = 5;

struct Gap {
    Points left;
    Points right;
};
using Gaps = std::vector<Gap>;

void append_if_wide(Gaps& gaps, Points left, Points right) {
    if (right - left >= min_gutter)
        gaps.push_back({left, right});
}

/// Where a line leaves the middle of the page free.
Gaps gaps_of(const Line& line, Points width) {
    Gaps gaps;
    Points free_from = middle_from * width;
    for (const PrintedWord* const word : line.words) {
        append_if_wide(gaps, free_from, std::min(word->box.left, middle_to * width));
        free_from = std::max(free_from, word->box.right);
    }
    append_if_wide(gaps, free_from, middle_to * width);
    return gaps;
}

Gaps shared(const Gaps& a, const Gaps& b) {
    Gaps both;
    for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
        append_if_wide(both, std::max(a[i].left, b[j].left), std::min(a[i].right, b[j].right));
        ++(a[i].right < b[j].right ? i : j);
    }
    return both;
}

/// Whether a line is of running text: several words, and letters in them, but no total.
bool is_text(const Line& line) {
    const LineText start = text_from_start(line);
    if (lower_case(start.text).find("total") != std::string::npos)
        return false;
    const auto letters = std::count_if(start.text.begin(), start.text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    });
    return line.words.size() >= 3 && letters >= 8;
}

/// Whether the lines on one side of a gutter read as a column: enough of text, some of it wide, from one left
/// edge on.
bool is_column(const std::vector<Line>& lines, Points width) {
    std::vector<Points> lefts;
    std::size_t wide = 0;
    for (const Line& line : lines) {
        if (!is_text(line))
            continue;
        lefts.push_back(line.box.left);
        wide += line.box.right - line.box.left > 0.5 * width ? 1U : 0U;
    }
    if (wide < min_column_lines || 4 * lefts.size() < lines.size())
        return false;
    std::sort(lefts.begin(), lefts.end());
    std::size_t most = 0;
    for (std::size_t first = 0, end = 0; first < lefts.size(); ++first) {
        while (end < lefts.size() && lefts[end] <= lefts[first] + same_column_edge)
            ++end;
        most = std::max(most, end - first);
    }
    return 5 * most >= lefts.size();
}

struct Split {
    Points at;
    std::vector<Line> left;
    std::vector<Line> right;
};

Split split_at(Points at, const Line* first, const Line* end) {
    Words left;
    Words right;
    for (const Line* line = first; line != end; ++line)
        for (const PrintedWord* const word : line->words)
            (word->box.left < at ? left : right).push_back(word);
    return {at, lines_of(left), lines_of(right)};
}

/// Lines one after another that leave the same gutter free.
struct GutterRun {
    std::size_t end; ///< the first line after it
    std::optional<Gap> gutter;
};

GutterRun run_from(const std::vector<Line>& lines, std::size_t first, Points width) {
    Gaps gaps = gaps_of(lines[first], width);
    std::size_t end = first + 1;
    for (; end < lines.size() && !gaps.empty(); ++end) {
        Gaps narrowed = shared(gaps, gaps_of(lines[end], width));
        if (narrowed.empty())
            break;
        gaps = std::move(narrowed);
    }
    const auto off_centre = [&](const Gap& gap) { return abs(gap.left + gap.right - width); };
    const auto gutter = std::min_element(gaps.begin(), gaps.end(), [&](const Gap& a, const Gap& b) {
        return off_centre(a) < off_centre(b); // the blank after a number may be the wider one
    });
    return {end, gutter == gaps.end() ? std::nullopt : std::optional<Gap>(*gutter)};
}

/// The run's lines as two columns; nothing where they are not set in columns. Where most pages have their
/// gutter at the `usual` place, a few lines beside it are enough.
std::optional<Split> split_of(const std::vector<Line>& lines, std::size_t first, const GutterRun& run,
                              Points width, std::optional<Points> usual) {
    if (!run.gutter)
        return std::nullopt;
    const bool is_usual = usual && run.gutter->left < *usual && *usual < run.gutter->right;
    if (!is_usual && run.end - first < min_column_lines)
        return std::nullopt;
    const Points at = is_usual ? *usual : (run.gutter->left + run.gutter->right) / 2;
    Split split = split_at(at, &lines[first], &lines[first] + (run.end - first));
    const bool has_both = std::any_of(split.left.begin(), split.left.end(), is_text) && !split.right.empty();
    const Points margin = 0.08 * width;
    if ((is_usual && has_both) ||
        (is_column(split.left, split.at - margin) && is_column(split.right, width - margin - split.at)))
        return split;
    return std::nullopt;
}

/// Whether a line leaves the place free.
bool is_free_at(const Line& line, Points at, Points width) {
    const Gaps gaps = gaps_of(line, width);
    return std::any_of(gaps.begin(), gaps.end(),
                       [&](const Gap& gap) { return gap.left < at && at < gap.right; });
}

/// The first line of the run after its first that begins at the page's left edge and leaves the usual gutter
/// free: below a title with a blank by chance, columns begin there. Else the run's end.
std::size_t columns_begin(const std::vector<Line>& lines, std::size_t first, const GutterRun& run,
                          Points usual, Points width) {
    Points left = lines.front().box.left;
    for (const Line& line : lines)
        left = std::min(left, line.box.left);
    for (std::size_t i = first + 1; i < run.end; ++i)
        if (lines[i].box.left < left + same_column_edge && is_free_at(lines[i], usual, width))
            return i;
    return run.end;
}

/// Whether a line of text goes on over the place without a gap.
bool is_crossed(const std::vector<Line>& lines, Points at, Points width) {
    return std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
        return is_text(line) && line.box.left < at && line.box.right > at && !is_free_at(line, at, width);
    });
}

/// Where the gutter of at least half of the pages is, leaving out a cover and those whose text is all on one
/// side of it.
std::optional<Points> usual_gutter(const std::vector<PrintedPage>& pages,
                                   const std::vector<PageBody>& bodies) {
    std::vector<Points> gutters;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        const std::vector<Line>& lines = bodies[page].lines;
        for (std::size_t first = 0; first < lines.size();) {
            const GutterRun run = run_from(lines, first, pages[page].width);
            if (const auto split = split_of(lines, first, run, pages[page].width, std::nullopt)) {
                gutters.push_back(split->at);
                break;
            }
            first = run.end;
        }
    }
    if (gutters.empty())
        return std::nullopt;
    std::sort(gutters.begin(), gutters.end());
    const Points usual = gutters[gutters.size() / 2];
    std::size_t crossed = 0;
    for (std::size_t page = 0; page < pages.size(); ++page)
        if (is_crossed(bodies[page].lines, usual, pages[page].width))
            ++crossed;
    return crossed <= gutters.size() + 1 ? std::optional<Points>(usual) : std::nullopt;
}

/// Cuts a page into its regions.
class Cutter {
  public:
    Cutter(Layout& layout, std::size_t page, Points width, PageBody body)
        : layout_(layout), page_(page), width_(width), body_(std::move(body)), top_(body_.top) {}

    void cut(Columns columns, std::optional<Points> usual) {
        if (columns == Columns::none)
            whole_ = std::move(body_.lines);
        std::vector<Line>& lines = body_.lines;
        for (std::size_t first = 0; columns == Columns::told && first < lines.size();) {
            GutterRun run = run_from(lines, first, width_);
            if (auto split = split_of(lines, first, run, width_, usual)) {
                close_whole(std::max(top_, lines[first].box.top));
                append_columns(*split, run.end < lines.size() ? lines[run.end].box.top : body_.bottom);
            } else {
                if (usual)
                    run.end = columns_begin(lines, first, run, *usual, width_);
                std::move(lines.begin() + static_cast<std::ptrdiff_t>(first),
                          lines.begin() + static_cast<std::ptrdiff_t>(run.end), std::back_inserter(whole_));
            }
            first = run.end;
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

    void append_columns(Split& split, Points bottom) {
        append({page_, {Points(0), top_, split.at, bottom}, Region::Side::left}, std::move(split.left));
        append({page_, {split.at, top_, width_, bottom}, Region::Side::right}, std::move(split.right));
        top_ = bottom;
    }

    void append(Region region, std::vector<Line> lines) {
        for (Line& line : lines) {
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
    const auto usual = columns == Columns::told ? usual_gutter(pages, bodies) : std::nullopt;
    Layout layout;
    for (std::size_t page = 0; page < pages.size(); ++page)
        Cutter(layout, page, pages[page].width, std::move(bodies[page])).cut(columns, usual);
    return layout;
}

} // namespace inkturn::printed
