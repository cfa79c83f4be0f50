#include "printed/cover_words.hpp"

#include "inkturn/base/number.hpp"
#include "printed/text_reader.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr double cover_blank = 1.8; // of a line's height

/// `1½` becomes `1 1/2`; anything else beyond ASCII stays a letter.
std::string with_fractions(std::string text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 3> signs{
        {{"\xC2\xBC", " 1/4 "}, {"\xC2\xBD", " 1/2 "}, {"\xC2\xBE", " 3/4 "}}};
    for (const auto& [sign, fraction] : signs)
        for (std::size_t at = text.find(sign); at != std::string::npos; at = text.find(sign))
            text.replace(at, sign.size(), fraction);
    return text;
}

void append_runs(CoverWords& words, const std::string& text, std::size_t line, std::size_t piece,
                 Points left) {
    for (std::string& run : runs_of(with_fractions(lower_case(text))))
        words.push_back({std::move(run), line, piece, left});
}

/// A word as it is read: `1/2` where its digits stand above each other.
std::string text_of_word(const Line& line, std::size_t word) {
    const PrintedWord& read = *line.words[word];
    const bool is_stacked = read.text.size() == 2 && is_digit(read.text[0]) && is_digit(read.text[1]) &&
                            read.box.right - read.box.left < 0.6 * (read.box.bottom - read.box.top);
    return is_stacked ? std::string{' ', read.text[0], '/', read.text[1]}
                      : text_of_words(line, word, word + 1).text;
}

/// The fraction of a word and the next one, which stands above it or below; empty where it is beside it.
std::string fraction_at(const Line& line, std::size_t word) {
    if (word + 1 >= line.words.size())
        return "";
    const PrintedWord& own = *line.words[word];
    const PrintedWord& next = *line.words[word + 1];
    if (next.box.left > (own.box.left + own.box.right) / 2)
        return "";
    const bool is_over = own.box.top < next.box.top;
    return (is_over ? own : next).text + "/" + (is_over ? next : own).text + " ";
}

/// The number alone on a line that stands between this word of another line and the next.
std::string number_between(const Line& line, std::size_t word, const Line* other) {
    if (!other || other->words.size() != 1 || word + 1 >= line.words.size())
        return "";
    const PrintedWord& number = *other->words.front();
    const bool is_near =
        other->box.top < line.box.bottom + line.height && line.box.top < other->box.bottom + line.height;
    const bool is_inside =
        line.words[word]->box.right <= number.box.left && number.box.right <= line.words[word + 1]->box.left;
    return is_near && is_inside && read_whole_number(number.text, 9) ? number.text : "";
}

void append_line(CoverWords& tokens, const Line& line, std::size_t position, const Line* above,
                 const Line* below) {
    constexpr std::size_t max_duration_words = 40;
    std::size_t piece = 0;
    Points left = line.box.left;
    std::string text;
    for (std::size_t word = 0; word < std::min(max_duration_words, line.words.size()); ++word) {
        if (word > 0 && gap_before(line, word) > cover_blank * line.height) {
            append_runs(tokens, text, position, piece++, left);
            text.clear();
            left = line.words[word]->box.left;
        }
        const std::string fraction = fraction_at(line, word);
        text += fraction.empty() ? text_of_word(line, word) + " " : fraction;
        word += fraction.empty() ? 0U : 1U;
        const std::string over = number_between(line, word, above);
        const std::string under = number_between(line, word, below);
        if (!over.empty() && !under.empty())
            text.append(over).append("/").append(under).append(" ");
    }
    append_runs(tokens, text, position, piece, left);
}

} // namespace

CoverWords cover_words(const Layout& layout, std::size_t end) {
    CoverWords tokens;
    for (std::size_t i = 0; i < end; ++i)
        append_line(tokens, layout.lines[i], i, i > 0 ? &layout.lines[i - 1] : nullptr,
                    i + 1 < layout.lines.size() ? &layout.lines[i + 1] : nullptr);
    return tokens;
}

} // namespace inkturn::printed
