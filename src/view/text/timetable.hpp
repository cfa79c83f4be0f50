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
/// The same with what it is about: `retry 12q7: pure-3 7a 7b, 14:24`.
std::string long_text(const WorkItem& item);
/// The same for what is on file of a day, the facts of one together.
std::vector<std::string> texts_of(const std::vector<PlannedWork>& planned);

/// `12 retries, 3 papers, 1 topic, 2 sheets of facts`; what there is none of is left out; `Nothing to do`.
std::string counted_work(const Plan& plan);

/// `Pure, paper 1 (pure)`: the exams of a day, visible().
std::vector<std::string> exams_on(const std::vector<Exam>& exams, Day day);

/// The days of a plan on which there is work or an exam, or room is kept.
Table plan_table(const Plan& plan, const std::vector<Exam>& exams);

/// A row a day, with a bar for its share: `#` asked, `+` kept, `.` free.
Table week_table(const Plan& plan);

/// What is said of a subject ahead, in lines of at most 80 columns.
std::string subject_text(const SubjectAhead& subject, Day today);

/// How much room is kept for retries, and on whose marks that goes; empty where there is none.
std::string expected_text(const Timetable& timetable);

/// By how much it is short and what would make it fit; empty where it fits.
std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies);

/// The days that changed, a line each, the first five.
std::string changes_text(const std::vector<PlanChange>& changes);

} // namespace inkturn
