#pragma once

#include "inkturn/lesson/lesson.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/retry/candidate.hpp"

#include <memory>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A question that waits as a retry of some who come to a lesson, whichever copy they missed.
struct SharedRetry {
    Retry retry;                         ///< of the first of them
    std::vector<std::string> candidates; ///< codes, in the order of those who come
};

/// What one who comes should bring: the papers of the questions on the lesson's topics that wait as retries.
struct ToBring {
    PlaceAsked asked;
    struct OfPaper {
        std::shared_ptr<const Paper> paper;
        std::vector<std::string> questions; ///< labels, in the paper's order
    };
    std::vector<OfPaper> papers; ///< by id
};

/// What is to be done in a lesson.
struct RunSheet {
    Lesson lesson;
    std::vector<SharedRetry> shared;  ///< of two or more who come, those most share first
    std::size_t of_one = 0;           ///< further questions that wait for one alone
    std::vector<Drawable> fresh;      ///< on its topics, that none of them has seen
    std::set<std::string> left_alone; ///< ids of papers with such questions that plans keep to be sat unseen
    std::vector<ToBring> bring;       ///< one for each who comes, in the lesson's order
    bool confirmed = true;            ///< nobody has confirmed yet: it is for those who were offered a place

    static constexpr std::size_t max_fresh = 6;
};

/// One who comes: what is on file, scripts still to mark, and the ids of papers that the plan keeps for a
/// whole sitting.
struct WhoComes {
    Candidate candidate;
    std::vector<Script> desk;
    std::set<std::string> to_sit;
};

/// Codes of those for whom a run sheet is: those who come, or while nobody does those offered a place.
std::vector<std::string> on_run_sheet(const Lesson& lesson);

/// `come` has those on_run_sheet(), in its order. Nothing is drawn from papers `kept_unseen` for a mock.
RunSheet run_sheet(const Lesson& lesson, const std::vector<WhoComes>& come,
                   const std::vector<std::shared_ptr<const Paper>>& papers, const std::vector<Copies>& copies,
                   const std::set<std::string>& kept_unseen, Day today);

} // namespace inkturn
