#include "core/printed_label.hpp"

#include "core/printed_letters.hpp"
#include "inkturn/number.hpp"

#include <algorithm>
#include <array>

namespace inkturn::printed {
namespace {

constexpr std::size_t words_that_hold_a_label = 12;
constexpr std::size_t most_sub_parts = 4;

/// Reads a line's text from its start.
class Reader {
  public:
    explicit Reader(const Line& line) : line_(line), text_(text_from_start(line, words_that_hold_a_label)) {}

    char at(std::size_t ahead = 0) const {
        return position_ + ahead < text_.text.size() ? text_.text[position_ + ahead] : '\0';
    }
    bool at_end() const { return position_ >= text_.text.size(); }
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

/// `07`, and the same with a blank between the digits, as papers with a box for each digit print it.
std::string take_digits(Reader& reader, double height) {
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
    reader.take(' ');
    return digits + reader.take_while(is_digit, 1);
}

/// `.1` after a number: the sub-part's letter.
std::optional<SubPartRead> take_decimal(Reader& reader) {
    const std::size_t from = reader.position();
    reader.take_blanks();
    if (reader.take('.')) {
        reader.take_blanks();
        const std::size_t at = reader.position();
        const auto number = read_whole_number(reader.take_while(is_digit, 2), 26);
        if (number && *number > 0 && reader.at_word_end())
            return SubPartRead{std::string(1, static_cast<char>('a' + *number - 1)), reader.left_of(at),
                               true};
    }
    reader.go_to(from);
    return std::nullopt;
}

/// Whether what follows a number makes it one of the text: `7 = x`, `7, 8`, `7%`.
bool goes_on_as_text(const std::string& rest) {
    const std::size_t first = rest.find_first_not_of(' ');
    return first != std::string::npos &&
           std::string_view("=+<>%,/;:*^").find(rest[first]) != std::string::npos;
}

std::optional<NumberRead> take_number(Reader& reader, double height, std::optional<SubPartRead>& decimal) {
    NumberRead read;
    const std::size_t from = reader.position();
    const bool is_asked = reader.take_word("question ") || reader.take_word("q");
    reader.take('.');
    reader.take_blanks();
    if (is_upper(reader.at()) && is_digit(reader.at(1)) && !is_asked) {
        read.section = reader.at() - 'A' + 1;
        reader.take(reader.at());
    }
    const std::string digits = take_digits(reader, height);
    const auto number = read_whole_number(digits, 999);
    if (!number || *number == 0) {
        reader.go_to(from);
        return std::nullopt;
    }
    read.number = *number;
    read.left = reader.left_of(from);
    read.right = reader.right_of(reader.position() - 1);
    if (is_asked)
        read.style = NumberStyle::asked;
    decimal = take_decimal(reader);
    if (!decimal) {
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
        if ((!ends && !lettered) || goes_on_as_text(reader.rest())) {
            reader.go_to(from);
            return std::nullopt;
        }
    }
    return read;
}

/// `(a)`, `( ii )`, `a)`; after a number `7a` too.
std::optional<SubPartRead> take_sub_part(Reader& reader, bool after_number) {
    const std::size_t from = reader.position();
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
    const bool is_reference =
        !reader.at_end() && std::string_view(",.;:-/'+=").find(reader.at()) != std::string::npos;
    if ((is_closed || is_joined) && !is_reference &&
        (letter_number(letters) > 0 || roman_number(letters) > 0))
        return SubPartRead{std::move(letters), reader.left_of(at), false};
    reader.go_to(from);
    return std::nullopt;
}

} // namespace

LabelRead read_line_start(const Line& line) {
    LabelRead read;
    Reader reader(line);
    reader.take_blanks();
    const std::size_t start = reader.position();
    std::optional<SubPartRead> decimal;
    read.number = take_number(reader, line.height, decimal);
    if (!read.number)
        reader.go_to(start);
    if (decimal)
        read.sub_parts.push_back(*decimal);
    while (read.sub_parts.size() < most_sub_parts) {
        auto sub_part = take_sub_part(reader, read.number && read.sub_parts.empty());
        if (!sub_part)
            break;
        sub_part->follows = read.number.has_value() || !read.sub_parts.empty();
        read.sub_parts.push_back(*std::move(sub_part));
    }
    reader.take_blanks();
    read.rest = reader.rest();
    if (read.number && goes_on_as_text(read.rest)) {
        reader.go_to(0);
        return {std::nullopt, {}, reader.rest(), 0};
    }
    if (!reader.at_end() && reader.position() > 0)
        read.gap_after = reader.gap_at(reader.position());
    return read;
}

int roman_number(std::string_view letters) {
    constexpr std::array<std::string_view, 20> romans{"i",    "ii",  "iii",  "iv",    "v",   "vi",   "vii",
                                                      "viii", "ix",  "x",    "xi",    "xii", "xiii", "xiv",
                                                      "xv",   "xvi", "xvii", "xviii", "xix", "xx"};
    const auto found = std::find(romans.begin(), romans.end(), letters);
    return found == romans.end() ? 0 : static_cast<int>(found - romans.begin()) + 1;
}

int letter_number(std::string_view letters) {
    return letters.size() == 1 && is_lower(letters.front()) ? letters.front() - 'a' + 1 : 0;
}

std::optional<int> section_heading(const Line& line) {
    constexpr std::string_view word = "section ";
    const LineText start = text_from_start(line);
    if (lower_case(start.text.substr(0, word.size())) != word || start.text.size() <= word.size())
        return std::nullopt;
    const char letter = start.text[word.size()];
    const char after = start.text.size() > word.size() + 1 ? start.text[word.size() + 1] : ' ';
    const bool ends = after == ' ' || after == ':' || after == '.' || after == ',' || after == '-';
    return is_upper(letter) && letter != 'Q' && ends ? std::optional<int>(letter - 'A' + 1) : std::nullopt;
}

} // namespace inkturn::printed
