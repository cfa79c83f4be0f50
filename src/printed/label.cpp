#include "printed/label.hpp"

#include "inkturn/base/number.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <array>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_sub_parts = 4;

/// How a sub-part's letters are printed: `a` is a small letter or a roman numeral, `A` a capital, `1` a
/// number up to 20.
struct LetterForm {
    std::string_view print;
    LetterStyle style;
};
constexpr std::array<LetterForm, 7> letter_forms{{{"(a)", LetterStyle::bracketed},
                                                  {"a)", LetterStyle::bracketed},
                                                  {"a.", LetterStyle::pointed},
                                                  {"a", LetterStyle::bare},
                                                  {"(A)", LetterStyle::capital},
                                                  {"A)", LetterStyle::capital},
                                                  {"(1)", LetterStyle::counted}}};

constexpr std::array<std::string_view, 20> romans{"i",    "ii",  "iii",  "iv",    "v",   "vi",   "vii",
                                                  "viii", "ix",  "x",    "xi",    "xii", "xiii", "xiv",
                                                  "xv",   "xvi", "xvii", "xviii", "xix", "xx"};

/// Reads a line's text from its start.
class LabelReader : public TextReader {
  public:
    /// The text is the line's, and outlives the reader.
    LabelReader(const Line& line, const LineText& text) : TextReader(text.text), line_(line), text_(text) {}

    Points height() const { return line_.height; }
    const PrintedBox& box_at(std::size_t offset) const { return line_.words[text_.word_at(offset)]->box; }
    /// The blank before the word so far ahead.
    Points gap_at(std::size_t ahead) const { return gap_before(line_, text_.word_at(position() + ahead)); }

    /// `07`, and the same with a blank between its digits, as papers with a box for each print it: narrower
    /// than `max_gap`, and before the end of the number unless that is sure.
    std::string take_digits(std::size_t most, Points max_gap, bool is_sure) {
        std::string digits(take_while(is_digit, most));
        const char next = at(at(2) == ' ' ? 3 : 2);
        const bool ends =
            at(2) == '\0' || next == '.' || next == '(' || (is_sure && (at(2) == ' ' || at(2) == ')'));
        if (digits.size() != 1 || at() != ' ' || !is_digit(at(1)) || !ends || gap_at(1) >= max_gap)
            return digits;
        box_gap = gap_at(1);
        take(' ');
        return digits.append(take_while(is_digit, 1));
    }

    Points box_gap; ///< between a number's digits, where each has a box

  private:
    const Line& line_;
    const LineText& text_;
};

/// `VII` before a point or a bracket.
std::optional<int> take_capital_roman(LabelReader& reader) {
    const std::size_t from = reader.position();
    const auto number = roman_number(lower_case(reader.take_while(is_upper, 6)));
    if (number && reader.at_one_of(".)") && (reader.at(1) == ' ' || reader.at(1) == '\0'))
        return number;
    reader.go_to(from);
    return std::nullopt;
}

/// `.1` after a number, and `.1.2`: the sub-parts' letters.
std::vector<PrintedSubPart> take_decimals(LabelReader& reader) {
    constexpr Points slack{2};
    const std::size_t from = reader.position();
    std::size_t end = from;
    std::vector<PrintedSubPart> read;
    while (read.size() < 2) {
        reader.take_blanks();
        const bool goes_on = reader.take('.');
        reader.take_blanks();
        const std::size_t at = reader.position();
        const std::string digits = reader.take_digits(2, reader.box_gap + slack, true);
        const int number = read_whole_number(digits, 20).value_or(0);
        if (!goes_on || number == 0)
            break;
        end = reader.position();
        read.push_back({read.empty() ? std::string(1, static_cast<char>('a' + number - 1))
                                     : std::string(roman_letters(number)),
                        reader.box_at(at).left, reader.box_at(at).right, true});
    }
    reader.go_to(end);
    if (!reader.at_word_end()) {
        reader.go_to(from);
        read.clear();
    }
    return read;
}

/// `B` before `7`, and `B.`: 2.
std::optional<int> take_section(LabelReader& reader) {
    const bool is_pointed = reader.at(1) == '.' && is_digit(reader.at(2));
    if (!is_upper(reader.at()) || !(is_digit(reader.at(1)) || is_pointed))
        return std::nullopt;
    const int section = reader.at() - 'A' + 1;
    reader.take(reader.at());
    reader.take('.');
    return section;
}

/// A number in digits, in words after a word for a question, else in capital romans; 0 where there is none.
int take_value(LabelReader& reader, NumberStyle& style) {
    if (style == NumberStyle::worded) {
        if (const auto word = reader.take_one(words_to_twenty))
            return static_cast<int>(*word) + 1;
    } else if (const auto roman = take_capital_roman(reader)) {
        style = NumberStyle::roman;
        return *roman;
    }
    const bool is_zero = reader.at() == '0';
    const Points max_gap = (is_zero ? 1.6 : 0.9) * reader.height();
    return read_whole_number(reader.take_digits(4, max_gap, is_zero), 999).value_or(0);
}

/// Takes the sign after a number, which tells its style where nothing else does.
void take_sign(LabelReader& reader, NumberStyle& style) {
    const bool is_pointed = reader.take('.');
    const bool is_bracketed = !is_pointed && reader.take(')');
    reader.take(':');
    if (style == NumberStyle::plain && (is_pointed || is_bracketed))
        style = is_pointed ? NumberStyle::pointed : NumberStyle::bracketed;
}

std::optional<PrintedNumber> take_number(LabelReader& reader, std::vector<PrintedSubPart>& decimals) {
    PrintedNumber read;
    const std::size_t from = reader.position();
    reader.take('*');
    reader.take_blanks();
    if (reader.take_one(words_for_question))
        read.style = NumberStyle::worded;
    reader.take('.');
    reader.take_blanks();
    if (read.style == NumberStyle::plain)
        read.section = take_section(reader);
    read.number = take_value(reader, read.style);
    if (read.number > 0) {
        read.left = reader.box_at(from).left;
        read.right = reader.box_at(reader.position() - 1).right;
        if (read.style != NumberStyle::roman)
            decimals = take_decimals(reader);
        if (decimals.empty())
            take_sign(reader, read.style);
        const bool is_lettered = reader.at() >= 'a' && reader.at() <= 'i' &&
                                 (reader.at(1) == '\0' || reader.at(1) == ' ' || reader.at(1) == ')');
        if (reader.at_word_end() || reader.at() == '(' || is_lettered)
            return read;
    }
    reader.go_to(from);
    return std::nullopt;
}

/// Whether what follows a number makes it one of the text: `7 = x`, `7, 8`, `7%`. After a wide blank a sign
/// may be the middle of a fraction that stands on three lines.
bool goes_on_as_text(const LabelReader& reader, bool is_after_blank) {
    return reader.at_one_of("=+<>%,/;:*^") && !(is_after_blank && reader.gap_at(0) >= 1.5 * reader.height());
}

/// Whether letters in a style end here as a label's do.
bool ends_label(const LabelReader& reader, LetterStyle style) {
    constexpr double min_gap_after_bare = 0.7; // of a line's height
    if (style == LetterStyle::bracketed)
        return !reader.at_one_of(",.;:-/'+="); // these come after a reference
    return reader.at() == ' ' &&
           (style != LetterStyle::bare || reader.gap_at(1) > min_gap_after_bare * reader.height());
}

/// Takes letters printed so; right after a number, `7a` too.
std::optional<PrintedSubPart> take_letters(LabelReader& reader, const LetterForm& form,
                                           bool is_after_number) {
    const std::size_t from = reader.position();
    reader.take('*');
    reader.take_blanks();
    const std::size_t at = reader.position();
    PrintedSubPart read{"", {}, {}, false, form.style};
    for (const char c : form.print) {
        if (form.print.front() == '(')
            reader.take_blanks();
        if (is_letter_or_digit(c))
            read.letters = lower_case(reader.take_while(c == 'a'   ? is_lower
                                                        : c == 'A' ? is_upper
                                                                   : is_digit,
                                                        6));
        else if (!reader.take(c))
            return std::nullopt;
        const bool fits = c == 'A'   ? read.letters.size() == 1
                          : c == '1' ? read_whole_number(read.letters, 20).value_or(0) > 0
                                     : letter_number(read.letters) || roman_number(read.letters);
        if (is_letter_or_digit(c) && !fits)
            return std::nullopt;
    }
    if (form.style == LetterStyle::bare && is_after_number && at == from && reader.at_word_end())
        read.style = LetterStyle::bracketed;
    if (!ends_label(reader, read.style))
        return std::nullopt;
    read.left = reader.box_at(at).left;
    read.right = reader.box_at(reader.position() - 1).right;
    return read;
}

std::optional<PrintedSubPart> take_sub_part(LabelReader& reader, bool is_after_number) {
    const std::size_t from = reader.position();
    for (const LetterForm& form : letter_forms) {
        if (auto read = take_letters(reader, form, is_after_number))
            return read;
        reader.go_to(from);
    }
    return std::nullopt;
}

} // namespace

PrintedLabel read_line_start(const Line& line) {
    PrintedLabel read;
    const LineText text = text_from_start(line, 12);
    LabelReader reader(line, text);
    reader.take_blanks();
    read.number = take_number(reader, read.sub_parts);
    while (read.sub_parts.size() < max_sub_parts) {
        auto sub_part = take_sub_part(reader, read.number && read.sub_parts.empty());
        if (!sub_part)
            break;
        sub_part->follows = read.number.has_value() || !read.sub_parts.empty();
        read.sub_parts.push_back(*std::move(sub_part));
    }
    const std::size_t after = reader.position();
    reader.take_blanks();
    if (read.number && goes_on_as_text(reader, reader.position() > after)) {
        read = {};
        reader.go_to(0);
    }
    if (!read.number && !read.sub_parts.empty() && read.sub_parts.front().style == LetterStyle::counted) {
        const PrintedSubPart& first = read.sub_parts.front();
        read.enclosed = PrintedNumber{std::nullopt, read_whole_number(first.letters, 20).value_or(0),
                                      NumberStyle::enclosed, first.left, first.right};
    }
    read.rest = reader.rest();
    read.rest_at = reader.position();
    if (!reader.at_end() && reader.position() > 0)
        read.gap_after = reader.gap_at(0);
    return read;
}

std::optional<PrintedLabel> read_broken_label(const Line& line, const Line& next) {
    constexpr Points same_left{3};
    constexpr std::size_t max_words = 3;
    if (abs(line.box.left - next.box.left) > same_left)
        return std::nullopt;
    const PrintedLabel own = read_line_start(line);
    const PrintedWord& first = *line.words.front();
    TextReader reader(first.text);
    const bool awaits_number =
        !own.number && reader.take_one(words_for_question) && reader.at_end() && !heads_table(line);
    const bool awaits_letter = own.number && own.number->right == first.box.right && own.sub_parts.empty() &&
                               own.gap_after && *own.gap_after > 0.8 * line.height;
    if (!awaits_number && (!awaits_letter || read_line_start(next).number))
        return std::nullopt;
    Line whole = line;
    for (std::size_t i = 0; i < std::min(max_words, next.words.size()); ++i) {
        if (i > 0 && gap_before(next, i) > 0.7 * next.height)
            break;
        whole.words.insert(whole.words.begin() + static_cast<std::ptrdiff_t>(i) + 1, next.words[i]);
    }
    PrintedLabel read = read_line_start(whole);
    const bool is_lettered = !read.sub_parts.empty() && is_lower(read.sub_parts.front().letters.front()) &&
                             read.sub_parts.front().style != LetterStyle::pointed;
    if (!read.number || (!awaits_number && !is_lettered))
        return std::nullopt;
    return read;
}

std::optional<int> roman_number(std::string_view letters) {
    const auto found = std::find(romans.begin(), romans.end(), letters);
    return found == romans.end() ? std::nullopt
                                 : std::make_optional(static_cast<int>(found - romans.begin()) + 1);
}

std::string_view roman_letters(int number) {
    return number < 1 || number > 20 ? std::string_view() : romans[static_cast<std::size_t>(number - 1)];
}

std::optional<int> letter_number(std::string_view letters) {
    const bool is_letter_alone = letters.size() == 1 && is_lower(letters.front());
    return is_letter_alone ? std::make_optional(letters.front() - 'a' + 1) : std::nullopt;
}

std::optional<int> section_heading(const Line& line) {
    const LineText start = text_from_start(line);
    TextReader reader(start.text);
    const auto word = reader.take_one(words_for_section);
    if (!word || (*word > 0 && line.words.size() >= 8) || !reader.take(' '))
        return std::nullopt;
    const char name = reader.at();
    reader.take(name);
    if (!(reader.at_word_end() || reader.at_one_of(":.,-")) || name == 'Q' || name == '0' ||
        !(is_upper(name) || is_digit(name)))
        return std::nullopt;
    return is_digit(name) ? name - '0' : name - 'A' + 1;
}

bool ends_paper(const Line& line) {
    const std::string text = lower_case(text_from_start(line).text);
    return line.words.size() <= 6 && !contains(text, "section") && contains_one(text, words_that_end_paper);
}

bool heads_table(const Line& line) {
    return std::all_of(line.words.begin(), line.words.end(), [](const PrintedWord* word) {
        return is_one_of(lower_case(word->text), words_over_tables);
    });
}

bool is_heading_of_appendix(const Line& line) {
    return line.words.size() <= 4 &&
           begins_with_one(lower_case(text_from_start(line).text), words_for_appendix);
}

} // namespace inkturn::printed
