#include "printed/line_end.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "printed/label.hpp"

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn::printed {
namespace {

constexpr int max_value_read = 9999;
constexpr double min_marks_gap = 0.8;       // of a line's height, before marks without brackets
constexpr std::size_t max_total_words = 16; // of a total

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ')
        text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ')
        text.remove_suffix(1);
    return text;
}

bool ends_sentence(std::string_view text) {
    text = trimmed(text);
    return !text.empty() && std::string_view(".?!:").find(text.back()) != std::string_view::npos;
}

/// What stands at a line's end: its marks, or its last piece after a wide blank.
class LineEnd {
  public:
    explicit LineEnd(const Line& line) : line_(line), text_(text_to_end(line, max_total_words)) {
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
        return whole();
    }

    /// The line's text where it is not longer than a total; else empty.
    std::string whole() const { return text_.first == 0 ? text_.text : ""; }

    /// What stands in brackets at the end, with them; empty where nothing does.
    std::string last_bracket() const {
        const std::string_view text = text_.text;
        if (text.empty() || (text.back() != ')' && text.back() != ']'))
            return "";
        const std::size_t open = text.rfind(text.back() == ')' ? '(' : '[');
        return begins_word(open) ? std::string(text.substr(open)) : "";
    }

    /// The marks from this byte of the text on, which must begin a word.
    std::optional<PrintedMarks> marks_from(std::size_t offset, MarksForm form,
                                           std::string_view digits) const {
        const auto count = read_whole_number(digits, max_value_read);
        if (!count || !begins_word(offset))
            return std::nullopt;
        const std::size_t word = text_.word_at(offset);
        PrintedMarks read{0,
                          form,
                          *count,
                          line_.words[word]->box.left,
                          line_.words.back()->box.right,
                          gap_before(line_, word)};
        read.after_sentence = ends_sentence(std::string_view(text_.text).substr(0, offset));
        return read;
    }

  private:
    bool begins_word(std::size_t offset) const {
        return std::binary_search(text_.offsets.begin(), text_.offsets.end(), offset);
    }

    const Line& line_;
    LineText text_;
};

/// Takes one of the words off the end.
bool take_word(std::string_view& text, std::initializer_list<std::string_view> words) {
    for (const std::string_view word : words)
        if (text.size() > word.size() && text.substr(text.size() - word.size()) == word) {
            text = trimmed(text.substr(0, text.size() - word.size()));
            return true;
        }
    return false;
}

bool take_marks_word(std::string_view& text) {
    return take_word(text, {"marks", "mark"});
}

/// In brackets `mks` and `points` are marks too.
bool take_marks_word_in_brackets(std::string_view& text) {
    return take_word(text, {"marks", "mark", "mks", "mk", "points", "point", "pts", "pt"});
}

std::optional<PrintedMarks> read_bracketed(const LineEnd& end) {
    const std::string_view text = end.text();
    if (text.empty() || (text.back() != ')' && text.back() != ']'))
        return std::nullopt;
    const bool is_round = text.back() == ')';
    const std::size_t open = text.rfind(is_round ? '(' : '[');
    if (open == std::string_view::npos)
        return std::nullopt;
    std::string_view inside = trimmed(text.substr(open + 1, text.size() - open - 2));
    const bool is_worded = take_marks_word_in_brackets(inside);
    const MarksForm form = is_round ? (is_worded ? MarksForm::round_worded : MarksForm::round)
                                    : (is_worded ? MarksForm::square_worded : MarksForm::square);
    return end.marks_from(open, form, inside);
}

std::optional<PrintedMarks> read_worded(const LineEnd& end) {
    std::string_view text = end.text();
    if (!take_marks_word(text) || text.empty() || !is_digit(text.back()))
        return std::nullopt;
    std::size_t digits = text.size();
    while (digits > 0 && is_digit(text[digits - 1]))
        --digits;
    auto read = end.marks_from(digits, MarksForm::worded, text.substr(digits));
    return read && (read->after_sentence || read->gap > min_marks_gap * end.height()) ? read : std::nullopt;
}

/// `(10 marks)` of `7. (10 marks) The path ...` and of `Question 7 (10 marks)`; of `7. [10] The path ...`
/// too.
std::optional<PrintedMarks> read_after_label(const Line& line) {
    const PrintedLabel label = read_line_start(line);
    const bool is_round = label.rest.rfind('(', 0) == 0;
    const std::size_t close = label.rest.find(is_round ? ')' : ']');
    if ((!label.number && label.sub_parts.empty()) || (!is_round && label.rest.rfind('[', 0) != 0) ||
        close == std::string::npos)
        return std::nullopt;
    std::string_view inside = trimmed(std::string_view(label.rest).substr(1, close - 1));
    const LineText start = text_from_start(line);
    const std::size_t at = start.text.find(label.rest);
    const bool is_worded = take_marks_word_in_brackets(inside);
    const bool has_text_after = label.rest.size() > close + 2;
    if ((!is_worded && (is_round || !has_text_after)) || at == std::string::npos)
        return std::nullopt;
    const auto count = read_whole_number(inside, max_value_read);
    const std::size_t word = start.word_at(at);
    if (!count)
        return std::nullopt;
    PrintedMarks read{0,
                      is_round    ? MarksForm::round_worded
                      : is_worded ? MarksForm::square_worded
                                  : MarksForm::square,
                      *count,
                      line.words[word]->box.left,
                      line.words[start.word_at(at + close)]->box.right,
                      gap_before(line, word)};
    read.after_label = true;
    return read;
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
            numbers.push_back(read_whole_number(text.substr(from, i - from), max_value_read).value_or(-1));
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

bool states_total(std::string_view text) {
    return contains(text, "total") || contains(text, "maximum mark");
}

} // namespace

std::optional<PrintedMarks> read_marks(const Line& line) {
    const LineEnd end(line);
    auto read = read_bracketed(end);
    if (!read)
        read = read_worded(end);
    const auto after_label = read_after_label(line);
    return after_label && (!read || read->left == after_label->left) ? after_label : read;
}

std::optional<PrintedMarks> read_plain_marks(const Line& line) {
    const LineEnd end(line);
    const std::size_t word = end.text().rfind(' ') + 1;
    auto read = end.marks_from(word, MarksForm::plain, std::string_view(end.text()).substr(word));
    return read && read->count < 100 && read->gap > min_marks_gap * end.height() ? read : std::nullopt;
}

std::optional<PrintedMarks> read_wrapped_marks(const Line& line, const Line& next) {
    std::string text = LineEnd(next).whole();
    const bool is_round = text == "marks)" || text == "mark)";
    if (!is_round && text != "marks]" && text != "mark]")
        return std::nullopt;
    const LineEnd end(line);
    const std::size_t open = end.text().rfind(is_round ? '(' : '[');
    if (open == std::string::npos)
        return std::nullopt;
    return end.marks_from(open, is_round ? MarksForm::round_worded : MarksForm::square_worded,
                          std::string_view(end.text()).substr(open + 1));
}

std::optional<PrintedTotal> read_total(const Line& line) {
    const LineEnd end(line);
    std::string piece = end.last_bracket();
    if (!states_total(piece))
        piece = end.last_piece();
    if (!states_total(piece) && begins(end.whole(), "total"))
        piece = end.whole(); // in a table
    std::string_view text = trimmed(piece);
    const bool is_bracketed = !text.empty() && (text.front() == '(' || text.front() == '[');
    if (is_bracketed)
        text = trimmed(text.substr(1));
    while (!text.empty() && (text.back() == ')' || text.back() == ']' || text.back() == '.'))
        text = trimmed(text.substr(0, text.size() - 1));
    if (!states_total(text) ||
        !(begins(text, "total") || begins(text, "maximum") || begins(text, "question") ||
          begins(text, "the total") || begins(text, "section") || begins(text, "paper") ||
          begins(text, "q") || begins(text, "end of")))
        return std::nullopt;
    const bool is_worded = take_marks_word(text);
    if (text.empty() || !is_digit(text.back()))
        return std::nullopt;
    const std::vector<int> numbers = numbers_in(text);
    PrintedTotal total;
    total.question = question_named(text);
    const std::size_t expected = total.question ? 2 : 1;
    const bool is_alone = text.size() <= std::string_view("total marks: 9999").size();
    if (numbers.size() != expected || numbers.back() < 0 ||
        !(is_worded || is_bracketed || total.question || is_alone || contains(text, "mark") ||
          contains(text, "paper")))
        return std::nullopt;
    total.count = numbers.back();
    total.of = contains(text, "paper")     ? PrintedTotal::Of::paper
               : contains(text, "section") ? PrintedTotal::Of::section
                                           : PrintedTotal::Of::question;
    return total;
}

} // namespace inkturn::printed
