#pragma once

#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `sit pure-3`, `relearn integration (half)`, `check integration`, `recall 12 facts`, or a retry's id.
std::string short_text(const WorkItem& item);
/// The same with details: `retry 12q7: pure-3 7a 7b, 14:24`.
std::string long_text(const WorkItem& item);
/// The work of a day with the two halves of a topic as one.
std::vector<WorkItem> with_halves_joined(const std::vector<WorkItem>& items);
/// Which papers to be sat on these days hold questions met before, in a line; empty where none does.
std::string met_before_text(const std::vector<WorkItem>& items, DaySpan days);
/// The same for what is on file for a day, its facts together, and the halves of a topic.
std::vector<std::string> texts_of(const std::vector<PlannedWork>& on_file, const Candidate& candidate);

/// `12 retries, 3 papers, 1 topic, 1 check, 2 sheets of facts`; kinds without any are left out; or `Nothing
/// to do`.
std::string counted_work(const Plan& plan);

/// `Pure, paper 1 (pure)`, visible().
std::string exam_text(const Exam& exam);

/// `exam: Pure, paper 1 (pure)` or `mock: ...`: the exams on a day.
std::vector<std::string> exams_on(const std::vector<Exam>& exams, Day day);

/// The exams on a day, and the lessons that the candidate comes to: `lesson at 16:00, 1:00:00: vectors`.
std::vector<std::string> fixed_on(const PlannedDay& day, const std::vector<Exam>& exams);

/// The days of a plan with work, an exam, or time reserved.
Table plan_table(const Plan& plan, const std::vector<Exam>& exams);

/// One row per day, with a bar for its share: `=` done, `#` planned, `+` reserved, `.` free.
Table week_table(const Plan& plan);

/// What lies ahead in a subject, in lines of at most 80 columns.
std::string subject_text(const SubjectAhead& subject, Day today);

/// How much time is reserved for retries, and whose marks that is based on; empty if there is none.
std::string expected_text(const Timetable& timetable);

/// What has days left, and none with room, but for whole papers: those are told beside their subject. Empty
/// where there is none.
std::string not_placed_text(const Timetable& timetable);

/// Whether all the work fits, in a line; empty if there is none.
std::string verdict_text(const Timetable& timetable);

/// The fullest day, beside what it could not go below.
std::string fullest_text(const Timetable& timetable);

/// What has no day and what would make it fit, its commands with `same_candidate` (` --candidate K07`) at
/// their end; empty if it fits.
std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies,
                       const std::string& same_candidate = {});

/// The first five days that changed, one line each. What has no day now is told elsewhere.
std::string changes_text(const std::vector<PlanChange>& changes);

/// What had to be planned on the day of an exam or a mock; empty if nothing is.
std::string on_exam_days_text(const Timetable& timetable, const std::vector<Exam>& exams);

/// The retries to which an exam leaves no day; empty if there are none.
std::string without_day_text(const Timetable& timetable, const std::vector<Exam>& exams, Day today);

} // namespace inkturn
