#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/grades/class_standing.hpp"
#include "inkturn/grades/standing.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/printed/paper.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/seats/lost_marks.hpp"
#include "inkturn/seats/seats.hpp"
#include "inkturn/statistics/analysis.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "inkturn/statistics/trend.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/store.hpp"

#include <nlohmann/json.hpp>

#include <optional>
#include <vector>

namespace inkturn {

/// A candidate and the names of the classes they are in.
struct CandidateInClasses {
    Candidate candidate;
    std::vector<std::string> classes;
};

/// Documents of docs/formats.md. Keys keep the order in which they are written there; lengths of time are
/// whole seconds, days ISO strings.
using Json = nlohmann::ordered_json;

/// To three decimals: more than enough, and alike on all machines.
double thousandths(double value);

Json json_of(const Paper& paper);
/// Marks of a part.
Json json_of(const Part& part, const PartMarks& marks);
/// A list of its parts: label, marks, topic, codes.
Json json_of_parts(const Paper& paper);
Json json_of(const std::vector<PaperOnFile>& papers);
/// A paper drawn from the stock, with the extra time for which the time was filled.
Json json_of_drawn(const Paper& paper, const std::vector<Drawable>& questions, const Stock& stock,
                   Seconds time, ExtraTime extra);
Json json_of(const Retry& retry);
Json json_of(const std::vector<Retry>& retries);
/// Own marks lost, by reason.
Json json_of(const LostByReason& lost);
/// A sitting with those of the candidate's retries that are its own.
Json json_of(const SittingRecord& record, const Candidate& candidate, const std::vector<Retry>& retries);
/// The list of a candidate's sittings, and of what is not marked through.
Json json_of(const Candidate& candidate, const std::vector<Retry>& retries,
             const std::vector<Script>& scripts);
/// Moments in UTC.
Json json_of(const Clock& clock);
Json json_of(const Script& script);
Json json_of(const TodaysWork& work);
/// The days shown of a timetable, what is said of the whole of it, and what changed.
Json json_of(const Plan& plan, const Timetable& timetable, const std::vector<Remedy>& remedies,
             const std::vector<PlanChange>& changes);
Json json_of(const std::vector<PictureOnFile>& pictures);
Json json_of(const std::vector<BoundarySetOnFile>& sets);
Json json_of_grades(const std::vector<GradeBoundary>& grades);
/// A raw mark under a set and the uniform mark it stands for, out of the uniform maximum where that is known.
Json json_of_scaled(const BoundarySet& set, const ScalePoint& mark, std::optional<Marks> uniform_total);
/// A candidate's standing in the subjects asked for.
Json json_of(const StandingAsked& asked);
/// What a class is asked in a span of days, and how many of its retries have no day left.
Json json_of_class_retries(DaySpan span, const std::vector<CandidateAsked>& candidates,
                           std::size_t without_day);
/// A class's topics, over the candidates whose marks they are.
Json json_of_class(const std::optional<std::string>& class_name, std::size_t candidates,
                   const std::vector<TopicDiagnosis>& topics);
/// A class's standing in the subject asked for, over so many candidates.
Json json_of_class(const std::optional<std::string>& class_name, const std::string& subject,
                   std::size_t candidates, const std::vector<ClassUnder>& under);
/// A plan found with these weights.
Json json_of(const SeatPlan& plan, const LostMarks& lost, Weigh weigh);
/// What is undefined is null.
Json json_of(const Paper& paper, const PaperAnalysis& analysis);
/// In their order.
Json json_of(const std::vector<TopicDiagnosis>& topics);
Json json_of(const Trend& trend);
Json json_of(const std::vector<ExamOnFile>& exams);
Json json_of(const std::vector<CandidateInClasses>& candidates);
Json json_of(const std::vector<ClassOnFile>& classes);
Json json_of_members(const std::string& class_name, const std::vector<Candidate>& members);
Json json_of_availability(const std::string& candidate, const Availability& availability);
/// What was found in a printed paper, and in its scheme where there is one; pages count from 1.
Json json_of(const FoundPaper& paper, const FoundScheme& scheme);
Json json_of_pace(const Paper& paper, ExtraTime extra);

/// What came of a re-attempt: got, secured, and the next turn where it was not got.
Json json_of_outcome(const RetryId& id, bool got, const std::optional<Retry>& next);

} // namespace inkturn
