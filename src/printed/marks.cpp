#include "printed/marks.hpp"
#include "inkturn/base/ascii.hpp"
#include "printed/line_end.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <tuple>
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

/// The edges at which marks of a form stand: in each kind of region, and there on pages of even and of odd
/// position where these differ, as with margins for binding.
class MarksEdges {
  public:
    MarksEdges(const Layout& layout, const std::vector<PrintedMarks>& all, MarksForm form) : layout_(layout) {
        std::size_t apart = 0;
        std::size_t in_text = 0;
        for (const PrintedMarks& marks : all)
            if (marks.form == form)
                ++(is_apart(marks) ? apart : in_text);
        is_ragged_ = 4 * apart < in_text;
        for (std::size_t side = 0; side < sides; ++side) {
            const Edges any =
                edges_among(all, form, [&](const Region& region) { return index(region) / 2 == side; });
            const Edges even =
                edges_among(all, form, [&](const Region& region) { return index(region) == 2 * side; });
            const Edges odd =
                edges_among(all, form, [&](const Region& region) { return index(region) == 2 * side + 1; });
            const bool differ = even.right.is_clear() && odd.right.is_clear() &&
                                abs(*even.right.at - *odd.right.at) > same_marks_edge / 2;
            edges_[2 * side] = differ ? even : any;
            edges_[2 * side + 1] = differ ? odd : any;
        }
    }

    /// At the right edge; or one below the other by their left edges, apart from the text. Where few marks
    /// are set apart, right after a sentence.
    bool has(const PrintedMarks& marks) const {
        if (is_ragged_ && marks.after_sentence)
            return true;
        const Edges& edges = edges_[index(region_of(marks))];
        return edges.right.holds(marks.right) || (is_apart(marks) && edges.left.holds(marks.left));
    }

    Shifts shifts() const {
        Shifts shifts;
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            const bool is_right = i / 2 == static_cast<std::size_t>(Region::Side::right);
            const std::size_t base = is_right ? 2 * static_cast<std::size_t>(Region::Side::left) : i / 2 * 2;
            const std::optional<Points> at = edges_[i].right.at;
            const std::optional<Points> base_at = edges_[base].right.at;
            shifts.points[i] = at && base_at ? *at - *base_at : Points(0);
        }
        return shifts;
    }

  private:
    static constexpr std::size_t sides = 3;

    struct Edges {
        EdgePlace left;
        EdgePlace right;
    };

    static std::size_t index(const Region& region) { return Shifts::index(region); }
    const Region& region_of(const PrintedMarks& marks) const {
        return layout_.regions[layout_.lines[marks.line].region];
    }
    bool is_apart(const PrintedMarks& marks) const {
        return marks.gap > 0.9 * layout_.lines[marks.line].height;
    }

    template <typename Is>
    Edges edges_among(const std::vector<PrintedMarks>& all, MarksForm form, const Is& is) const {
        std::vector<Points> lefts;
        std::vector<Points> rights;
        for (const PrintedMarks& marks : all) {
            if (marks.form != form || !is_apart(marks) || !is(region_of(marks)))
                continue;
            lefts.push_back(marks.left);
            rights.push_back(marks.right);
        }
        return {commonest(std::move(lefts)), commonest(std::move(rights))};
    }

    const Layout& layout_;
    std::array<Edges, 2 * sides> edges_;
    bool is_ragged_ = false;
};

/// The line that marks belong to: if they are a little higher than a line to their left, that one.
std::size_t line_of(const Layout& layout, std::size_t line, const PrintedMarks& marks) {
    if (line + 1 == layout.lines.size())
        return line;
    const Line& own = layout.lines[line];
    const Line& next = layout.lines[line + 1];
    const bool is_beside = own.region == next.region && next.box.right < marks.left &&
                           own.box.bottom - next.box.top > 0.4 * std::min(own.height, next.height);
    return is_beside ? line + 1 : line;
}

constexpr std::array<MarksForm, 6> all_forms{MarksForm::round,        MarksForm::square,
                                             MarksForm::round_worded, MarksForm::square_worded,
                                             MarksForm::worded,       MarksForm::plain};
using FormCounts = std::array<std::size_t, all_forms.size()>;

std::size_t index(MarksForm form) {
    return static_cast<std::size_t>(form);
}

std::size_t most_of(const FormCounts& counts) {
    return static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin());
}

/// The last if tied: forms with words are more surely marks.
std::size_t last_most_of(const FormCounts& counts) {
    const auto most = std::max_element(counts.rbegin(), counts.rend());
    return counts.size() - 1 - static_cast<std::size_t>(most - counts.rbegin());
}

/// `[3 marks]` at a line's end is nothing else, wherever that end is.
bool stands_by_its_words(const PrintedMarks& marks) {
    return marks.form == MarksForm::round_worded || marks.form == MarksForm::square_worded;
}

/// The forms of marks in questions, and which form states the sum of marks in another one at a question's
/// end.
class FormVotes {
  public:
    void add(const std::vector<PrintedMarks>& in_question, std::size_t most) {
        FormCounts counts{};
        std::array<long long, all_forms.size()> sums{};
        for (const PrintedMarks& marks : in_question) {
            ++counts[index(marks.form)];
            sums[index(marks.form)] += marks.count;
        }
        for (std::size_t form = 0; form < all_forms.size(); ++form) {
            votes_[form] += std::min(counts[form], most);
            if (counts[form] == 0 || form == index(in_question.back().form))
                continue;
            ++(sums[form] == in_question.back().count ? summed_
                                                      : unequal_)[index(in_question.back().form)][form];
        }
    }

    MarksForm form_of_parts() const {
        const std::size_t most = last_most_of(votes_);
        const std::size_t other = most_of(summed_[most]);
        const bool is_sum = summed_[most][other] > std::max(summed_[other][most], unequal_[most][other]);
        return all_forms[is_sum ? other : most];
    }

  private:
    FormCounts votes_{};
    std::array<FormCounts, all_forms.size()> summed_{};  ///< by the form that ends a question with the sum
    std::array<FormCounts, all_forms.size()> unequal_{}; ///< by the form that ends it with another number
};

MarksForm form_of_parts(const std::vector<PrintedMarks>& marks, const std::vector<std::size_t>& bounds) {
    constexpr std::size_t max_of_question = 10;
    constexpr std::size_t max_at_ends = 6; // what comes before or after the questions may be in it
    FormVotes votes;
    auto next = marks.begin();
    for (std::size_t i = 1; i < bounds.size(); ++i) {
        std::vector<PrintedMarks> in_question;
        for (; next != marks.end() && next->line < bounds[i]; ++next)
            in_question.push_back(*next);
        votes.add(in_question, i == 1 || i + 1 == bounds.size() ? max_at_ends : max_of_question);
    }
    return votes.form_of_parts();
}

/// Those that decide the edges: for each question on a page only the first few of the form, and fewer at one
/// edge, so that a table or a page of formulae doesn't outvote all other questions.
std::vector<PrintedMarks> heard(const Layout& layout, const MarksOnPaper& found,
                                const std::vector<std::size_t>& bounds) {
    constexpr std::size_t most = 8;
    constexpr std::size_t max_at_edge = 5;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> counts; // by question and page
    std::map<std::tuple<std::size_t, std::size_t, long>, std::size_t> at_edges;
    std::vector<PrintedMarks> all;
    for (const PrintedMarks& marks : found.marks) {
        const auto question = static_cast<std::size_t>(
            std::upper_bound(bounds.begin(), bounds.end(), marks.line) - bounds.begin());
        const std::size_t page = layout.page_of(layout.lines[marks.line]);
        const long edge = std::lround(marks.right / same_marks_edge);
        if (marks.form == found.form && ++at_edges[{question, page, edge}] <= max_at_edge &&
            ++counts[{question, page}] <= most)
            all.push_back(marks);
    }
    return all;
}

/// Headings `Marks` over columns of numbers.
struct MarksColumn {
    Points left;
    Points right;
};

std::optional<MarksColumn> marks_heading(const Line& line) {
    constexpr Points margin{8};
    const PrintedWord& word = *line.words.back();
    const std::string text = lower_case(word.text.substr(0, 12));
    const bool is_heading = text == "marks" || text == "mark" || text == "mark(s)" || text == "(marks)";
    const bool is_apart = gap_before(line, line.words.size() - 1) > line.height;
    return is_heading && is_apart
               ? std::optional<MarksColumn>(MarksColumn{word.box.left - margin, word.box.right + margin})
               : std::nullopt;
}

/// Numbers in columns headed `Marks`: those of all pages after the heading.
std::vector<PrintedMarks> plain_marks(const Layout& layout) {
    std::vector<MarksColumn> columns;
    std::vector<PrintedMarks> all;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        const auto heading = marks_heading(line);
        const bool is_new =
            heading && std::none_of(columns.begin(), columns.end(), [&](const MarksColumn& column) {
                return abs(column.left - heading->left) < same_marks_edge;
            });
        if (is_new)
            columns.push_back(*heading);
        auto marks = columns.empty() || read_total(line) ? std::nullopt : read_plain_marks(line);
        if (!marks)
            continue;
        marks->line = i;
        const Points middle = (marks->left + marks->right) / 2;
        if (std::any_of(columns.begin(), columns.end(), [&](const MarksColumn& column) {
                return column.left <= middle && middle <= column.right;
            }))
            all.push_back(*marks);
    }
    return all;
}

/// Whether the text before the marks on their line is centred.
bool is_beside_centred(const Layout& layout, const PrintedMarks& marks, Points text_left) {
    constexpr Points least_gap{36};
    const Line& line = layout.lines[marks.line];
    Points right = line.box.left;
    for (const PrintedWord* const word : line.words)
        if (word->box.right < marks.left)
            right = std::max(right, word->box.right);
    const Points before = line.box.left - text_left;
    const Points after = marks.left - right;
    return line.box.left < marks.left && before > least_gap && after > least_gap &&
           std::max(before, after) < 2.5 * std::min(before, after);
}

void tell_numbers_of_formulae(const Layout& layout, std::vector<PrintedMarks>& all) {
    std::map<std::size_t, Points> text_lefts; // by region
    for (const Line& line : layout.lines) {
        const auto [left, is_new] = text_lefts.try_emplace(line.region, line.box.left);
        if (!is_new)
            left->second = std::min(left->second, line.box.left);
    }
    std::vector<PrintedMarks*> numbers;
    for (PrintedMarks& marks : all) {
        const bool is_next = marks.count == static_cast<int>(numbers.size()) + 1;
        if (marks.form == MarksForm::round && is_next &&
            is_beside_centred(layout, marks, text_lefts[layout.lines[marks.line].region]))
            numbers.push_back(&marks);
    }
    for (PrintedMarks* const marks : numbers)
        marks->may_number_a_formula = numbers.size() > 1;
}

template <typename Is>
void remove_where(std::vector<PrintedMarks>& all, const Is& is) {
    all.erase(std::remove_if(all.begin(), all.end(), is), all.end());
}

} // namespace

MarksOnPaper recognise_marks(const Layout& layout) {
    MarksOnPaper found;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        if (auto total = read_total(line)) {
            total->line = i;
            found.totals.push_back(*total);
        } else if (auto marks = read_marks(line)) {
            marks->line = line_of(layout, i, *marks);
            found.marks.push_back(*marks);
        } else if (i > 0 && (marks = read_wrapped_marks(layout.lines[i - 1], line))) {
            marks->line = i;
            found.marks.push_back(*marks);
        }
    }
    std::vector<PrintedMarks> plain = plain_marks(layout);
    if (plain.size() >= 3 && 4 * found.marks.size() <= plain.size())
        found.marks = std::move(plain);
    tell_numbers_of_formulae(layout, found.marks);
    FormCounts counts{};
    for (const PrintedMarks& marks : found.marks)
        ++counts[index(marks.form)];
    found.form = all_forms[most_of(counts)];
    found.shifts = MarksEdges(layout, found.marks, found.form).shifts();
    return found;
}

MarksOnPaper marks_of_questions(const Layout& layout, MarksOnPaper found,
                                const std::vector<std::size_t>& bounds) {
    const auto is_outside = [&](const PrintedMarks& marks) {
        return bounds.empty() || marks.line < bounds.front() || marks.line >= bounds.back();
    };
    remove_where(found.marks, is_outside);
    found.form = form_of_parts(found.marks, bounds);
    const MarksEdges edges(layout, heard(layout, found, bounds), found.form);
    const auto is_text = [&](const PrintedMarks& marks) {
        const bool is_by_words = marks.form == found.form ? stands_by_its_words(marks) || marks.after_label
                                                          : stands_by_its_words(marks) && marks.after_label;
        return !is_by_words && !edges.has(marks);
    };
    remove_where(found.marks, is_text);
    found.shifts = edges.shifts();
    return found;
}

std::string text_of(const PrintedMarks& marks) {
    std::string count = std::to_string(marks.count);
    switch (marks.form) {
    case MarksForm::round:
        return "(" + count + ")";
    case MarksForm::square:
        return "[" + count + "]";
    case MarksForm::round_worded:
        return "(" + marks_text(marks.count) + ")";
    case MarksForm::square_worded:
        return "[" + marks_text(marks.count) + "]";
    case MarksForm::worded:
        return marks_text(marks.count);
    case MarksForm::plain:
        return count;
    }
    return count;
}

std::string marks_text(int count) {
    return std::to_string(count) + (count == 1 ? " mark" : " marks");
}

} // namespace inkturn::printed
