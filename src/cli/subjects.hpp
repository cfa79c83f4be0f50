#pragma once

#include "cli/context.hpp"

#include <optional>
#include <set>
#include <string>

namespace inkturn {

/// Of papers (but for one, if it is named), exams, boundary sets and facts.
std::set<std::string> subjects_on_file(const Store& store, const std::string& but_of_paper = "");

/// For a --subject that narrows what is shown to people: throws Error if others are on file, and nothing has
/// it. JSON is a list that may be empty.
void check_subject_filter(const Context& context, const Store& store, const std::string& subject);

/// Why a subject that is about to be put on file may be a slip: others are on file, and nothing has it.
std::optional<std::string> doubt_of_subject(const Store& store, const std::string& subject);

/// The subject on file that was probably meant by one that nothing has; nothing where it is like none.
std::optional<std::string> subject_meant(const Store& store, const std::string& subject);

/// For a subject that is about to be put on file, and that nothing has yet: if it looks like one on file,
/// asks on the terminal, and without one, or if it is just new, notes it. Throws Error if the answer is no.
/// What a paper that is amended had so far doesn't count.
void question_new_subject(const Context& context, const Store& store, const std::string& subject,
                          const std::string& paper_amended = "");

} // namespace inkturn
