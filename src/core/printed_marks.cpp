#include "core/printed_marks.hpp"
#include "core/printed_letters.hpp"

#include "inkturn/number.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr int largest_read = 9999;
constexpr double same_edge = 6;        // points
constexpr double narrowest_gap = 0.8;  // of a line's height, before marks without brackets
constexpr std::size_t most_words = 16; // of a total

/// What stands at a line's end: its marks, or its last piece after a wide blank.
class LineEnd {
  public:
    explicit LineEnd(const Line& line) : line_(line), text_(text_to_end(line, most_words)) {
        text_.text = lower_case(std::move(text_.text));
        while (!text_.text.empty() && text_.text.back() == ' ')
            text_.text.pop_back();
    }

    const std::string& text() const { return text_.text; }
    double height() const { return line_.height; }

    /// The text after the last blank that is much wider than one between words.
    std::string last_piece() const {
        for (std::size_t i = text_.offsets.size(); i-- > 0;)
            if (gap_before(line_, text_.first + i) > 1.8 * line_.height)
                return text_.text.substr(std::min(text_.offsets[i], text_.text.size()));
        return text_.first == 0 ? text_.text : "";
    }

    /// The marks from this byte of the text on, which must begin a word.
    std::optional<MarksRead> marks_from(std::size_t offset, MarksForm form, std::string_view digits) const {
        const auto count = read_whole_number(digits, largest_read);
        if (!count || !std::binary_search(text_.offsets.begin(), text_.offsets.end(), offset))
            return std::nullopt;
        const std::size_t word = text_.word_at(offset);
        return MarksRead{0,
                         form,
                         *count,
                         line_.words[word]->box.left,
                         line_.words.back()->box.right,
                         gap_before(line_, word)};
    }

  private:
    const Line& line_;
    LineText text_;
};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ')
        text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ')
        text.remove_suffix(1);
    return text;
}

/// Takes `mark` or `marks` off the end.
bool take_marks_word(std::string_view& text) {
    for (const std::string_view word : {"marks", "mark"})
        if (text.size() > word.size() && text.substr(text.size() - word.size()) == word) {
            text = trimmed(text.substr(0, text.size() - word.size()));
            return true;
        }
    return false;
}

std::optional<MarksRead> read_bracketed(const LineEnd& end) {
    const std::string_view text = end.text();
    if (text.empty() || (text.back() != ')' && text.back() != ']'))
        return std::nullopt;
    const bool is_round = text.back() == ')';
    const std::size_t open = text.rfind(is_round ? '(' : '[');
    if (open == std::string_view::npos)
        return std::nullopt;
    std::string_view inside = trimmed(text.substr(open + 1, text.size() - open - 2));
    const bool is_worded = take_marks_word(inside);
    const MarksForm form = is_round ? (is_worded ? MarksForm::round_worded : MarksForm::round)
                                    : (is_worded ? MarksForm::square_worded : MarksForm::square);
    return end.marks_from(open, form, inside);
}

std::optional<MarksRead> read_worded(const LineEnd& end) {
    std::string_view text = end.text();
    if (!take_marks_word(text) || text.empty() || !is_digit(text.back()))
        return std::nullopt;
    std::size_t digits = text.size();
    while (digits > 0 && is_digit(text[digits - 1]))
        --digits;
    auto read = end.marks_from(digits, MarksForm::worded, text.substr(digits));
    const std::string_view before = trimmed(text.substr(0, digits));
    const bool ends_sentence =
        !before.empty() && std::string_view(".?!:").find(before.back()) != std::string_view::npos;
    return read && (ends_sentence || read->gap > narrowest_gap * end.height()) ? read : std::nullopt;
}

std::optional<MarksRead> read_marks(const LineEnd& end) {
    auto read = read_bracketed(end);
    return read ? read : read_worded(end);
}

bool has(std::string_view text, std::string_view piece) {
    return text.find(piece) != std::string_view::npos;
}

bool begins(std::string_view text, std::string_view piece) {
    return text.substr(0, piece.size()) == piece;
}

std::vector<int> numbers_in(std::string_view text) {
    std::vector<int> numbers;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::size_t from = i;
        while (i < text.size() && is_digit(text[i]))
            ++i;
        if (i > from)
            numbers.push_back(read_whole_number(text.substr(from, i - from), largest_read).value_or(-1));
    }
    return numbers;
}

/// The number right after `question` or `q`.
std::optional<int> question_named(std::string_view text) {
    for (const std::string_view word : {"question ", "q ", "q"}) {
        const std::size_t at = text.find(word);
        if (at == std::string_view::npos || at + word.size() >= text.size() ||
            !is_digit(text[at + word.size()]))
            continue;
        return numbers_in(text.substr(at)).front();
    }
    return std::nullopt;
}

/// `Total for Question 7 is 12 marks`, `[Total 12]`, `Question 7 total: 12`, `TOTAL FOR PAPER: 75 MARKS`.
std::optional<TotalRead> read_total(const LineEnd& end) {
    const std::string piece = end.last_piece();
    std::string_view text = trimmed(piece);
    const bool is_bracketed = !text.empty() && (text.front() == '(' || text.front() == '[');
    if (is_bracketed)
        text = trimmed(text.substr(1));
    while (!text.empty() && (text.back() == ')' || text.back() == ']' || text.back() == '.'))
        text = trimmed(text.substr(0, text.size() - 1));
    if (!has(text, "total") ||
        !(begins(text, "total") || begins(text, "question") || begins(text, "the total") ||
          begins(text, "section") || begins(text, "paper") || begins(text, "q") || begins(text, "end of")))
        return std::nullopt;
    const bool is_worded = take_marks_word(text);
    if (text.empty() || !is_digit(text.back()))
        return std::nullopt;
    const std::vector<int> numbers = numbers_in(text);
    TotalRead total;
    total.question = question_named(text);
    const std::size_t expected = total.question ? 2 : 1;
    const bool is_alone = text.size() <= std::string_view("total marks: 9999").size();
    if (numbers.size() != expected || numbers.back() < 0 ||
        !(is_worded || is_bracketed || total.question || is_alone || has(text, "mark") || has(text, "paper")))
        return std::nullopt;
    total.count = numbers.back();
    total.of = has(text, "paper")     ? TotalRead::Of::paper
               : has(text, "section") ? TotalRead::Of::section
                                      : TotalRead::Of::question;
    return total;
}

/// The densest place among edges.
struct Place {
    double at = std::numeric_limits<double>::quiet_NaN();
    std::size_t there = 0;
    std::size_t all = 0;

    bool is_clear() const { return there >= 3 && 5 * there >= 3 * all; }
};

Place commonest(std::vector<double> edges) {
    std::sort(edges.begin(), edges.end());
    Place place;
    place.all = edges.size();
    for (std::size_t first = 0, end = 0; first < edges.size(); ++first) {
        while (end < edges.size() && edges[end] <= edges[first] + same_edge)
            ++end;
        if (end - first >= place.there) { // of equals the one furthest right
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
    MarksEdges(const Layout& layout, const std::vector<MarksRead>& all, MarksForm form) : layout_(layout) {
        for (std::size_t side = 0; side < sides; ++side) {
            const Edges any =
                edges_among(all, form, [&](const Region& region) { return index(region) / 2 == side; });
            const Edges even =
                edges_among(all, form, [&](const Region& region) { return index(region) == 2 * side; });
            const Edges odd =
                edges_among(all, form, [&](const Region& region) { return index(region) == 2 * side + 1; });
            const bool differ = even.right.is_clear() && odd.right.is_clear() &&
                                std::abs(even.right.at - odd.right.at) > same_edge / 2;
            edges_[2 * side] = differ ? even : any;
            edges_[2 * side + 1] = differ ? odd : any;
        }
    }

    /// At the right edge; or one below the other by their left edges, apart from the text.
    bool has(const MarksRead& marks) const {
        const Edges& edges = edges_[index(region_of(marks))];
        return std::abs(marks.right - edges.right.at) <= same_edge ||
               (is_apart(marks) && std::abs(marks.left - edges.left.at) <= same_edge);
    }

    Shifts shifts() const {
        Shifts shifts;
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            const bool is_right = i / 2 == static_cast<std::size_t>(Region::Side::right);
            const std::size_t base = is_right ? 2 * static_cast<std::size_t>(Region::Side::left) : i / 2 * 2;
            const double points = edges_[i].right.at - edges_[base].right.at;
            shifts.points[i] = std::isnan(points) ? 0 : points;
        }
        return shifts;
    }

  private:
    static constexpr std::size_t sides = 3;

    struct Edges {
        Place left;
        Place right;
    };

    static std::size_t index(const Region& region) { return Shifts::index(region); }
    const Region& region_of(const MarksRead& marks) const {
        return layout_.regions[layout_.lines[marks.line].region];
    }
    bool is_apart(const MarksRead& marks) const { return marks.gap > 0.9 * layout_.lines[marks.line].height; }

    template <typename Is>
    Edges edges_among(const std::vector<MarksRead>& all, MarksForm form, const Is& is) const {
        std::vector<double> lefts;
        std::vector<double> rights;
        for (const MarksRead& marks : all) {
            if (marks.form != form || !is_apart(marks) || !is(region_of(marks)))
                continue;
            lefts.push_back(marks.left);
            rights.push_back(marks.right);
        }
        return {commonest(std::move(lefts)), commonest(std::move(rights))};
    }

    const Layout& layout_;
    std::array<Edges, 2 * sides> edges_;
};

/// The line that marks belong to: where they stand a little higher than a line to their left, that one.
std::size_t line_of(const Layout& layout, std::size_t line, const MarksRead& marks) {
    if (line + 1 == layout.lines.size())
        return line;
    const Line& own = layout.lines[line];
    const Line& next = layout.lines[line + 1];
    const bool is_beside = own.region == next.region && next.box.right < marks.left &&
                           own.box.bottom - next.box.top > 0.4 * std::min(own.height, next.height);
    return is_beside ? line + 1 : line;
}

constexpr std::array<MarksForm, 5> all_forms{MarksForm::round, MarksForm::square, MarksForm::round_worded,
                                             MarksForm::square_worded, MarksForm::worded};
using FormCounts = std::array<std::size_t, all_forms.size()>;

std::size_t index(MarksForm form) {
    return static_cast<std::size_t>(form);
}

std::size_t most_of(const FormCounts& counts) {
    return static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin());
}

/// `[3 marks]` at a line's end is nothing else, wherever that end is.
bool stands_by_its_words(const MarksRead& marks) {
    return marks.form == MarksForm::round_worded || marks.form == MarksForm::square_worded;
}

/// The forms of marks in questions, and which form states the sum of marks in another one at a question's
/// end.
class FormVotes {
  public:
    void add(const std::vector<MarksRead>& in_question, std::size_t most) {
        FormCounts counts{};
        std::array<long long, all_forms.size()> sums{};
        for (const MarksRead& marks : in_question) {
            ++counts[index(marks.form)];
            sums[index(marks.form)] += marks.count;
        }
        for (std::size_t form = 0; form < all_forms.size(); ++form) {
            votes_[form] += std::min(counts[form], most);
            if (counts[form] > 0 && form != index(in_question.back().form) &&
                sums[form] == in_question.back().count)
                ++summed_[index(in_question.back().form)][form];
        }
    }

    MarksForm form_of_parts() const {
        const std::size_t most = most_of(votes_);
        const std::size_t other = most_of(summed_[most]);
        return all_forms[summed_[most][other] > summed_[other][most] ? other : most];
    }

  private:
    FormCounts votes_{};
    std::array<FormCounts, all_forms.size()> summed_{}; ///< by the form of the sum
};

MarksForm form_of_parts(const std::vector<MarksRead>& marks, const std::vector<std::size_t>& bounds) {
    constexpr std::size_t most_of_question = 10;
    constexpr std::size_t most_at_ends = 6; // what stands before or after the questions may be in it
    FormVotes votes;
    auto next = marks.begin();
    for (std::size_t i = 1; i < bounds.size(); ++i) {
        std::vector<MarksRead> in_question;
        for (; next != marks.end() && next->line < bounds[i]; ++next)
            in_question.push_back(*next);
        votes.add(in_question, i == 1 || i + 1 == bounds.size() ? most_at_ends : most_of_question);
    }
    return votes.form_of_parts();
}

/// Those by which the edges are told: of a question on one page only the first few of the form, so that a
/// table or a sheet of formulae does not outvote all other questions.
std::vector<MarksRead> heard(const Layout& layout, const MarksFound& found,
                             const std::vector<std::size_t>& bounds) {
    constexpr std::size_t most = 6;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> counts; // by question and page
    std::vector<MarksRead> all;
    for (const MarksRead& marks : found.marks) {
        const auto question = std::upper_bound(bounds.begin(), bounds.end(), marks.line) - bounds.begin();
        const std::size_t page = layout.page_of(layout.lines[marks.line]);
        if (marks.form == found.form && ++counts[{static_cast<std::size_t>(question), page}] <= most)
            all.push_back(marks);
    }
    return all;
}

template <typename Is>
void remove_where(std::vector<MarksRead>& all, const Is& is) {
    all.erase(std::remove_if(all.begin(), all.end(), is), all.end());
}

} // namespace

MarksFound find_marks(const Layout& layout) {
    MarksFound found;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const LineEnd end(layout.lines[i]);
        if (auto total = read_total(end)) {
            total->line = i;
            found.totals.push_back(*total);
        } else if (auto marks = read_marks(end)) {
            marks->line = line_of(layout, i, *marks);
            found.marks.push_back(*marks);
        }
    }
    FormCounts counts{};
    for (const MarksRead& marks : found.marks)
        ++counts[index(marks.form)];
    found.form = all_forms[most_of(counts)];
    found.shifts = MarksEdges(layout, found.marks, found.form).shifts();
    return found;
}

MarksFound marks_of_questions(const Layout& layout, MarksFound found,
                              const std::vector<std::size_t>& bounds) {
    const auto is_outside = [&](const MarksRead& marks) {
        return bounds.empty() || marks.line < bounds.front() || marks.line >= bounds.back();
    };
    remove_where(found.marks, is_outside);
    found.form = form_of_parts(found.marks, bounds);
    const MarksEdges edges(layout, heard(layout, found, bounds), found.form);
    const auto is_text = [&](const MarksRead& marks) {
        return !(marks.form == found.form && stands_by_its_words(marks)) && !edges.has(marks);
    };
    remove_where(found.marks, is_text);
    found.shifts = edges.shifts();
    return found;
}

std::string text_of(const MarksRead& marks) {
    const std::string count = std::to_string(marks.count);
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
    }
    return count;
}

std::string marks_text(int count) {
    return std::to_string(count) + (count == 1 ? " mark" : " marks");
}

} // namespace inkturn::printed
