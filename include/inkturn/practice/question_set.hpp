#pragma once

#include "inkturn/base/time.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// Which questions on file a set is made from. A question that is named is left out with all its copies.
struct SetFrom {
    std::vector<std::string> topics; ///< in the order of the set; empty: all, with or without a topic
    std::string subject;             ///< of the papers; empty: all
    std::optional<std::set<std::string>> papers{}; ///< ids of the only ones; nothing: all
    std::set<std::string> kept_unseen{};           ///< ids of papers
    std::set<QuestionName> met{};                  ///< sat, retried or on the desk
    std::set<QuestionName> printed{};              ///< in sets that the same readers were given before
    std::set<std::string> to_sit{};                ///< ids of papers that a plan keeps for a whole sitting
    std::set<QuestionName> waiting{};              ///< as retries of who makes it: they come round anyway
};

/// A question that a set may hold.
struct SetQuestion {
    Drawable drawable;
    Marks on_topics; ///< its marks on the topics asked for
};

/// The questions asked for, and how many of them are left out.
struct SetStock {
    std::vector<SetQuestion> questions; ///< by topic as asked for, then by paper
    std::size_t met = 0;
    std::size_t printed = 0;
    std::size_t waiting = 0;
    std::size_t kept_unseen = 0; ///< in a paper that is kept unseen, or with a copy in one
};

/// The questions that the candidate sat, retried or has on the desk.
std::set<QuestionName> questions_met(const Candidate& candidate, const std::vector<Script>& desk);

/// The questions that wait as retries of the candidate: missed, and not got since.
std::set<QuestionName> questions_waiting(const Candidate& candidate);

/// The questions of the papers with these ids.
std::set<QuestionName> questions_of(const std::vector<std::shared_ptr<const Paper>>& papers,
                                    const std::set<std::string>& ids);

/// Each question is listed once, as the first of its copies. `copies` names questions of the papers.
SetStock set_stock(const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
                   const SetFrom& from);

/// Where a question came from; itself where it is no copy.
QuestionName source_of(const std::vector<Copies>& copies, const QuestionName& name);

/// The ids of the papers of which all questions were drawn from others.
std::set<std::string> drawn_papers(const std::vector<std::shared_ptr<const Paper>>& papers,
                                   const std::vector<Copies>& copies);

/// The candidate without sittings of drawn papers: a set of questions is no whole paper.
Candidate without_drawn_papers(Candidate candidate, const std::vector<Copies>& copies);

/// How much a set is to hold; nothing: all there is.
struct SetSize {
    std::optional<Marks> marks{};
    std::optional<Seconds> time{}; ///< at most a day, without extra time
};

/// Whole questions that come as near to the size from below as any choice of them; then with the most marks
/// on the topics, or time in proportion to these; then with the most of it in no paper that is to be sat;
/// then those that come first. In the order of the stock.
std::vector<SetQuestion> choose_set(const SetStock& stock, const SetSize& size);

} // namespace inkturn
