#pragma once

#include "exchange/document/document.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct MergeOptions {
    Day today;
    bool replace = false;            ///< where it may, the document's takes the place of what differs on file
    std::optional<std::string> as{}; ///< the code that the document's only candidate has here
};

/// What a merge did, or, where there are conflicts, would have met.
struct Merge {
    std::size_t papers_added = 0;
    std::size_t papers_completed = 0; ///< with a title, subject, topics or codes that were not stated on file
    std::size_t papers_unchanged = 0;
    std::size_t candidates_added = 0;
    std::size_t sittings_added = 0;
    std::size_t sittings_unchanged = 0;
    std::size_t sittings_completed = 0; ///< with a clock, where there was none on file
    std::size_t sittings_replaced = 0;
    std::size_t reattempts_added = 0;
    std::size_t reattempts_unchanged = 0;
    std::size_t reattempts_completed = 0; ///< with a clock
    std::size_t reattempts_replaced = 0;
    std::size_t scripts_added = 0;
    std::size_t scripts_unchanged = 0; ///< as far as in the document, or further
    std::size_t scripts_completed = 0; ///< taken as far as in the document
    std::size_t scripts_replaced = 0;
    std::size_t scripts_finished = 0; ///< marked through in the document, and so no longer scripts
    std::size_t days_added = 0;       ///< of open turns that had none
    std::size_t availabilities_added = 0;
    std::size_t availabilities_replaced = 0;
    std::size_t relearned_added = 0;
    std::size_t plan_wishes_added = 0;
    std::size_t plan_wishes_replaced = 0;
    std::size_t exams_added = 0;
    std::size_t exams_unchanged = 0;
    std::size_t exams_moved = 0;
    std::size_t boundary_sets_added = 0;
    std::size_t boundary_sets_unchanged = 0;
    std::size_t boundary_sets_replaced = 0;
    std::size_t facts_added = 0;
    std::size_t facts_unchanged = 0;
    std::size_t facts_completed = 0; ///< with a topic
    std::size_t facts_replaced = 0;
    std::size_t sheets_added = 0;
    std::size_t sheets_unchanged = 0;
    std::size_t sheets_completed = 0; ///< logged, where it was not on file
    std::size_t sheets_replaced = 0;
    std::size_t classes_added = 0;
    std::size_t members_added = 0;
    std::vector<std::string> left_out;  ///< scripts of the document that were not taken, a sentence each
    std::vector<std::string> conflicts; ///< a sentence each; with one or more nothing is to be stored
};

/// Puts what the document tells into the store by a Change that the caller commits only where there
/// are no conflicts. What is on file and not in the document stays. A paper is never replaced. Throws
/// Error where `as` is no code, or the document has not exactly one candidate for it.
Merge merge(Store::Change& change, const Document& document, const MergeOptions& options);

std::string json_of(const Merge& merge);

} // namespace inkturn
