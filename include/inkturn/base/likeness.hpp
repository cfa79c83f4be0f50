#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

namespace inkturn {

// How codes that were typed by different hands are compared. The texts are UTF-8; one that isn't is compared
// as it is.

/// The text with its accents composed: Unicode's normalization form C (UAX #15).
std::string composed(std::string_view text);

/// The same for two codes that a reader would hardly tell apart: without case, leading zeros of a number,
/// and characters that show nothing (bidirectional ones among them); accents composed, blanks as one space.
std::string likeness(std::string_view code);

/// The same for two codes that look alike: their likeness() with letters of Latin, Greek and Cyrillic and
/// digits that share a shape as one, as O and 0, l and 1, or K in Greek and in Latin; with every dash as a
/// hyphen. The idea is that of the skeletons of UTS #39; the table is our own.
std::string look(std::string_view code);

/// The first characters in which two codes of the same look differ, such as `O for 0`; what can't be told
/// apart with its number in Unicode. Empty if they differ otherwise.
std::string look_alikes(std::string_view code, std::string_view other);

/// Codes, to be searched for one that a reader would hardly tell from another.
class CodesAlike {
  public:
    void add(const std::string& code);
    /// The first code added with the same likeness(), else with the same look(), if it is another one; null
    /// where there is none.
    const std::string* find(const std::string& code) const;

  private:
    std::unordered_map<std::string, std::string> by_likeness_;
    std::unordered_map<std::string, std::string> by_look_;
};

/// Whether the text holds a character that shows nothing, such as a bidirectional mark.
bool has_invisible_character(std::string_view text);

/// Whether the character, whose code this is, shows nothing; not those that join letters or choose their
/// form, which some scripts need.
bool shows_nothing(std::string_view character, char32_t code);

/// The first character that shows_nothing(), up to where the text isn't UTF-8; nothing if there is none.
std::optional<char32_t> hidden_character(std::string_view text);

/// Throws Error where the text holds a hidden_character(); `what` names it.
void check_is_visible(std::string_view text, const std::string& what);

} // namespace inkturn
