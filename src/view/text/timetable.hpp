#pragma once

#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `sit pure-3`, `relearn integration (1 of 2)`, `recall 12 facts`, or a retry's id.
std::string short_text(const WorkItem& item);
/// The same with details: `retry 12q7: pure-3 7a 7b, 14:24`.
std::string long_text(const WorkItem& item);
/// The same for what is on file for a day, its facts together.
std::vector<std::string> texts_of(const std::vector<PlannedWork>& planned);

/// `12 retries, 3 papers, 1 topic, 2 sheets of facts`; kinds without any are left out; or `Nothing to do`.
std::string counted_work(const Plan& plan);

/// `Pure, paper 1 (pure)`, visible().
std::string exam_text(const Exam& exam);

/// `exam: Pure, paper 1 (pure)` or `mock: ...`: the exams on a day.
std::vector<std::string> exams_on(const std::vector<Exam>& exams, Day day);

/// The days of a plan with work, an exam, or time reserved.
Table plan_table(const Plan& plan, const std::vector<Exam>& exams);

/// One row per day, with a bar for its share: `#` planned, `+` reserved, `.` free.
Table week_table(const Plan& plan);

/// What lies ahead in a subject, in lines of at most 80 columns.
std::string subject_text(const SubjectAhead& subject, Day today);

/// How much time is reserved for retries, and whose marks that is based on; empty if there is none.
std::string expected_text(const Timetable& timetable);

/// How much time is missing and what would make it fit; empty if it fits.
std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies);

/// The first five days that changed, one line each.
std::string changes_text(const std::vector<PlanChange>& changes);

} // namespace inkturn
