#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/notes.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Marks as typed, and what is noted beside them.
struct NotedEntries {
    std::vector<Entry> entries;
    Notes notes;
};

/// Reads words, each an entry or the note on the entry before it: `7b=2:slip` `sign of cos`. A word is a note
/// if it has a blank and no `=` after a label; after an entry that states a reason, also if it is a single
/// word of letters. Throws Error where a word is neither, or might be marks without their `=`, where a note
/// has no entry before it, and where an entry has two.
NotedEntries parse_noted_entries(const std::vector<std::string>& words);

/// Whether a text that is typed where a note may be could as well be marks, or the part that they are of:
/// `1`, `2+1`, `2:slip`, `-`, `7c`, `7c 2`, `7c=2`.
bool may_be_entry(std::string_view text);

/// Adds a `PART=TEXT`; without a text it stands for a note to be removed. Throws Error where it is not that,
/// or the part is noted already.
void add_note(Notes& notes, std::string_view typed);

} // namespace inkturn
