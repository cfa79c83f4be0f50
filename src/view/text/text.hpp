#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/marks_difference.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The text as a terminal may safely show it: control characters (ASCII, C1), those that change the direction
/// of writing, and bytes that are not UTF-8 are written out, such as `\x1b` or `\u202e` (CWE-150).
std::string visible(std::string_view text);

/// Text as one word of a command to type, visible(), in quotes if a shell would split it.
std::string shell_word(std::string_view text);

/// The same as an argument that may begin with `-`, which then has `--` before it.
std::string shell_argument(std::string_view text);

/// How length_text() writes lengths, for a note beside them.
constexpr std::string_view form_of_lengths = "m:ss, or h:mm:ss from an hour";

/// `1 sitting`, `3 sittings`.
std::string count_text(std::size_t count, const std::string& noun);

/// `algebra, series, vectors`; after the first eight, `...`.
std::string list_text(const std::set<std::string>& names);

/// With 0 to 9 decimals; what rounds to 0 has no sign.
std::string decimal(double value, int places);

/// Columns that well-formed UTF-8 takes in a terminal.
std::size_t columns(std::string_view text);

/// The text padded with blanks to `width` columns; cut with `..` at its end if it is wider.
std::string fitted(std::string_view text, std::size_t width);

/// ASCII text with blanks before it, to fill the width.
std::string right_aligned(std::string_view text, std::size_t width);

/// `3.4`.
std::string one_decimal(double value);

/// Breaks text at blanks so that no line is wider than `width`, unless a word is; lines are joined by line
/// breaks followed by `indent` blanks.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

/// The same for items joined by commas, none of which is broken unless it is longer than a line.
std::string wrapped_list(const std::vector<std::string>& items, std::size_t width, std::size_t indent);

/// A line of such items after some words, `Absent: K02, K05`, wrapped as text_line() is.
std::string list_line(std::string_view before, const std::vector<std::string>& items,
                      std::string_view after = "");

/// The text wrapped to the full width, further lines indented by two, with a line break at its end.
std::string text_line(std::string_view text);

/// The items, with commas between them and `last_joint` between the last two (`, `, ` and `).
std::string joined(const std::vector<std::string>& items, std::string_view last_joint);

/// `1 mark`, `3 marks`.
std::string counted_marks(Marks marks);

/// The number of marks alone.
std::string marks_number(Marks marks);

/// `+3`, `-2`.
std::string with_sign(MarksDifference marks);

/// A name made visible() and cut to 40 columns.
std::string short_name(std::string_view name);

} // namespace inkturn
