#pragma once

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn::printed {

/// Reads a text from its start. Takes what is next if it is what was asked for.
class TextReader {
  public:
    explicit TextReader(std::string_view text) : text_(text) {}

    /// The character so far ahead; 0 where the text has ended.
    char at(std::size_t ahead = 0) const {
        return position_ + ahead < text_.size() ? text_[position_ + ahead] : '\0';
    }
    bool at_one_of(std::string_view characters) const {
        return !at_end() && characters.find(at()) != std::string_view::npos;
    }
    bool at_end() const { return position_ >= text_.size(); }
    bool at_word_end() const { return at_end() || at() == ' '; }
    std::size_t position() const { return position_; }
    void go_to(std::size_t position) { position_ = position; }
    std::string_view rest() const { return text_.substr(std::min(position_, text_.size())); }

    bool take(char c) {
        const bool is_next = !at_end() && at() == c;
        position_ += is_next ? 1U : 0U;
        return is_next;
    }
    void take_blanks() {
        while (const std::size_t length = blank_length(rest()))
            position_ += length;
    }
    template <typename Belongs>
    std::string_view take_while(const Belongs& belongs, std::size_t most = std::string_view::npos) {
        const std::size_t from = position_;
        while (!at_end() && position_ - from < most && belongs(at()))
            ++position_;
        return text_.substr(from, position_ - from);
    }
    /// The place in the list of the word or words that are next, in either case.
    template <typename List>
    std::optional<std::size_t> take_one(const List& words) {
        for (std::size_t i = 0; i < words.size(); ++i)
            if (lower_case(rest().substr(0, words[i].size())) == words[i] &&
                !is_letter(at(words[i].size()))) {
                position_ += words[i].size();
                return i;
            }
        return std::nullopt;
    }

  private:
    std::string_view text_;
    std::size_t position_ = 0;
};

/// The text's runs of letters and of digits, in order; `1.5`, `1/2` and `1:30` are one. The text is in lower
/// case.
std::vector<std::string> runs_of(std::string_view text);

/// The text's letters and digits.
std::string letters_and_digits(std::string_view text);

/// Whether the text is one of the words.
template <typename List = std::initializer_list<std::string_view>>
bool is_one_of(std::string_view text, const List& words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

/// Whether one of the words is in the text.
template <typename List>
bool contains_one(std::string_view text, const List& words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return contains(text, word); });
}

/// Whether one of the words begins the text.
template <typename List = std::initializer_list<std::string_view>>
bool begins_with_one(std::string_view text, const List& words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return text.substr(0, word.size()) == word; });
}

} // namespace inkturn::printed
