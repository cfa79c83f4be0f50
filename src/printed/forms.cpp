#include "inkturn/base/number.hpp"
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

bool ends_sentence(std::string_view text) {
    text = trimmed(text);
    return !text.empty() && std::string_view(".?!:)").find(text.back()) != std::string_view::npos;
}

/// `3`, and `3+2` as their sum.
bool take_count(TextReader& reader, int& count) {
    do {
        reader.take_blanks();
        const auto number = read_whole_number(reader.take_while(is_digit), max_value_read);
        if (!number)
            return false;
        count = std::min(count + *number, max_value_read);
        reader.take_blanks();
    } while (reader.take('+'));
    return true;
}

/// What a character of a form's print stands for.
bool take_piece(TextReader& reader, char piece, int& count) {
    reader.take_blanks();
    bool is_word = false;
    switch (piece) {
    case '#':
        return take_count(reader, count);
    case '%':
        is_word = reader.take_one(words_for_marks) || reader.take_one(letters_for_marks);
        reader.take('.');
        return is_word;
    case '@':
        is_word = reader.take_one(words_before_marks) || reader.take_one(words_for_marks);
        reader.take_blanks();
        reader.take(':');
        return is_word;
    default:
        return reader.take(piece);
    }
}

/// Marks at the start of a text in lower case.
struct Match {
    std::size_t form;
    int count;
    std::string_view rest; ///< the text after them
};

std::optional<Match> match_form(std::string_view text, std::size_t form) {
    TextReader reader(text);
    int count = 0;
    for (const char piece : marks_forms[form].print)
        if (!take_piece(reader, piece, count))
            return std::nullopt;
    return Match{form, count, reader.rest()};
}

/// Where a text begins with marks that end it; `AO2` after them says nothing of them.
std::optional<Match> match_to_end(std::string_view text) {
    for (std::size_t form = 0; form < marks_forms.size(); ++form) {
        const auto match = match_form(text, form);
        const std::string_view tail = match ? trimmed(match->rest) : text;
        if (match && (tail.empty() || (tail.substr(0, 2) == "ao" && tail.size() <= 4)))
            return match;
    }
    return std::nullopt;
}

PrintedMarks marks_on(const Line& line, const Match& match, std::size_t first, std::size_t last,
                      PrintedMarks::Place place) {
    const Points left = line.words[first]->box.left;
    const Points right = line.words[last]->box.right;
    return {0, match.form, match.count, left, right, gap_before(line, first), place};
}

/// The first word after the last blank that is much wider than one between words; there may be dots in it.
std::size_t last_piece_of(const Line& line) {
    std::size_t word = line.words.size() - 1;
    while (word > 0 && line.words[word]->box.left - line.words[word - 1]->box.right <= 1.8 * line.height)
        --word;
    return word;
}

/// What is at a line's end, in lower case, with what closes its last bracket on the next line.
class LineEnd {
  public:
    LineEnd(const Line& line, const Line* next) : line_(line), text_(text_to_end(line, max_total_words)) {
        text_.text = trimmed(lower_case(text_.text));
        if (next)
            append_wrapped(*next);
    }

    /// The text after the last wide blank; empty where it is longer than a total.
    std::string last_piece() const {
        const std::size_t first = last_piece_of(line_);
        return first < text_.first
                   ? ""
                   : text_.text.substr(std::min(text_.offsets[first - text_.first], text_.text.size()));
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
    /// The last words of the next line close a bracket left open, if they are few and no other is there.
    void append_wrapped(const Line& next) {
        constexpr std::size_t max_wrapped_words = 3;
        const std::size_t open = text_.text.find_last_of("([");
        const std::size_t first = last_piece_of(next);
        if (open == std::string::npos || text_.text.find_first_of(")]", open) != std::string::npos ||
            next.words.size() - first > max_wrapped_words)
            return;
        const std::string text = text_of_words(next, first, next.words.size()).text;
        if (text.find_first_of("([{") == std::string::npos &&
            text.back() == (text_.text[open] == '(' ? ')' : ']'))
            text_.text += " " + lower_case(text);
    }

    std::optional<PrintedMarks> marks_at(std::size_t offset, bool begins_word) const {
        TextReader reader(std::string_view(text_.text).substr(offset));
        reader.take_while([](char c) { return c == '_' || c == '.'; }); // `___/3`
        if (reader.position() > 0 && reader.at() == ' ')
            return std::nullopt; // they are at a word after this one
        const auto match = match_to_end(reader.rest());
        if (!match)
            return std::nullopt;
        const std::size_t word = text_.word_at(offset);
        PrintedMarks read =
            marks_on(line_, *match, word, line_.words.size() - 1, PrintedMarks::Place::line_end);
        if (word > 1 && std::isinf(gap_before(line_, word - 1).value()))
            read.gap = gap_before(line_, word - 1); // a unit after dots to write on belongs to them
        read.gap = begins_word ? read.gap : Points(0);
        read.after_sentence = ends_sentence(std::string_view(text_.text).substr(0, offset));
        const bool is_apart = read.gap > min_marks_gap * line_.height || read.after_sentence;
        return marks_forms[match->form].is_bracketed() || is_apart ? std::optional<PrintedMarks>(read)
                                                                   : std::nullopt;
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
    const LineText start = text_from_start(line);
    const std::string rest = lower_case(label.rest);
    for (std::size_t form = 0; form < marks_forms.size(); ++form) {
        const auto match = match_form(rest, form);
        const std::string_view print = marks_forms[form].print;
        const bool has_text_after = match && match->rest.size() > 1;
        if (match && (marks_forms[form].stands_by_its_words() ||
                      (has_text_after ? print == "[#]" : label.number && print == "#%"))) {
            const std::size_t last = start.word_at(label.rest_at + rest.size() - match->rest.size() - 1);
            return marks_on(line, *match, start.word_at(label.rest_at), last,
                            PrintedMarks::Place::after_label);
        }
    }
    return std::nullopt;
}

/// The first of the words that is the number of a question; their count where none is.
std::size_t question_named(const std::vector<std::string>& words) {
    std::size_t word = 1;
    while (word < words.size() &&
           !(is_one_of(words[word - 1], words_for_question) && is_digit(words[word].front())))
        ++word;
    return std::min(word, words.size());
}

} // namespace

std::optional<MarksBeforeText> read_marks_before(const Line& line) {
    for (std::size_t words = 1; words < std::min(line.words.size(), max_marks_words); ++words) {
        const std::string text = lower_case(text_of_words(line, 0, words).text);
        const auto match = match_to_end(text);
        const bool is_apart = gap_before(line, words) > min_marks_gap * line.height;
        if (!match || !(marks_forms[match->form].is_bracketed() || is_apart))
            continue;
        MarksBeforeText read{marks_on(line, *match, 0, words - 1, PrintedMarks::Place::before_text), line};
        Words& rest = read.rest.words;
        rest.erase(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(words));
        read.rest.box.left = rest.front()->box.left;
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
    const std::size_t first = std::min(piece.size(), piece.find_first_not_of("._ (["));
    const std::string text = piece.substr(first, piece.find_last_not_of(")]. ") + 1 - first);
    if (!contains_one(text, words_for_total) || !begins_with_one(text, words_before_total))
        return std::nullopt;
    std::vector<std::string> words = runs_of(text);
    if (is_one_of(words.back(), words_for_marks))
        words.pop_back();
    const auto count = words.empty() ? std::nullopt : read_whole_number(words.back(), max_value_read);
    const auto numbers = std::count_if(words.begin(), words.end(),
                                       [](const std::string& word) { return is_digit(word.front()); });
    const std::size_t named = question_named(words);
    if (!count || !is_letter_or_digit(text.back()) || named + 1 == words.size() ||
        numbers != (named < words.size() ? 2 : 1))
        return std::nullopt;
    PrintedTotal total;
    if (named < words.size())
        total.question = read_whole_number(words[named], max_value_read);
    total.count = *count;
    total.of = contains(text, "paper")     ? PrintedTotal::Of::paper
               : contains(text, "section") ? PrintedTotal::Of::section
                                           : PrintedTotal::Of::question;
    return total;
}

std::string text_of(const PrintedMarks& marks) {
    std::string text;
    for (const char c : marks_forms[marks.form].print)
        text += c == '#'   ? std::to_string(marks.count)
                : c == '%' ? (marks.count == 1 ? " mark" : " marks")
                : c == '@' ? "marks: "
                           : std::string(1, c);
    return text;
}

std::string marks_text(int count) {
    return std::to_string(count) + (count == 1 ? " mark" : " marks");
}

} // namespace inkturn::printed
