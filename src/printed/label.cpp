#include "printed/label.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <array>

namespace inkturn::printed {
namespace {

constexpr std::size_t words_that_hold_a_label = 12;
constexpr std::size_t max_sub_parts = 4;
constexpr double min_gap_after_bare = 0.7; // of a line's height

constexpr std::array<std::string_view, 20> romans{"i",    "ii",  "iii",  "iv",    "v",   "vi",   "vii",
                                                  "viii", "ix",  "x",    "xi",    "xii", "xiii", "xiv",
                                                  "xv",   "xvi", "xvii", "xviii", "xix", "xx"};

/// Reads a line's text from its start.
class LabelReader {
  public:
    explicit LabelReader(const Line& line)
        : line_(line), text_(text_from_start(line, words_that_hold_a_label)) {}

    char at(std::size_t ahead = 0) const {
        return position_ + ahead < text_.text.size() ? text_.text[position_ + ahead] : '\0';
    }
    bool at_end() const { return position_ >= text_.text.size(); }
    bool at_after_blank() const { return position_ > 0 && text_.text[position_ - 1] == ' '; }
    bool at_word_end() const { return at_end() || at() == ' '; }
    std::size_t position() const { return position_; }
    void go_to(std::size_t position) { position_ = position; }

    bool take(char c) {
        if (at() != c || at_end())
            return false;
        ++position_;
        return true;
    }
    bool take_word(std::string_view lower) {
        if (lower_case(text_.text.substr(position_, lower.size())) != lower)
            return false;
        position_ += lower.size();
        return true;
    }
    void take_blanks() {
        while (take(' '))
            ;
    }
    template <typename Belongs>
    std::string take_while(const Belongs& belongs, std::size_t most) {
        const std::size_t from = position_;
        while (!at_end() && position_ - from < most && belongs(at()))
            ++position_;
        return text_.text.substr(from, position_ - from);
    }

    Points left_of(std::size_t position) const { return box_at(position).left; }
    Points right_of(std::size_t position) const { return box_at(position).right; }
    Points gap_at(std::size_t position) const { return gap_before(line_, text_.word_at(position)); }
    std::string rest() const { return at_end() ? "" : text_.text.substr(position_); }

  private:
    const PrintedBox& box_at(std::size_t position) const { return line_.words[text_.word_at(position)]->box; }

    const Line& line_;
    LineText text_;
    std::size_t position_ = 0;
};

/// `one` to `twenty` after `Question`, as a number.
std::optional<int> take_number_word(LabelReader& reader) {
    const std::size_t from = reader.position();
    for (std::size_t i = words_to_twenty.size(); i-- > 0;) {
        if (reader.take_word(words_to_twenty[i]) && (reader.at_word_end() || reader.at() == ':'))
            return static_cast<int>(i) + 1;
        reader.go_to(from);
    }
    return std::nullopt;
}

/// `VII` before a point or a bracket.
std::optional<int> take_capital_roman(LabelReader& reader) {
    const std::size_t from = reader.position();
    const std::string letters = lower_case(reader.take_while(is_upper, 6));
    const auto number = roman_number(letters);
    if (number && (reader.at() == '.' || reader.at() == ')') && (reader.at(1) == ' ' || reader.at(1) == '\0'))
        return number;
    reader.go_to(from);
    return std::nullopt;
}

/// A word before a question's number, such as `Question`; `Q` may touch it.
bool take_question_word(LabelReader& reader) {
    for (const std::string_view word : words_for_question) {
        const std::size_t from = reader.position();
        if (reader.take_word(word) && (reader.at() == ' ' || word.size() == 1))
            return true;
        reader.go_to(from);
    }
    return false;
}

/// `07`, and the same with a blank between the digits, as papers with a box for each digit print it; then
/// `box_gap` is that blank.
std::string take_digits(LabelReader& reader, Points height, Points& box_gap) {
    std::string digits = reader.take_while(is_digit, 4);
    const std::size_t after = reader.position();
    if (digits.size() != 1 || reader.at() != ' ' || !is_digit(reader.at(1)) || is_digit(reader.at(2)))
        return digits;
    const bool is_boxed = reader.gap_at(after + 1) < (digits == "0" ? 1.6 : 0.9) * height;
    const char next = reader.at(2);
    const bool ends =
        next == '\0' || next == '.' || (next == ' ' && (reader.at(3) == '.' || reader.at(3) == '('));
    if (!is_boxed || (digits != "0" && !ends))
        return digits;
    box_gap = reader.gap_at(after + 1);
    reader.take(' ');
    return digits + reader.take_while(is_digit, 1);
}

/// The same after a point.
std::string take_decimal_digits(LabelReader& reader, Points box_gap) {
    constexpr Points slack{2};
    std::string digits = reader.take_while(is_digit, 2);
    const bool is_boxed = digits.size() == 1 && reader.at() == ' ' && is_digit(reader.at(1)) &&
                          (reader.at(2) == ' ' || reader.at(2) == '\0') &&
                          reader.gap_at(reader.position() + 1) < box_gap + slack;
    if (is_boxed) {
        reader.take(' ');
        digits += reader.take_while(is_digit, 1);
    }
    return digits;
}

/// `.1` after a number, and `.1.2`: the sub-parts' letters.
std::vector<PrintedSubPart> take_decimals(LabelReader& reader, Points box_gap) {
    const std::size_t from = reader.position();
    std::vector<PrintedSubPart> read;
    while (read.size() < 2) {
        const std::size_t before = reader.position();
        reader.take_blanks();
        const bool goes_on = reader.take('.');
        reader.take_blanks();
        const std::size_t at = reader.position();
        const auto number =
            goes_on ? read_whole_number(take_decimal_digits(reader, box_gap), 20) : std::nullopt;
        if (!number || *number == 0) {
            reader.go_to(before);
            break;
        }
        read.push_back({read.empty() ? std::string(1, static_cast<char>('a' + *number - 1))
                                     : std::string(roman_letters(*number)),
                        reader.left_of(at), reader.right_of(at), true});
    }
    if (!reader.at_word_end())
        read.clear();
    if (read.empty())
        reader.go_to(from);
    return read;
}

/// Whether what follows a number makes it one of the text: `7 = x`, `7, 8`, `7%`. After a wide blank a sign
/// may be the middle of a fraction that stands on three lines.
bool goes_on_as_text(const LabelReader& reader, Points height) {
    std::size_t ahead = 0;
    while (reader.at(ahead) == ' ')
        ++ahead;
    if (reader.at(ahead) == '\0' ||
        std::string_view("=+<>%,/;:*^").find(reader.at(ahead)) == std::string::npos)
        return false;
    const bool begins_word = ahead > 0 || reader.at_after_blank();
    return !begins_word || reader.gap_at(reader.position() + ahead) < 1.5 * height;
}

std::optional<PrintedNumber> take_number(LabelReader& reader, Points height,
                                         std::vector<PrintedSubPart>& decimals) {
    PrintedNumber read;
    const std::size_t from = reader.position();
    reader.take('*');
    reader.take_blanks();
    const bool is_asked = take_question_word(reader);
    reader.take('.');
    reader.take_blanks();
    const bool is_pointed_section = reader.at(1) == '.' && is_digit(reader.at(2));
    if (is_upper(reader.at()) && (is_digit(reader.at(1)) || is_pointed_section) && !is_asked) {
        read.section = reader.at() - 'A' + 1;
        reader.take(reader.at());
        reader.take('.');
    }
    Points box_gap;
    auto number = is_asked ? take_number_word(reader) : take_capital_roman(reader);
    const bool is_roman = number && !is_asked;
    if (!number)
        number = read_whole_number(take_digits(reader, height, box_gap), 999);
    if (!number || *number == 0) {
        reader.go_to(from);
        return std::nullopt;
    }
    read.number = *number;
    read.left = reader.left_of(from);
    read.right = reader.right_of(reader.position() - 1);
    if (is_asked)
        read.style = NumberStyle::worded;
    decimals = take_decimals(reader, box_gap);
    if (decimals.empty()) {
        const bool is_pointed = reader.take('.');
        const bool is_bracketed = !is_pointed && reader.take(')');
        if (!is_asked && is_pointed)
            read.style = NumberStyle::pointed;
        if (!is_asked && is_bracketed)
            read.style = NumberStyle::bracketed;
        if (is_roman)
            read.style = NumberStyle::roman;
        reader.take(':');
        const bool ends = reader.at_word_end() || reader.at() == '(';
        const bool lettered = reader.at() >= 'a' && reader.at() <= 'i' &&
                              (reader.at(1) == '\0' || reader.at(1) == ' ' || reader.at(1) == ')');
        if ((!ends && !lettered) || goes_on_as_text(reader, height)) {
            reader.go_to(from);
            return std::nullopt;
        }
    }
    return read;
}

bool is_label(std::string_view letters) {
    return letter_number(letters) || roman_number(letters);
}

/// `(A)`, `A)` and `(1)` before text.
std::optional<PrintedSubPart> take_unusual(LabelReader& reader) {
    const std::size_t from = reader.position();
    reader.take_blanks();
    const std::size_t at = reader.position();
    const bool is_counted = reader.take('(') && is_digit(reader.at());
    std::string letters = reader.take_while(is_counted ? is_digit : is_upper, 2);
    const bool is_closed = reader.take(')') && reader.at() == ' ';
    const bool fits = is_counted ? read_whole_number(letters, 20).value_or(0) > 0 : letters.size() == 1;
    if (is_closed && fits)
        return PrintedSubPart{lower_case(std::move(letters)), reader.left_of(at),
                              reader.right_of(reader.position() - 1), false,
                              is_counted ? LetterStyle::counted : LetterStyle::capital};
    reader.go_to(from);
    return std::nullopt;
}

/// `(a)`, `( ii )`, `a)`; after a number `7a` too; before text `a.`, and `a` with a wide blank after it.
std::optional<PrintedSubPart> take_sub_part(LabelReader& reader, bool after_number, Points height) {
    const std::size_t from = reader.position();
    reader.take('*');
    reader.take_blanks();
    const std::size_t at = reader.position();
    const bool is_opened = reader.take('(');
    if (is_opened)
        reader.take_blanks();
    std::string letters = reader.take_while(is_lower, 6);
    if (is_opened)
        reader.take_blanks();
    const bool is_closed = reader.take(')');
    const bool is_joined = after_number && at == from && !is_opened && !is_closed && reader.at_word_end();
    const bool is_pointed = !is_opened && !is_closed && reader.at() == '.' && reader.at(1) == ' ';
    if (is_pointed)
        reader.take('.');
    const bool is_reference =
        !reader.at_end() && std::string_view(",.;:-/'+=").find(reader.at()) != std::string::npos;
    const bool is_bare = !is_opened && !is_closed && !is_pointed && reader.at() == ' ' &&
                         reader.gap_at(reader.position() + 1) > min_gap_after_bare * height;
    if ((is_closed || is_joined || is_pointed || is_bare) && !is_reference && is_label(letters))
        return PrintedSubPart{std::move(letters), reader.left_of(at), reader.right_of(reader.position() - 1),
                              false,
                              is_closed || is_joined ? LetterStyle::bracketed
                              : is_pointed           ? LetterStyle::pointed
                                                     : LetterStyle::bare};
    reader.go_to(from);
    return take_unusual(reader);
}

} // namespace

PrintedLabel read_line_start(const Line& line) {
    PrintedLabel read;
    LabelReader reader(line);
    reader.take_blanks();
    const std::size_t start = reader.position();
    std::vector<PrintedSubPart> decimals;
    read.number = take_number(reader, line.height, decimals);
    if (!read.number)
        reader.go_to(start);
    read.sub_parts = std::move(decimals);
    while (read.sub_parts.size() < max_sub_parts) {
        auto sub_part = take_sub_part(reader, read.number && read.sub_parts.empty(), line.height);
        if (!sub_part)
            break;
        sub_part->follows = read.number.has_value() || !read.sub_parts.empty();
        read.sub_parts.push_back(*std::move(sub_part));
    }
    if (!read.number && !read.sub_parts.empty() && read.sub_parts.front().style == LetterStyle::counted) {
        const PrintedSubPart& first = read.sub_parts.front();
        read.enclosed = PrintedNumber{std::nullopt, read_whole_number(first.letters, 20).value_or(0),
                                      NumberStyle::enclosed, first.left, first.right};
    }
    reader.take_blanks();
    read.rest = reader.rest();
    if (read.number && goes_on_as_text(reader, line.height)) {
        reader.go_to(0);
        return {std::nullopt, {}, std::nullopt, reader.rest(), std::nullopt};
    }
    if (!reader.at_end() && reader.position() > 0)
        read.gap_after = reader.gap_at(reader.position());
    return read;
}

namespace {

/// `Question`, with its number to come.
bool awaits_number(const Line& line) {
    const std::string first = lower_case(line.words.front()->text.substr(0, 16));
    return std::find(words_for_question.begin(), words_for_question.end(), first) !=
               words_for_question.end() &&
           !read_line_start(line).number && !heads_table(line);
}

/// A number far from the text, whose letter may come.
bool awaits_letter(const Line& line) {
    const PrintedLabel read = read_line_start(line);
    return read.number && read.number->right == line.words.front()->box.right && read.sub_parts.empty() &&
           read.gap_after && *read.gap_after > 0.8 * line.height;
}

bool is_letter_of_part(const PrintedSubPart& read) {
    return is_lower(read.letters.front()) && read.style != LetterStyle::pointed;
}

} // namespace

std::optional<PrintedLabel> read_broken_label(const Line& line, const Line& next) {
    constexpr Points same_left{3};
    constexpr std::size_t max_words = 3;
    const bool is_number_next = awaits_number(line);
    if (abs(line.box.left - next.box.left) > same_left ||
        !(is_number_next || (awaits_letter(line) && !read_line_start(next).number)))
        return std::nullopt;
    Line whole = line;
    for (std::size_t i = 0; i < std::min(max_words, next.words.size()); ++i) {
        if (i > 0 && gap_before(next, i) > 0.7 * next.height)
            break;
        whole.words.insert(whole.words.begin() + static_cast<std::ptrdiff_t>(i) + 1, next.words[i]);
    }
    PrintedLabel read = read_line_start(whole);
    const bool is_whole =
        read.number &&
        (is_number_next || (!read.sub_parts.empty() && is_letter_of_part(read.sub_parts.front())));
    return is_whole ? std::optional<PrintedLabel>(std::move(read)) : std::nullopt;
}

std::optional<int> roman_number(std::string_view letters) {
    const auto found = std::find(romans.begin(), romans.end(), letters);
    if (found == romans.end())
        return std::nullopt;
    return static_cast<int>(found - romans.begin()) + 1;
}

std::string_view roman_letters(int number) {
    return number < 1 || number > 20 ? std::string_view() : romans[static_cast<std::size_t>(number - 1)];
}

std::optional<int> letter_number(std::string_view letters) {
    if (letters.size() != 1 || !is_lower(letters.front()))
        return std::nullopt;
    return letters.front() - 'a' + 1;
}

std::optional<int> section_heading(const Line& line) {
    const LineText start = text_from_start(line);
    const std::string lower = lower_case(start.text);
    const std::size_t length = lower.rfind("section ", 0) == 0                         ? 8
                               : lower.rfind("part ", 0) == 0 && line.words.size() < 8 ? 5
                                                                                       : 0;
    if (length == 0 || start.text.size() <= length)
        return std::nullopt;
    const char letter = start.text[length];
    const char after = start.text.size() > length + 1 ? start.text[length + 1] : ' ';
    const bool ends = after == ' ' || after == ':' || after == '.' || after == ',' || after == '-';
    if (!ends || letter == 'Q' || letter == '0' || !(is_upper(letter) || is_digit(letter)))
        return std::nullopt;
    return is_digit(letter) ? letter - '0' : letter - 'A' + 1;
}

bool ends_paper(const Line& line) {
    const std::string text = lower_case(text_from_start(line).text);
    const auto has = [&](std::string_view phrase) { return text.find(phrase) != std::string::npos; };
    return line.words.size() <= 6 && !has("section") &&
           (has("end of questions") || has("end of paper") || has("end of question paper") ||
            has("end of examination") || has("end of test"));
}

bool heads_table(const Line& line) {
    constexpr std::array<std::string_view, 20> words{
        "question", "questions", "part",     "number", "no",         "no.",   "answer",
        "answers",  "scheme",    "working",  "mark",   "marks",      "total", "notes",
        "comment",  "comments",  "guidance", "ao",     "additional", "q"};
    return std::all_of(line.words.begin(), line.words.end(), [&](const PrintedWord* word) {
        return word->text.size() < 16 &&
               std::find(words.begin(), words.end(), lower_case(word->text)) != words.end();
    });
}

bool is_heading_of_appendix(const Line& line) {
    const std::string text = lower_case(text_from_start(line).text);
    const auto begins = [&](std::string_view word) { return text.rfind(word, 0) == 0; };
    return line.words.size() <= 4 && (begins("appendix") || begins("appendices") || begins("formula") ||
                                      begins("data sheet") || begins("data booklet"));
}

} // namespace inkturn::printed
