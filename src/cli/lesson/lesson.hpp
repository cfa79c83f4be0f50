#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

// The commands of the group `lesson`, each defined in the file of its name.
void add_lesson_lists(Command& group);  ///< add, list, show, change, remove
void add_lesson_places(Command& group); ///< ask, offer, confirm, decline, attended
void add_lesson_seats(Command& group);
void add_lesson_form(Command& group);
void add_lesson_sheet(Command& group);

/// Throws Error if there is none of this id.
Lesson lesson_on_file(const Store& store, const std::string& id);

/// Of those who asked.
Elsewhere elsewhere_on_file(const Store& store, const Lesson& lesson, Day today);

/// What those who asked lost on the topics that they want.
LostByCandidate lost_by_those_who_asked(const Store& store, const Lesson& lesson);

/// For whom the days of lessons to come are days off, a line each.
std::string days_off_text(const Store& store, const std::vector<Lesson>& lessons, Day today);

/// Stores the lesson as it is after a change, or takes it off file if there is none, and the plans of those
/// whom that touches. Returns how many of these plans moved.
std::size_t keep_lesson(const Context& context, Store::Change& change, const Lesson& before,
                        const std::optional<Lesson>& after);

/// Who asked and what came of it, as a table, after what to do next.
void show_lesson(const Context& context, const Store& store, const std::string& id);

} // namespace inkturn
