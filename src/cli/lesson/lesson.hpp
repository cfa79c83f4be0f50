#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/store/change.hpp"

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

/// What those who asked lost on the topics that they want.
LostByCandidate lost_by_those_who_asked(const Store& store, const Lesson& lesson);

/// A change of a lesson, with the plans of those whose coming it touches: begun before the change, ended by
/// keep().
class LessonChange {
  public:
    /// `before` is the lesson as on file.
    LessonChange(const Context& context, Store::Change& change, const Lesson& before);

    /// Stores the lesson, or takes it off file if there is none, and the plans of those who came before and
    /// don't now, or the other way round. Returns how many candidates' plans moved.
    std::size_t keep(const Lesson* after);

  private:
    const Context& context_;
    Store::Change& change_;
    Lesson before_;
};

/// Who asked and what came of it, as a table, after what to do next.
void show_lesson(const Context& context, const Store& store, const std::string& id);

} // namespace inkturn
