#include "printed/marks.hpp"

#include "inkturn/base/ascii.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr Points same_marks_edge{6};

/// The densest place among edges.
struct EdgePlace {
    std::optional<Points> at; ///< nothing where there is no edge
    std::size_t there = 0;
    std::size_t all = 0;

    bool holds(Points edge) const { return at && abs(edge - *at) <= same_marks_edge; }
    bool is_clear() const { return there >= 3 && 5 * there >= 3 * all; }
};

EdgePlace commonest(std::vector<Points> edges) {
    std::sort(edges.begin(), edges.end());
    EdgePlace place;
    place.all = edges.size();
    for (std::size_t first = 0, end = 0; first < edges.size(); ++first) {
        while (end < edges.size() && edges[end] <= edges[first] + same_marks_edge)
            ++end;
        if (end - first >= place.there) { // the rightmost if tied
            place.there = end - first;
            place.at = edges[first + (end - first) / 2];
        }
    }
    return place;
}

Points edge_of(const PrintedMarks& marks) {
    return marks.place == PrintedMarks::Place::before_text ? marks.left : marks.right;
}

/// The edges at which marks stand: in each kind of region, and there on pages of even and of odd position
/// where these differ, as with margins for binding.
class MarksEdges {
  public:
    MarksEdges(const Layout& layout, const std::vector<const PrintedMarks*>& all) : layout_(&layout) {
        std::array<std::vector<Points>, 2 * sides> edges;
        for (const PrintedMarks* const marks : all)
            if (marks->gap > 0.9 * layout.lines[marks->line].height)
                edges[index_of(*marks)].push_back(edge_of(*marks));
        for (std::size_t i = 0; i < edges.size(); i += 2) {
            const EdgePlace even = commonest(edges[i]);
            const EdgePlace odd = commonest(edges[i + 1]);
            edges[i].insert(edges[i].end(), edges[i + 1].begin(), edges[i + 1].end());
            const EdgePlace any = commonest(edges[i]);
            const bool differ =
                even.is_clear() && odd.is_clear() && abs(*even.at - *odd.at) > same_marks_edge / 2;
            edges_[i] = differ ? even : any;
            edges_[i + 1] = differ ? odd : any;
        }
    }

    bool has(const PrintedMarks& marks) const { return edges_[index_of(marks)].holds(edge_of(marks)); }

    Shifts shifts() const {
        Shifts shifts;
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            const bool is_right = i / 2 == static_cast<std::size_t>(Region::Side::right);
            const std::size_t base = is_right ? 2 * static_cast<std::size_t>(Region::Side::left) : i / 2 * 2;
            const std::optional<Points> at = edges_[i].at;
            const std::optional<Points> base_at = edges_[base].at;
            shifts.points[i] = at && base_at ? *at - *base_at : Points(0);
        }
        return shifts;
    }

  private:
    static constexpr std::size_t sides = 3;

    std::size_t index_of(const PrintedMarks& marks) const {
        return Shifts::index(layout_->region_of(layout_->lines[marks.line]));
    }

    const Layout* layout_;
    std::array<EdgePlace, 2 * sides> edges_;
};

/// The edges at which most marks of a form stand, or where most of the others do.
MarksEdges edges_of(const Layout& layout, const MarksOnPaper& all, std::size_t form, MarksPlace place) {
    const auto side =
        place == MarksPlace::before_text ? PrintedMarks::Place::before_text : PrintedMarks::Place::line_end;
    std::vector<const PrintedMarks*> refs;
    for (const PrintedMarks& marks : all.marks)
        if (marks.form == form && marks.place == side)
            refs.push_back(&marks);
    const MarksEdges edges(layout, refs);
    if (place != MarksPlace::second_edge)
        return edges;
    const auto is_at = [&](const PrintedMarks* marks) { return edges.has(*marks); };
    refs.erase(std::remove_if(refs.begin(), refs.end(), is_at), refs.end());
    return {layout, refs};
}

/// Whether the text before the marks on their line is centred.
bool is_beside_centred(const Line& line, const PrintedMarks& marks, Points text_left) {
    constexpr Points least_gap{36};
    const Points before = line.box.left - text_left;
    return before > least_gap && marks.gap > least_gap &&
           std::max(before, marks.gap) < 2.5 * std::min(before, marks.gap);
}

void tell_numbers_of_formulae(const Layout& layout, std::vector<PrintedMarks>& all) {
    std::vector<Points> text_lefts; // by region
    for (const Region& region : layout.regions)
        text_lefts.push_back(region.box.right);
    for (const Line& line : layout.lines)
        text_lefts[line.region] = std::min(text_lefts[line.region], line.box.left);
    std::vector<PrintedMarks*> numbers;
    for (PrintedMarks& marks : all) {
        const Line& line = layout.lines[marks.line];
        const bool is_next = marks.count == static_cast<int>(numbers.size()) + 1;
        if (marks_forms[marks.form].print == "(#)" && is_next &&
            is_beside_centred(line, marks, text_lefts[line.region]))
            numbers.push_back(&marks);
    }
    for (PrintedMarks* const marks : numbers)
        marks->may_number_a_formula = numbers.size() > 1;
}

/// Whether marks are alone on their line, left of where marks are elsewhere.
bool is_above_label(const Layout& layout, const PrintedMarks& marks) {
    const PrintedBox& box = layout.lines[marks.line].box;
    return layout.below(marks.line) && marks.left == box.left && marks.right == box.right;
}

bool belongs(const Layout& layout, const PrintedMarks& marks, std::size_t form, MarksPlace place,
             const MarksEdges& edges) {
    using Place = PrintedMarks::Place;
    const bool is_of_form = marks.form == form;
    const MarksForm& own = marks_forms[marks.form];
    if (place == MarksPlace::above)
        return is_of_form && is_above_label(layout, marks);
    if (place == MarksPlace::after_label || place == MarksPlace::before_text)
        return marks.place == (place == MarksPlace::after_label ? Place::after_label : Place::before_text) &&
               is_of_form && (!own.is_bare() || edges.has(marks));
    if (marks.place == Place::before_text || (!is_of_form && own.is_bare()))
        return false;
    if (marks.place == Place::after_label)
        return is_of_form || own.stands_by_its_words();
    const bool ends_text =
        place == MarksPlace::line_end && (marks.after_sentence || std::isinf(marks.gap.value()));
    return ends_text || (is_of_form && own.stands_by_its_words()) || edges.has(marks);
}

} // namespace

MarksOnPaper recognise_marks(const Layout& layout) {
    MarksOnPaper found;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        const Line* const next = layout.below(i);
        if (auto total = read_total(line, next)) {
            total->line = i;
            found.totals.push_back(*total);
            continue;
        }
        const auto before = read_marks_before(line);
        for (auto read : {before ? std::make_optional(before->marks) : std::nullopt, read_marks(line, next)})
            if (read) {
                read->line = i;
                found.marks.push_back(*read);
            }
    }
    tell_numbers_of_formulae(layout, found.marks);
    return found;
}

std::vector<std::size_t> lines_with_marks(const MarksOnPaper& all) {
    std::vector<std::size_t> lines;
    for (const PrintedMarks& read : all.marks)
        lines.push_back(read.line);
    for (const PrintedTotal& total : all.totals)
        lines.push_back(total.line);
    std::sort(lines.begin(), lines.end());
    return lines;
}

MarksChosen chosen_marks(const Layout& layout, const MarksOnPaper& all, std::size_t form, MarksPlace place) {
    const MarksEdges edges = edges_of(layout, all, form, place);
    MarksChosen chosen{{{}, all.totals}, form, edges.shifts()};
    for (const PrintedMarks& marks : all.marks)
        if (belongs(layout, marks, form, place, edges)) {
            chosen.marks.push_back(marks);
            chosen.marks.back().line += place == MarksPlace::above ? 1 : 0;
        }
    return chosen;
}

} // namespace inkturn::printed
