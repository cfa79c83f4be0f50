#pragma once

#include "inkturn/base/how_far.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/facts/fact.hpp"
#include "inkturn/facts/sheet.hpp"
#include "inkturn/grades/award.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/paper/picture.hpp"
#include "inkturn/plan/rating.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/practice/printed_set.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/statistics/class_figures.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/question_bank.hpp"
#include "inkturn/store/store.hpp"
#include "inkturn/store/topic_lists.hpp"

#include <iosfwd>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

constexpr std::string_view export_format = "inkturn export";
/// Raised if a reader of the version before would lose or misread something. Versions before are read.
constexpr int export_version = 2;

struct ExportedCandidate {
    /// Its sittings are by day, then paper, with ids from 1 in that order; re-attempts are by question in the
    /// paper's order, then turn; there are placements of open turns alone, in the same order; no exams,
    /// and no days chosen for other work than retries. What was decided about retries is in the order of the
    /// sittings, of a sitting in the paper's.
    Candidate candidate;
    std::vector<std::string> classes; ///< names, ascending
    /// In the order of sort_scripts(). That of a retry names a sitting of the candidate above, that of a
    /// whole paper has no number.
    std::vector<Script> scripts{};
    /// By day, facts and log, those not logged first; without numbers, their facts by those of the document.
    std::vector<Sheet> sheets{};
    std::vector<TopicRating> ratings{}; ///< by subject, then topic
    /// Those of its classes that sittings were imported for, names ascending; no sitting without any.
    std::map<SittingId, std::vector<std::string>> sitting_classes{};
    std::vector<Absence> absences{}; ///< from papers of its classes; by day, paper, class; none twice
};

/// A picture of a question or part, or of its mark scheme.
struct ExportedPicture {
    std::string paper;    ///< id
    std::string question; ///< short label of a question or a part
    PictureContent content;
    Picture picture;
};

/// What one store tells another (docs/formats/export.md). Nothing in it depends on a store's row numbers.
struct Document {
    std::vector<std::shared_ptr<const Paper>> papers; ///< by id
    std::vector<ExportedCandidate> candidates;        ///< by code; without those with nothing on file
    std::vector<Exam> exams;                          ///< by day, subject, title, class; none twice
    std::vector<std::string> classes;                 ///< names, ascending; those without members too
    std::vector<Award> awards{};                      ///< by name; none twice
    std::vector<BoundarySet> boundaries{};            ///< by subject, award, name, component; none twice
    std::vector<Copies> copies{};                     ///< two or more each, by the first; no question twice
    std::vector<Fact> facts{};                        ///< by subject, then prompt; none twice; from 1 on
    std::vector<Lesson> lessons{};                    ///< by id; none twice
    std::map<std::string, StatedTimes> class_times{}; ///< of those of the classes for which some were set
    std::map<std::string, TopicList> topic_lists{};   ///< by subject; none empty
    std::map<std::string, PartWords> words{};         ///< by id of its papers; none empty
    std::set<std::string> kept_unseen{};              ///< ids of its papers
    std::vector<PrintedSet> sets{};          ///< of its papers, candidates and classes; by day, paper
    std::vector<ExportedPicture> pictures{}; ///< by paper, question, content, in reading order
    std::vector<ClosedClassFigures> closed_classes{}; ///< by day, class, paper; none twice
};

enum class WithPictures : unsigned char { no, yes };

/// All that is on file; pictures only if asked for.
Document document_of(const Store& store, WithPictures pictures = WithPictures::no, const HowFar& told = {});

/// What is on file about one candidate, with the papers they sat or are sitting, the sets that were printed
/// for them or a class of theirs, and their pictures if asked for; the papers that the questions of these
/// were drawn from, without pictures; the facts on their sheets, and the names, times and exams of their
/// classes; the exams of everybody, and all awards and boundary sets. Nothing about anybody else.
Document document_of(const Store& store, const std::string& candidate,
                     WithPictures pictures = WithPictures::no);

/// The document as it is written to a file: UTF-8, a line break at its end.
std::string to_text(const Document& document, const HowFar& told = {});

/// Reads what to_text() wrote, in this version or an older one. Throws Error that says where: line and column
/// of what isn't JSON, otherwise the path, such as `candidates[3].sittings[2].marks.7b`. Refuses what a store
/// would, and what lies after today.
Document read_document(std::istream& in, Day today, const HowFar& told = {});

/// Throws Error if a re-attempt can't follow the sitting and the earlier re-attempts of the same question:
/// the question was never missed or is secured, another turn comes next, or it was missed on a later day.
void check_follows(const Paper& paper, const Question& question, const Sitting& sitting,
                   const std::vector<Reattempt>& earlier, const std::vector<AskedAgain>& asked_again,
                   const Reattempt& reattempt);

} // namespace inkturn
