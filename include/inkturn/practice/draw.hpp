#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A question that may be drawn.
struct Drawable {
    std::shared_ptr<const Paper> paper;
    std::size_t question;      ///< position in Paper::questions()
    std::string topic;         ///< the one asked for with most of its marks; empty: it states none
    Seconds allowance;         ///< by its paper's rule, without extra time; above 0
    std::optional<Day> got_on; ///< of the latest attempt, which left no retry; nothing: never sat
    std::string to_sit{};      ///< id of a paper that is still to be sat whole and holds it; empty: none does

    const Question& paper_question() const { return paper->question(question); }
};

/// Which questions a paper is to be drawn from.
struct DrawFrom {
    std::vector<std::string> topics; ///< empty: all questions, with or without a topic
    std::string subject;             ///< of the papers; empty: all papers
    bool unseen = false;             ///< only questions never sat, in no copy either
    std::set<std::string> to_sit{};  ///< ids of papers that a plan keeps for a whole sitting: drawn from last
    std::set<std::string> kept_unseen{}; ///< ids of papers kept for a mock: no copy is drawn either
};

/// The questions asked for: those that may be drawn, and how many may not.
struct Stock {
    std::vector<Drawable> questions; ///< in the order of the papers and their questions
    std::size_t waiting = 0;         ///< missed and not got since: they wait as retries
    std::size_t on_desk = 0;         ///< in a script that is not fully marked
    std::size_t recent = 0;          ///< got less than min_rest ago
    std::size_t seen = 0;            ///< sat before, where only unseen ones are asked for
    std::size_t kept_unseen = 0;     ///< in a paper, or with a copy in one, that is kept for a mock

    static constexpr Days min_rest{21};
};

/// What the candidate may be given. An attempt at a question counts for all its copies, and it is listed
/// once, as the first of these. `copies` names questions of the papers, none of them twice.
Stock drawable(const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
               const Candidate& candidate, const std::vector<Script>& desk, const DrawFrom& from, Day today);

/// The topics by the marks that they cost in a paper: those of which nothing is known first, then the
/// costliest, by name if tied. The empty topic comes last. Each is named once.
std::vector<std::string> weakest_first(std::vector<std::string> topics,
                                       const std::vector<TopicDiagnosis>& known);

/// Fills the time, at most a day, with whole questions as fullest() does: as much of it as possible, then
/// preferring questions never sat, then weaker topics, then of those never sat the ones in no paper that is
/// to be sat, of the others those got longest ago. In order of topic, weakest first, then in the order of the
/// stock. Throws Error where the time is longer, or a question has no
/// allowance.
std::vector<Drawable> draw(const Stock& stock, const std::vector<TopicDiagnosis>& known, Seconds time,
                           Day today);

/// So many questions, or all if there are fewer: in turn one of each topic, weakest first, of a topic those
/// never sat before others, of these first the ones in no paper that is to be sat, then in the order of the
/// stock.
std::vector<Drawable> draw_questions(const Stock& stock, const std::vector<TopicDiagnosis>& known,
                                     std::size_t count);

/// The questions never sat that may be drawn for the candidate, but for papers kept for a mock: each on every
/// topic of its parts.
std::vector<UnseenQuestion> unseen_questions(const std::vector<std::shared_ptr<const Paper>>& papers,
                                             const std::vector<Copies>& copies, const Candidate& candidate,
                                             const std::vector<Script>& desk,
                                             const std::set<std::string>& kept_unseen, Day today);

/// Those of the papers that were drawn of which the candidate has met no question, in whichever copy, and has
/// none on the desk. `drawn`: their ids.
std::vector<UnseenPaper> unseen_papers(const std::vector<std::shared_ptr<const Paper>>& papers,
                                       const std::set<std::string>& drawn, const std::vector<Copies>& copies,
                                       const Candidate& candidate, const std::vector<Script>& desk);

/// How many questions of each paper the candidate met before, in a copy in another paper, or has on the desk
/// there. What was drawn for practice may have been met before that: `drawn_on` has the days of such papers;
/// nothing: not known, so that none of their questions counts. Of papers with any; those sat are among them.
QuestionsMet questions_met_in_copies(const std::vector<Copies>& copies,
                                     const std::map<std::string, std::optional<Day>>& drawn_on,
                                     const Candidate& candidate, const std::vector<Script>& desk);

/// Those of the first stock that are in all of them: what several candidates may be given together.
Stock shared_stock(const std::vector<Stock>& stocks);

/// The id of the first paper that holds these questions or copies of them, all of them and no others, and
/// that the candidate has not sat; nothing where there is none.
std::optional<std::string> paper_with(const std::vector<Drawable>& questions,
                                      const std::vector<std::shared_ptr<const Paper>>& papers,
                                      const std::vector<Copies>& copies, const Candidate& candidate);

/// The allowance without extra time that becomes at most `time` with it.
Seconds without_extra(Seconds time, ExtraTime extra);

/// The questions, at least one, as a paper: numbered from 1, retried by question. Its duration is the sum of
/// their allowances, unless each is 72 s a mark. Throws Error as Paper does.
Paper drawn_paper(PaperHead head, const std::vector<Drawable>& questions);

} // namespace inkturn
