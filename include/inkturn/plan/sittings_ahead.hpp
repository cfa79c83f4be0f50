#pragma once

#include "inkturn/plan/place.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/papers_of_class.hpp"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A paper that is to be sat.
struct PaperToSit {
    std::string subject;
    std::shared_ptr<const Paper> paper; ///< null: one that is not on file yet
    int number = 0;                     ///< of such a one among those wished, from 1
    Seconds allowance{0};               ///< with the extra time of the latest sitting
    bool is_drawn = false;              ///< from questions of others
    std::size_t met = 0;                ///< of its questions, those that were met before, in another paper
    std::optional<Day> last_useful;     ///< see SubjectAhead
    WorkPiece piece;                    ///< its time with marking, its days, the retries expected
};

/// The extra time of sittings to come: the candidate's own, else that of the latest sitting.
ExtraTime extra_time_ahead(const Candidate& candidate);

/// Its id, or `pure paper 3` where it is not on file.
std::string name_of(const PaperToSit& paper);

/// A subject with an exam ahead or papers to sit.
struct SubjectAhead {
    std::string subject;            ///< empty: papers without one
    std::optional<Day> exam;        ///< the first ahead, of the subject or of all subjects
    bool examined = false;          ///< all its exams have passed: nothing more is to be sat
    std::optional<Day> last_useful; ///< the last day whose misses have their whole window before the exam
    int wished = 0;                 ///< papers, by number; 0: all on file, or none
    int sat = 0;                    ///< of the wished, since they were wished
    std::size_t papers = 0;         ///< to sit
    std::size_t too_late = 0;       ///< of these, on a day after `last_useful`
    std::vector<std::string> without_day; ///< names of those on no day
    std::optional<Day> far_off{};         ///< of the first exam ahead that is_far_off(): not planned for yet
};

/// Where a share of missed work comes from.
enum class ShareOf : std::uint8_t {
    candidate,
    members, ///< of the candidate's classes
    usual    ///< ours, for want of marks: docs/method.md
};

struct MissedShare {
    double share = 0.35; ///< of the time of papers that comes round as retries, 0 to 1
    ShareOf of = ShareOf::usual;
};

/// The allowances of the questions that by the rule make a retry ÷ the papers' in the latest sittings;
/// nothing without a sitting.
std::optional<double> missed_share(const std::vector<Candidate>& candidates, const RetryRule& rule);

/// By paper's id, how many of its questions were met before, in another paper; of those with any.
using QuestionsMet = std::map<std::string, std::size_t>;

/// What sittings_ahead() goes by.
struct SittingsRequest {
    std::vector<std::shared_ptr<const Paper>> papers; ///< on file
    std::set<std::string> on_desk;                    ///< ids of papers that are in a script
    MissedShare share;
    PaperIds of_others{}; ///< see papers_of_others()
    PaperIds drawn{};     ///< no whole papers: what one not on file is like goes by others
    QuestionsMet met{};   ///< by the candidate
};

struct SittingsAhead {
    std::vector<SubjectAhead>
        subjects;                   ///< by exam, then by name; too_late and without_day are not counted yet
    std::vector<PaperToSit> papers; ///< by the days where they fall best; of a subject in their order
};

/// Papers on file that the candidate has not sat nor let go, that are no others' and have a question not met
/// before, or as many of a subject as was wished, those on file first: the unseen ones, drawn ones
/// before the papers that they may be drawn from, then the others, in the order of their ids with numbers as
/// numbers; one that was asked for is among them. Each may take all days up to the last useful one, then
/// those up to the exam, best near the middle of its even share of them. Without an exam it is a paper a
/// week, from a week after the last whole paper of the subject; once all exams of a subject have passed,
/// none.
SittingsAhead sittings_ahead(const Candidate& candidate, const SittingsRequest& request, Day today);

/// The last day on which a paper is sat whose misses have a window of eight days before the exam.
Day last_useful_sitting(Day exam);

} // namespace inkturn
