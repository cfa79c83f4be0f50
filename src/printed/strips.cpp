#include "printed/strips.hpp"

#include <algorithm>

namespace inkturn::printed {
namespace {

constexpr Points max_pad{3};               // above a question
constexpr std::size_t lines_that_rise = 4; // before or after a line that may share its height
constexpr double shared_height = 0.3;      // of a line, from which it is beside another and not above it

/// The span without those at its end that are there to write on.
RowSpan without_answer_lines(const Layout& layout, RowSpan span) {
    while (span.end > span.first && is_answer_line(layout.lines[span.end - 1]))
        --span.end;
    return span;
}

/// The first of the lines that belong to the line at `first` by their height: the upper half of a fraction
/// comes before the line that it is in.
std::size_t first_beside(const Layout& layout, std::size_t first, std::size_t after) {
    const Line& line = layout.lines[first];
    Points top = line.box.top;
    std::size_t earliest = first;
    for (std::size_t i = first; i > after && first - i < lines_that_rise; --i) {
        const Line& before = layout.lines[i - 1];
        const Points shared = before.box.bottom - top;
        const bool is_near =
            i > 1 && layout.below(i - 2) &&
            before.middle() - layout.lines[i - 2].middle() > 1.4 * (line.middle() - before.middle());
        if (before.region != line.region || shared <= (is_near ? Points(0) : shared_height * before.height))
            break;
        earliest = i - 1;
        top = std::min(top, before.box.top);
    }
    return earliest;
}

/// The highest edge of a span's first lines, in the region of the first.
Points top_of(const Layout& layout, RowSpan span) {
    Points top = layout.lines[span.first].box.top;
    for (std::size_t i = span.first; i < std::min(span.end, span.first + lines_that_rise); ++i)
        if (layout.lines[i].region == layout.lines[span.first].region)
            top = std::min(top, layout.lines[i].box.top);
    return top;
}

/// The lowest edge of the lines before one, in its region; nothing lower than the region's top.
Points bottom_before(const Layout& layout, std::size_t end, std::size_t region) {
    Points bottom = layout.regions[region].box.top;
    for (std::size_t i = end; i > 0 && end - i < lines_that_rise && layout.lines[i - 1].region == region; --i)
        bottom = std::max(bottom, layout.lines[i - 1].box.bottom);
    return bottom;
}

/// A left column's edge is as far from its text as the right one's, which is the gutter, so that strips of
/// both can be put below each other; words further left stay inside.
Points left_edge(const Layout& layout, RowSpan span, const Shifts& shifts) {
    const Region& region = layout.region_of(layout.lines[span.first]);
    const Region right{region.page, region.box, Region::Side::right};
    const Points to_right_column = shifts.of(right) - shifts.of(region);
    if (region.side != Region::Side::left || to_right_column <= Points(0))
        return region.box.left;
    Points left = region.box.right - to_right_column;
    for (std::size_t i = span.first; i < span.end; ++i)
        left = std::min(left, layout.lines[i].box.left);
    return std::max(left, region.box.left);
}

/// Half way between two lines, or a pad above the lower one where that is nearer to it.
Points between(Points upper, Points lower) {
    return std::max(lower - max_pad, (upper + lower) / 2);
}

/// The strip of a span's lines in one region; the first region of its question, or another.
void append_strip(std::vector<PageStrip>& strips, const Layout& layout, const Shifts& shifts, RowSpan span,
                  bool is_first) {
    const std::size_t region_at = layout.lines[span.first].region;
    const Region& region = layout.regions[region_at];
    const Points left = left_edge(layout, span, shifts);
    span = without_answer_lines(layout, span);
    if (span.first == span.end)
        return;
    Points top = region.box.top;
    while (!is_first && is_answer_line(layout.lines[span.first]))
        top = std::max(top, layout.lines[span.first++].box.bottom);
    const Points own = top_of(layout, span);
    top = is_first ? std::min(own, between(bottom_before(layout, span.first, region_at), own))
                   : std::min(top, own);
    const Points lowest = bottom_before(layout, span.end, region_at);
    const Points bottom = layout.below(span.end - 1)
                              ? between(lowest, top_of(layout, {span.end, layout.lines.size(), 0}))
                              : region.box.bottom;
    strips.push_back(
        {region.page, std::max(Points(0), top), std::max(bottom, lowest), left, region.box.right});
}

std::vector<PageStrip> strips_of(const Layout& layout, const Shifts& shifts, RowSpan whole) {
    std::vector<PageStrip> strips;
    for (std::size_t first = whole.first; first < whole.end;) {
        std::size_t end = first + 1;
        while (end < whole.end && layout.lines[end].region == layout.lines[first].region)
            ++end;
        append_strip(strips, layout, shifts, {first, end, whole.last_marks}, first == whole.first);
        first = end;
    }
    return strips;
}

} // namespace

std::vector<std::vector<PageStrip>> strips_of(const Layout& layout, const Shifts& shifts,
                                              const std::vector<RowSpan>& spans) {
    std::vector<RowSpan> risen = spans;
    for (std::size_t i = 0; i < spans.size(); ++i) {
        const std::size_t after = i > 0 ? std::max(spans[i - 1].last_marks + 1,
                                                   spans[i].first - std::min(spans[i].first, lines_that_rise))
                                        : 0;
        const std::size_t earliest = first_beside(layout, spans[i].first, std::min(after, spans[i].first));
        risen[i].first = earliest;
        if (i > 0)
            risen[i - 1].end = std::min(risen[i - 1].end, earliest);
    }
    std::vector<std::vector<PageStrip>> strips;
    for (const RowSpan& span : risen)
        strips.push_back(strips_of(layout, shifts, span));
    return strips;
}

} // namespace inkturn::printed
