#pragma once

#include "inkturn/base/error.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Whether well-formed UTF-8 holds a control character, ASCII or C1.
bool has_control_character(std::string_view text) noexcept;

/// How many bytes the blank at the start of the text has: a space, a tab, or one of Unicode's spaces, the one
/// that doesn't break among them. 0 where there is none.
std::size_t blank_length(std::string_view text) noexcept;

/// The text without the blanks at its ends.
std::string_view trimmed(std::string_view text) noexcept;

/// Whether the piece occurs in the text.
bool contains(std::string_view text, std::string_view piece) noexcept;

/// How many letters (bytes) must be inserted, deleted or changed to turn one text into the other
/// (Levenshtein's distance).
std::size_t letters_changed(std::string_view a, std::string_view b);

/// Of the names the one that the text was probably meant to be: two letters are in each other's place, one is
/// changed, or two of five and more; case does not count. Another number is no slip. Nothing where none is,
/// or several are as near.
std::optional<std::string> nearest_name(std::string_view typed, const std::vector<std::string>& names);

/// Whether one slip of a finger makes one of the other: two letters (bytes) are in each other's place, or one
/// is changed, left out or added.
bool is_one_slip(const std::string& a, const std::string& b);

/// That a name is not on file, as the message says: what helps is the one that was probably meant, else this.
Error not_on_file(const std::string& message, const std::string& typed, const std::vector<std::string>& names,
                  Error::Remedy else_do = Error::Remedy::none, const std::string& about = {});

/// Throws Error unless the text is printable UTF-8 of at most `max` characters; `what` names it.
void check_printable(std::string_view text, std::size_t max, const std::string& what);

} // namespace inkturn
