#include "printed/label.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"

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

    double left_of(std::size_t position) const { return box_at(position).left; }
    double right_of(std::size_t position) const { return box_at(position).right; }
    double gap_at(std::size_t position) const { return gap_before(line_, text_.word_at(position)); }
    std::string rest() const { return at_end() ? "" : text_.text.substr(position_); }

  private:
    const PrintedBox& box_at(std::size_t position) const { return line_.words[text_.word_at(position)]->box; }

    const Line& line_;
    LineText text_;
    std::size_t position_ = 0;
};

/// `one` to `twelve` after `Question`, as a number.
std::optional<int> take_number_word(LabelReader& reader) {
    constexpr std::array<std::string_view, 12> words{"one",   "two",   "three", "four", "five",   "six",
                                                     "seven", "eight", "nine",  "ten",  "eleven", "twelve"};
    const std::size_t from = reader.position();
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (reader.take_word(words[i]) && (reader.at_word_end() || reader.at() == ':'))
            return static_cast<int>(i) + 1;
        reader.go_to(from);
    }
    return std::nullopt;
}

/// `07`, and the same with a blank between the digits, as papers with a box for each digit print it; then
/// `box_gap` is that blank.
std::string take_digits(LabelReader& reader, double height, double& box_gap) {
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
std::string take_decimal_digits(LabelReader& reader, double box_gap) {
    constexpr double slack = 2; // points
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
std::vector<PrintedSubPart> take_decimals(LabelReader& reader, double box_gap) {
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
bool goes_on_as_text(const LabelReader& reader, double height) {
    std::size_t ahead = 0;
    while (reader.at(ahead) == ' ')
        ++ahead;
    if (reader.at(ahead) == '\0' ||
        std::string_view("=+<>%,/;:*^").find(reader.at(ahead)) == std::string::npos)
        return false;
    const bool begins_word = ahead > 0 || reader.at_after_blank();
    return !begins_word || reader.gap_at(reader.position() + ahead) < 1.5 * height;
}

std::optional<PrintedNumber> take_number(LabelReader& reader, double height,
                                         std::vector<PrintedSubPart>& decimals) {
    PrintedNumber read;
    const std::size_t from = reader.position();
    reader.take('*');
    reader.take_blanks();
    const bool is_asked = reader.take_word("question ") || reader.take_word("problem ") ||
                          reader.take_word("exercise ") || reader.take_word("q");
    reader.take('.');
    reader.take_blanks();
    if (is_upper(reader.at()) && is_digit(reader.at(1)) && !is_asked) {
        read.section = reader.at() - 'A' + 1;
        reader.take(reader.at());
    }
    double box_gap = 0;
    auto number = is_asked ? take_number_word(reader) : std::nullopt;
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
    return letter_number(letters) > 0 || roman_number(letters) > 0;
}

/// `(A)` and `(1)` before text.
std::optional<PrintedSubPart> take_unusual(LabelReader& reader) {
    const std::size_t from = reader.position();
    reader.take_blanks();
    const std::size_t at = reader.position();
    if (reader.take('(')) {
        const bool is_counted = is_digit(reader.at());
        std::string letters = reader.take_while(is_counted ? is_digit : is_upper, 2);
        const bool is_closed = reader.take(')') && reader.at() == ' ';
        const bool fits = is_counted ? read_whole_number(letters, 20).value_or(0) > 0 : letters.size() == 1;
        if (is_closed && fits)
            return PrintedSubPart{lower_case(std::move(letters)), reader.left_of(at),
                                  reader.right_of(reader.position() - 1), false,
                                  is_counted ? LetterStyle::counted : LetterStyle::capital};
    }
    reader.go_to(from);
    return std::nullopt;
}

/// `(a)`, `( ii )`, `a)`; after a number `7a` too; before text `a.`, and `a` with a wide blank after it.
std::optional<PrintedSubPart> take_sub_part(LabelReader& reader, bool after_number, double height) {
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
    reader.take_blanks();
    read.rest = reader.rest();
    if (read.number && goes_on_as_text(reader, line.height)) {
        reader.go_to(0);
        return {std::nullopt, {}, reader.rest(), 0};
    }
    if (!reader.at_end() && reader.position() > 0)
        read.gap_after = reader.gap_at(reader.position());
    return read;
}

int roman_number(std::string_view letters) {
    const auto found = std::find(romans.begin(), romans.end(), letters);
    return found == romans.end() ? 0 : static_cast<int>(found - romans.begin()) + 1;
}

std::string_view roman_letters(int number) {
    return number < 1 || number > 20 ? std::string_view() : romans[static_cast<std::size_t>(number - 1)];
}

int letter_number(std::string_view letters) {
    return letters.size() == 1 && is_lower(letters.front()) ? letters.front() - 'a' + 1 : 0;
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
    return is_upper(letter) && letter != 'Q' && ends ? std::optional<int>(letter - 'A' + 1) : std::nullopt;
}

bool ends_paper(const Line& line) {
    const std::string text = lower_case(text_from_start(line).text);
    const auto has = [&](std::string_view phrase) { return text.find(phrase) != std::string::npos; };
    return line.words.size() <= 6 && !has("section") &&
           (has("end of questions") || has("end of paper") || has("end of question paper") ||
            has("end of examination") || has("end of test"));
}

bool is_heading_of_appendix(const Line& line) {
    const std::string text = lower_case(text_from_start(line).text);
    const auto begins = [&](std::string_view word) { return text.rfind(word, 0) == 0; };
    return line.words.size() <= 4 && (begins("appendix") || begins("appendices") || begins("formula") ||
                                      begins("data sheet") || begins("data booklet"));
}

} // namespace inkturn::printed
