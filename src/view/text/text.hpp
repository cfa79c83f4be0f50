#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The text as a terminal may safely show it: control characters (ASCII, C1), those that change the direction
/// of writing, and bytes that are no UTF-8 are written out, such as `\x1b` or `\u202e` (CWE-150).
std::string visible(std::string_view text);

/// Text as one word of a command to type, visible(), in quotes where a shell would take it apart.
std::string shell_word(std::string_view text);

/// The same as an argument that may begin with `-`, which then has `--` before it.
std::string shell_argument(std::string_view text);

/// How length_text() writes lengths, to be said beside them.
constexpr std::string_view form_of_lengths = "min:s, from an hour on h:min:s";

/// `1 sitting`, `3 sittings`.
std::string counted(std::size_t count, const std::string& noun);

/// `algebra, series, vectors`; of many the first eight, and `...`.
std::string listed(const std::set<std::string>& names);

/// With so many decimals, 0 to 9; what rounds to nothing has no sign.
std::string decimal(double value, int places);

/// Columns that well-formed UTF-8 takes in a terminal.
std::size_t columns(std::string_view text);

/// The text padded with blanks to `width` columns; cut with `..` at its end where it is wider.
std::string fitted(std::string_view text, std::size_t width);

/// Breaks text at blanks so that no line is wider than `width`, unless a word is; lines are joined by line
/// breaks followed by `indent` blanks.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

/// The same for items joined by commas, none of which is broken.
std::string wrapped_list(const std::vector<std::string>& items, std::size_t width, std::size_t indent);

} // namespace inkturn
