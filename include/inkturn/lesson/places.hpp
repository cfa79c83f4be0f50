#pragma once

#include "inkturn/lesson/lesson.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Those with a place, or who came, whom the lesson's order puts after somebody who waits: in that order.
std::vector<std::string> placed_out_of_turn(const Lesson& lesson, const LostByCandidate& lost,
                                            const Elsewhere& elsewhere = {});

/// Whether the lessons are on one day with times that overlap. One without a time overlaps none.
bool overlap(const Lesson& a, const Lesson& b);

/// Of those who asked for the lesson; who is only offered a place counts up to its day.
Elsewhere elsewhere_then(const Lesson& lesson, const std::vector<Lesson>& on_file, Day today);

/// Throws Error where the candidate is elsewhere, or offered a place there, so can't be offered a place in
/// this lesson.
void check_is_not_elsewhere(const Lesson& lesson, const std::string& candidate,
                            const std::vector<Lesson>& on_file);

/// Ids of other lessons at the same time in which the candidate is offered a place.
std::vector<std::string> offered_elsewhere(const Lesson& lesson, const std::string& candidate,
                                           const std::vector<Lesson>& on_file);

/// Throws Error where a candidate would confirm the place in two lessons that overlap, or attend both: in
/// `lesson` and in another of those on file.
void check_nobody_is_in_two(const Lesson& lesson, const std::vector<Lesson>& on_file);

/// Throws Error where a lesson that was attended would be moved to another day or time, or one would have
/// fewer places than are taken.
void check_can_be_changed(const Lesson& before, const Lesson& after);

/// Who was recorded as having come did not: the place is confirmed again. Throws Error where the candidate
/// is not on file as having attended.
void take_back_attendance(Lesson& lesson, const std::string& candidate);

} // namespace inkturn
