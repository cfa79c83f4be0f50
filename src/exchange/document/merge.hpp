#pragma once

#include "exchange/document/document.hpp"
#include "exchange/document/drawn_ids.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct MergeOptions {
    Day today;
    bool replace = false;            ///< the document's replaces what differs on file, where it may
    std::optional<std::string> as{}; ///< the code that the document's only candidate has here
    bool own_plan = false; ///< the document's time, wishes and decisions take the place of those here

    bool replaces_plan() const { return replace || own_plan; }
};

/// What a merge did or, if there are conflicts, would have done.
struct Merge {
    std::size_t papers_added = 0;
    std::size_t papers_completed = 0; ///< with a title, subject, topics or codes that were not stated on file
    std::size_t papers_unchanged = 0;
    std::size_t candidates_added = 0;
    std::size_t sittings_added = 0;
    std::size_t sittings_unchanged = 0;
    std::size_t sittings_completed = 0; ///< with a clock; there was none on file
    std::size_t sittings_replaced = 0;
    std::size_t reattempts_added = 0;
    std::size_t reattempts_unchanged = 0;
    std::size_t reattempts_completed = 0; ///< with a clock
    std::size_t reattempts_replaced = 0;
    std::size_t scripts_added = 0;
    std::size_t scripts_unchanged = 0; ///< as far as in the document, or further
    std::size_t scripts_completed = 0; ///< brought up to the document
    std::size_t scripts_replaced = 0;
    std::size_t scripts_finished = 0; ///< marked in the document, and so no longer scripts
    std::size_t kept_days_added = 0;  ///< of open turns that had none
    std::size_t availabilities_added = 0;
    std::size_t availabilities_replaced = 0;
    std::size_t extra_times_added = 0;
    std::size_t extra_times_replaced = 0;
    std::size_t relearned_topics_added = 0;
    std::size_t ratings_added = 0; ///< of topics
    std::size_t ratings_replaced = 0;
    std::size_t plan_wishes_added = 0;
    std::size_t plan_wishes_replaced = 0;
    std::size_t turns_asked_added = 0; ///< of secured questions, once more
    std::size_t steered_added = 0;     ///< days asked for and what was dropped
    std::size_t steered_replaced = 0;
    std::size_t exams_added = 0;
    std::size_t exams_unchanged = 0;
    std::size_t exams_moved = 0;
    std::size_t awards_added = 0;
    std::size_t awards_unchanged = 0;
    std::size_t awards_replaced = 0;
    std::size_t boundary_sets_added = 0;
    std::size_t boundary_sets_unchanged = 0;
    std::size_t boundary_sets_replaced = 0;
    std::size_t facts_added = 0;
    std::size_t facts_unchanged = 0;
    std::size_t facts_completed = 0; ///< with a topic
    std::size_t facts_replaced = 0;
    std::size_t sheets_added = 0;
    std::size_t sheets_unchanged = 0;
    std::size_t sheets_completed = 0; ///< with a log; there was none on file
    std::size_t sheets_replaced = 0;
    std::size_t class_figures_added = 0; ///< of closed classes
    std::size_t class_figures_unchanged = 0;
    std::size_t classes_added = 0;
    std::size_t members_added = 0;
    std::size_t absences_added = 0;
    std::size_t lessons_added = 0;
    std::size_t lessons_unchanged = 0;
    std::size_t lessons_completed = 0; ///< with who asked for a place
    std::size_t lessons_replaced = 0;
    std::size_t papers_kept_unseen = 0; ///< that were not here
    std::size_t topics_listed = 0;      ///< added to the lists of topics
    std::size_t sets_added = 0;
    std::size_t pictures_added = 0;
    std::vector<DrawnId> drawn_ids{};  ///< of papers that have another id here
    std::vector<std::string> left_out; ///< scripts of the document that were not taken, a sentence each
    std::vector<Error> conflicts;      ///< with one or more nothing is to be stored

    void refuse(const std::string& why) { conflicts.emplace_back(why, Error::Kind::conflict); }
};

/// Merges the document into the store by a Change that the caller commits only if there are no conflicts.
/// What is on file and not in the document stays. A paper is never replaced. Throws Error if `as` is not a
/// code, or the document doesn't have exactly one candidate for it.
Merge merge(Store::Change& change, const Document& document, const MergeOptions& options,
            const HowFar& told = {});

std::string json_of(const Merge& merge);

} // namespace inkturn
