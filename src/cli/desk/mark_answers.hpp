#pragma once

#include "cli/context.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

// What is typed while `mark` or `class mark` asks for marks.

/// The line typed after the prompt, trimmed; nothing at the end of the input, or where `waits`, called before
/// it is read, is false.
std::optional<std::string> asked(const Context& context, const std::string& prompt,
                                 const std::function<bool()>& waits = {});

/// Help for an answer: to the marks, to the reason, to the note.
extern const char* const help_on_answers;
extern const char* const help_on_reasons;
extern const char* const help_on_notes;

/// A word in place of marks.
enum class AnswerWord : std::uint8_t { none, back, skip, stop, full, help };
AnswerWord word_of(const std::string& typed);

/// The note that was typed; empty to remove it. Throws Error where it may be marks, and isn't in quotes.
std::string note_meant(const std::string& typed);

/// Marks typed as numbers without a +, which don't say in which ink they were earned.
bool is_bare(const std::string& typed);

/// Numbers, or codes for the phase. Throws Error.
PartMarks read_marks(const std::string& typed, const Part& part, Phase first);

/// The marks with what needn't be typed again: the reason, and which marks were earned.
PartMarks with_known(PartMarks marks, const std::optional<PartMarks>& before, Marks max);

/// The marks with in time and overtime swapped; the reason is dropped if every mark is now in time.
PartMarks exchanged(const PartMarks& marks, Marks max);

/// Whether accuracy marks that were earned without their method follow through.
std::string accuracy_question(const std::vector<std::string>& codes);

} // namespace inkturn
