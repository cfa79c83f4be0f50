#pragma once

#include "exchange/json/forward.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/notes.hpp"

#include <nlohmann/json.hpp>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct AwardStanding;
class Clock;
struct DrawnId;
class FileDoubts;
class Paper;
struct Question;
struct QuestionAttempt;
struct PrintedPaper;
struct PrintedScheme;
struct GradeBoundary;
struct LessonPlace;
struct LostByReason;
struct Part;
struct ProblemList;
struct Retry;
struct Script;
struct TopicDiagnosis;

/// A document as it is printed: indented by two, no line break at its end.
std::string text_of(const Json& document);

/// To three decimals: more than enough, and alike on all machines.
double thousandths(double value);
double share(Marks part, Marks whole);

Json null_if_empty(const std::string& text);
Json count_or_null(const std::optional<Marks>& marks);
Json day_or_null(const std::optional<Day>& day);
Json ids_of(const std::vector<std::shared_ptr<const Paper>>& papers);

Json value_of(const Paper& paper);
/// Marks of a part.
Json value_of(const Part& part, const PartMarks& marks);
/// The note on the part, if it has one, beside its marks.
void add_note(const Notes& notes, const Part& part, Json& marks);
/// An attempt at a question: turn, date, marks and notes of its parts.
Json value_of(const Paper& paper, const Question& question, const QuestionAttempt& attempt);
/// Moments in UTC.
Json value_of(const Clock& clock);
Json value_of(const Script& script);
Json value_of(const LessonPlace& lesson);
Json value_of(const Retry& retry);
Json value_of(const std::vector<Retry>& retries);
/// Unaided marks lost, by reason.
Json value_of(const LostByReason& lost);
/// A list, in their order.
Json value_of(const std::vector<TopicDiagnosis>& topics);
/// A list, in their order.
Json value_of(const std::vector<GradeBoundary>& grades);
Json value_of(const std::vector<DrawnId>& ids);
/// Those that are open.
Json value_of(const AwardStanding& standing);
Json value_of(const FileDoubts& doubts);
Json value_of(const ProblemList& problems);
Json value_of(const PrintedPaper& paper, const PrintedScheme& scheme);

} // namespace inkturn
