#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// Reads a part's label: an optional section letter, a number from 1 to 999, then sub-parts in letters: `7`,
/// `7b`, `7bii`, `A3c`; `Q7 (b)(ii)` is read as `7bii`. Returns the short form, with the section letter upper
/// case and the sub-parts lower case; nothing where the text isn't a label.
std::optional<std::string> read_label(std::string_view text);

/// The same; throws Error where the text isn't a label.
std::string parse_label(std::string_view text);

/// The question a part belongs to: its short label without the sub-parts (`A3` of `A3c`).
std::string_view question_of(std::string_view label) noexcept;

} // namespace inkturn
