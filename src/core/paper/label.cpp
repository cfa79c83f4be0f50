#include "inkturn/paper/label.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

namespace inkturn {
namespace {

constexpr int max_number = 999;
constexpr std::size_t max_sub_parts_length = 12;

/// What follows the number: letters, with blanks and whole pairs of brackets round them left out.
std::optional<std::string> read_sub_parts(std::string_view text) {
    std::string letters;
    bool bracketed = false;
    bool empty_bracket = false;
    for (const char c : text) {
        if (is_letter(c)) {
            letters += lower(c);
            empty_bracket = false;
        } else if (c == '(' && !bracketed) {
            bracketed = empty_bracket = true;
        } else if (c == ')' && bracketed && !empty_bracket) {
            bracketed = false;
        } else if (c != ' ') {
            return std::nullopt;
        }
    }
    if (bracketed || letters.size() > max_sub_parts_length)
        return std::nullopt;
    return letters;
}

/// Whether it is a number and its sub-parts as labels are kept: most are.
bool is_kept_so(std::string_view text) {
    std::size_t end = 0;
    while (end < text.size() && is_digit(text[end]))
        ++end;
    constexpr std::size_t max_digits = 3;
    if (end == 0 || end > max_digits || text.front() == '0' || text.size() - end > max_sub_parts_length)
        return false;
    while (end < text.size() && is_letter(text[end]) && text[end] == lower(text[end]))
        ++end;
    return end == text.size();
}

/// `Q7` is question 7 of a paper without sections, not question 7 of a section Q.
std::string_view without_question_mark(std::string_view text) {
    if (text.size() > 1 && lower(text.front()) == 'q')
        text.remove_prefix(1);
    while (!text.empty() && text.front() == ' ')
        text.remove_prefix(1);
    return text;
}

} // namespace

std::optional<std::string> read_label(std::string_view text) {
    if (is_kept_so(text))
        return std::string(text);
    while (!text.empty() && text.front() == ' ')
        text.remove_prefix(1);
    text = without_question_mark(text);

    std::string label;
    if (!text.empty() && is_letter(text.front())) {
        if (lower(text.front()) == 'q') // a section Q could not be told from the word
            return std::nullopt;
        label += upper(text.front());
        text.remove_prefix(1);
    }
    std::size_t digits = 0;
    while (digits < text.size() && is_digit(text[digits]))
        ++digits;
    const auto number = read_whole_number(text.substr(0, digits), max_number);
    const auto sub_parts = read_sub_parts(text.substr(digits));
    if (!number || *number == 0 || !sub_parts)
        return std::nullopt;
    return label + std::to_string(*number) + *sub_parts;
}

std::string parse_label(std::string_view text) {
    auto label = read_label(text);
    if (!label)
        throw Error("'" + std::string(text) +
                    "' is not a part label: write a number and its sub-parts, such as 7, 7b, 7bii or A3c");
    return *std::move(label);
}

std::string_view question_of(std::string_view label) noexcept {
    std::size_t end = 0;
    while (end < label.size() && !is_digit(label[end]))
        ++end;
    while (end < label.size() && is_digit(label[end]))
        ++end;
    return label.substr(0, end);
}

} // namespace inkturn
