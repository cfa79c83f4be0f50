#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "printed/label.hpp"
#include "printed/marks.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace inkturn::printed {
namespace {

constexpr int max_value_read = 9999;
constexpr double min_marks_gap = 0.8;       // of a line's height, before marks without brackets
constexpr std::size_t max_total_words = 16; // of a total
constexpr std::size_t max_marks_words = 6;
constexpr std::size_t max_wrapped_words = 3;

bool begins(std::string_view text, std::string_view piece) {
    return text.substr(0, piece.size()) == piece;
}

bool ends_sentence(std::string_view text) {
    text = trimmed(text);
    return !text.empty() && std::string_view(".?!:)").find(text.back()) != std::string_view::npos;
}

/// Takes one of the words off the start.
template <typename Words>
bool take_one(std::string_view& text, const Words& words) {
    for (const std::string_view word : words)
        if (begins(text, word) && !(text.size() > word.size() && is_lower(text[word.size()]))) {
            text.remove_prefix(word.size());
            return true;
        }
    return false;
}

bool take_char(std::string_view& text, char c) {
    if (text.empty() || text.front() != c)
        return false;
    text.remove_prefix(1);
    return true;
}

/// `3`, and `3+2` as their sum.
std::optional<int> take_count(std::string_view& text) {
    int sum = 0;
    do {
        text = trimmed(text);
        std::size_t digits = 0;
        while (digits < text.size() && is_digit(text[digits]))
            ++digits;
        const auto number = read_whole_number(text.substr(0, digits), max_value_read);
        if (!number)
            return std::nullopt;
        sum += *number;
        text = trimmed(text.substr(digits));
    } while (take_char(text, '+'));
    return std::min(sum, max_value_read);
}

/// Marks at the start of a text.
struct Match {
    std::size_t form;
    int count;
    std::string_view rest; ///< the text after them
};

bool take_word_after(std::string_view& text) {
    const bool is_word = take_one(text, words_for_marks) || take_one(text, letters_for_marks);
    if (is_word)
        take_char(text, '.');
    return is_word;
}

bool take_word_before(std::string_view& text) {
    const bool is_word = take_one(text, words_before_marks) || take_one(text, words_for_marks);
    text = trimmed(text);
    take_char(text, ':');
    return is_word;
}

std::optional<Match> match_form(std::string_view text, std::size_t form) {
    Match match{form, 0, {}};
    for (const char c : marks_forms[form].print) {
        text = trimmed(text);
        bool fits = true;
        if (c == '#') {
            const auto count = take_count(text);
            fits = count.has_value();
            match.count = count.value_or(0);
        } else if (c == '%') {
            fits = take_word_after(text);
        } else if (c == '@') {
            fits = take_word_before(text);
        } else {
            fits = take_char(text, c);
        }
        if (!fits)
            return std::nullopt;
    }
    match.rest = text;
    return match;
}

/// `AO2` after marks says nothing of them.
bool is_tail(std::string_view text) {
    text = trimmed(text);
    return text.empty() || (begins(text, "ao") && text.size() <= 4);
}

/// Where a text begins with marks that end it.
std::optional<Match> match_to_end(std::string_view text) {
    for (std::size_t form = 0; form < marks_forms.size(); ++form)
        if (const auto match = match_form(text, form); match && is_tail(match->rest))
            return match;
    return std::nullopt;
}

/// The words of the next line that close a bracket left open: how many of its last ones.
std::size_t closing_words(const Line& next, char close) {
    const std::size_t count = next.words.size();
    for (std::size_t words = 1; words <= std::min(count, max_wrapped_words); ++words) {
        const std::string& text = next.words[count - words]->text;
        if (words == 1 && (text.empty() || text.back() != close))
            return 0;
        if (text.find_first_of("([{") != std::string::npos)
            return 0;
        if (words == count || gap_before(next, count - words) > 1.8 * next.height)
            return words;
    }
    return 0;
}

/// What is at a line's end, with what closes its last bracket on the next line.
class LineEnd {
  public:
    LineEnd(const Line& line, const Line* next) : line_(line), text_(text_to_end(line, max_total_words)) {
        text_.text = lower_case(std::move(text_.text));
        while (!text_.text.empty() && text_.text.back() == ' ')
            text_.text.pop_back();
        if (next)
            append_wrapped(*next);
    }

    const std::string& text() const { return text_.text; }

    /// The text after the last blank that is much wider than one between words; there may be dots in it.
    std::string last_piece() const {
        for (std::size_t i = text_.offsets.size(); i-- > 1;)
            if (line_.words[text_.first + i]->box.left - line_.words[text_.first + i - 1]->box.right >
                1.8 * line_.height)
                return text_.text.substr(std::min(text_.offsets[i], text_.text.size()));
        return whole();
    }

    /// The line's text where it is not longer than a total; else empty.
    std::string whole() const { return text_.first == 0 ? text_.text : ""; }

    /// What is in brackets at the end, brackets included; empty where nothing is.
    std::string last_bracket() const {
        const std::string_view text = text_.text;
        if (text.empty() || (text.back() != ')' && text.back() != ']'))
            return "";
        const std::size_t open = text.rfind(text.back() == ')' ? '(' : '[');
        const bool begins_word = std::binary_search(text_.offsets.begin(), text_.offsets.end(), open);
        return begins_word ? std::string(text.substr(open)) : "";
    }

    std::optional<PrintedMarks> marks() const {
        const std::size_t words = std::min(text_.offsets.size(), max_marks_words);
        for (std::size_t i = text_.offsets.size() - words; i < text_.offsets.size(); ++i) {
            if (const auto read = marks_at(text_.offsets[i], true))
                return read;
            const std::size_t bracket = text_.text.find_first_of("([{", text_.offsets[i] + 1);
            const bool is_inside = bracket < text_.text.find(' ', text_.offsets[i]);
            if (is_inside && ends_sentence(text_.text.substr(0, bracket)))
                if (const auto read = marks_at(bracket, false))
                    return read;
        }
        return std::nullopt;
    }

  private:
    void append_wrapped(const Line& next) {
        const std::size_t open = text_.text.find_last_of("([");
        if (open == std::string::npos || text_.text.find_first_of(")]", open) != std::string::npos)
            return;
        const std::size_t words = closing_words(next, text_.text[open] == '(' ? ')' : ']');
        if (words > 0)
            text_.text +=
                " " + lower_case(text_of_words(next, next.words.size() - words, next.words.size()).text);
    }

    /// A unit after dots to write on belongs to them.
    Points gap_before_marks(std::size_t word) const {
        const bool is_after_unit = word > 1 && std::isinf(gap_before(line_, word - 1).value());
        return gap_before(line_, is_after_unit ? word - 1 : word);
    }

    std::optional<PrintedMarks> marks_at(std::size_t offset, bool begins_word) const {
        const std::string_view text = std::string_view(text_.text).substr(offset);
        std::string_view from = text;
        while (!from.empty() && (from.front() == '_' || from.front() == '.'))
            from.remove_prefix(1); // `___/3`
        if (from.size() < text.size() && !from.empty() && from.front() == ' ')
            return std::nullopt; // they are at a word after this one
        const auto match = match_to_end(from);
        if (!match)
            return std::nullopt;
        const MarksForm& form = marks_forms[match->form];
        const std::size_t word = text_.word_at(offset);
        PrintedMarks read{0,
                          match->form,
                          match->count,
                          line_.words[word]->box.left,
                          line_.words.back()->box.right,
                          begins_word ? gap_before_marks(word) : Points(0)};
        read.after_sentence = ends_sentence(std::string_view(text_.text).substr(0, offset));
        const bool is_apart = read.gap > min_marks_gap * line_.height || read.after_sentence;
        return form.is_bracketed() || is_apart ? std::optional<PrintedMarks>(read) : std::nullopt;
    }

    const Line& line_;
    LineText text_;
};

/// Marks between a label and its text: `7. (10 marks) The path`, `Question 7 (10 marks)`, `7. [10] The path`,
/// `Question 7 10 marks`.
std::optional<PrintedMarks> read_after_label(const Line& line) {
    const PrintedLabel label = read_line_start(line);
    if ((!label.number && label.sub_parts.empty()) || label.rest.empty())
        return std::nullopt;
    const std::string rest = lower_case(label.rest);
    const LineText start = text_from_start(line);
    const std::size_t at =
        start.text.size() < label.rest.size() ? std::string::npos : start.text.find(label.rest);
    for (std::size_t form = 0; form < marks_forms.size(); ++form) {
        const auto match = match_form(rest, form);
        const bool has_text_after = match && match->rest.size() > 1;
        const bool is_clear = marks_forms[form].stands_by_its_words() ||
                              (has_text_after ? marks_forms[form].print == "[#]"
                                              : label.number && marks_forms[form].print == "#%");
        if (!match || !is_clear || at == std::string::npos)
            continue;
        const std::size_t word = start.word_at(at);
        const std::size_t last = start.word_at(at + rest.size() - match->rest.size() - 1);
        PrintedMarks read{0,
                          form,
                          match->count,
                          line.words[word]->box.left,
                          line.words[last]->box.right,
                          gap_before(line, word)};
        read.place = PrintedMarks::Place::after_label;
        return read;
    }
    return std::nullopt;
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

/// The number right after a word for a question.
std::optional<int> question_named(std::string_view text) {
    for (const std::string_view word : words_for_question) {
        std::size_t at = text.find(word);
        if (at == std::string_view::npos)
            continue;
        at += word.size();
        while (at < text.size() && text[at] == ' ')
            ++at;
        if (at < text.size() && is_digit(text[at]))
            return numbers_in(text.substr(at)).front();
    }
    return std::nullopt;
}

/// Takes a word for marks off the end.
void take_last_word(std::string_view& text) {
    for (const std::string_view word : words_for_marks)
        if (text.size() > word.size() && text.substr(text.size() - word.size()) == word) {
            text = trimmed(text.substr(0, text.size() - word.size()));
            return;
        }
}

} // namespace

std::optional<MarksBeforeText> read_marks_before(const Line& line) {
    for (std::size_t words = 1; words < std::min(line.words.size(), max_marks_words); ++words) {
        const std::string text = lower_case(text_of_words(line, 0, words).text);
        const auto match = match_to_end(text);
        const bool is_apart = gap_before(line, words) > min_marks_gap * line.height;
        if (!match || !(marks_forms[match->form].is_bracketed() || is_apart))
            continue;
        MarksBeforeText read{{0, match->form, match->count, line.box.left, line.words[words - 1]->box.right,
                              gap_before(line, 0)},
                             line};
        read.marks.place = PrintedMarks::Place::before_text;
        read.rest.words.erase(read.rest.words.begin(),
                              read.rest.words.begin() + static_cast<std::ptrdiff_t>(words));
        read.rest.box.left = read.rest.words.front()->box.left;
        return read;
    }
    return std::nullopt;
}

std::optional<PrintedMarks> read_marks(const Line& line, const Line* next) {
    const auto read = LineEnd(line, next).marks();
    const auto after_label = read_after_label(line);
    return after_label && (!read || read->left == after_label->left) ? after_label : read;
}

std::optional<PrintedTotal> read_total(const Line& line, const Line* next) {
    const LineEnd end(line, next);
    std::string piece = end.last_bracket();
    if (!contains_one(piece, words_for_total))
        piece = end.last_piece();
    if (!contains_one(piece, words_for_total) && begins_with_one(end.whole(), words_for_total))
        piece = end.whole(); // in a table
    std::string_view text = trimmed(piece);
    text.remove_prefix(std::min(text.size(), text.find_first_not_of("._ ")));
    if (!text.empty() && (text.front() == '(' || text.front() == '['))
        text = trimmed(text.substr(1));
    while (!text.empty() && (text.back() == ')' || text.back() == ']' || text.back() == '.'))
        text = trimmed(text.substr(0, text.size() - 1));
    if (!contains_one(text, words_for_total) || !begins_with_one(text, words_before_total))
        return std::nullopt;
    take_last_word(text);
    if (text.empty() || !is_digit(text.back()))
        return std::nullopt;
    const std::vector<int> numbers = numbers_in(text);
    PrintedTotal total;
    total.question = question_named(text);
    const std::size_t expected = total.question ? 2 : 1;
    if (numbers.size() != expected || numbers.back() < 0)
        return std::nullopt;
    total.count = numbers.back();
    total.of = contains(text, "paper")     ? PrintedTotal::Of::paper
               : contains(text, "section") ? PrintedTotal::Of::section
                                           : PrintedTotal::Of::question;
    return total;
}

std::string text_of(const PrintedMarks& marks) {
    std::string text;
    for (const char c : marks_forms[marks.form].print) {
        if (c == '#')
            text += std::to_string(marks.count);
        else if (c == '%')
            text += marks.count == 1 ? " mark" : " marks";
        else if (c == '@')
            text += "marks: ";
        else
            text += c;
    }
    return text;
}

std::string marks_text(int count) {
    return std::to_string(count) + (count == 1 ? " mark" : " marks");
}

} // namespace inkturn::printed
