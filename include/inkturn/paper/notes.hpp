#pragma once

#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a candidate noted about parts of an attempt, by short label; no text is empty. A note may give the
/// answer away: it is shown after the next attempt, or where it is asked for.
using Notes = std::map<std::string, std::string>;

constexpr std::size_t max_note_length = 200; ///< characters

/// Throws Error unless the text has 1 to max_note_length printable characters.
void check_note(std::string_view part, std::string_view text);

/// Throws Error unless each note is one of a part at `positions`, and as check_note() does.
void check_fits(const Paper& paper, const std::vector<std::size_t>& positions, const Notes& notes);

/// The notes with those of `typed` in place of them; one without a text is removed.
Notes amended(Notes notes, const Notes& typed);

} // namespace inkturn
