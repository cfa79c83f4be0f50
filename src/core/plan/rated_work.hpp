#pragma once

#include "inkturn/facts/recall.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/rating.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/plan/timetable.hpp"

#include <vector>

namespace inkturn {

/// What a timetable is to place, before each piece has its spans.
struct WorkToPlace {
    std::vector<TopicToRelearn> topics;
    std::vector<TopicToCheck> checks;
    std::vector<UncheckedTopic> unchecked;
    std::vector<DueFact> due;
    std::vector<PaperToSit> papers;
    std::vector<SubjectAhead> subjects;
    std::size_t first_things = 0; ///< of the first days; else 0
};

/// By marks and, where they count, ratings.
WorkToPlace work_to_place(const Candidate& candidate, const TimetableRequest& request, Day today,
                          std::vector<DueFact> due, const std::vector<Retry>& retries);

/// Adds what ratings bring, for the seven days from today on: topics not understood, an hour each, then
/// fifteen minutes of unseen questions on shaky ones, three in all at a time. Left out are those relearned,
/// or tried, since they were rated, on that day only in a paper that was drawn; those that marks bring in
/// already, and what was let go. `drawn`: ids of papers.
void add_rated_work(WorkToPlace& work, const Candidate& candidate, const std::vector<TopicRating>& ratings,
                    const PaperIds& drawn, Day today);

/// Whether a plan is of the first days: topics were rated, and nothing was sat.
bool is_of_first_days(const Candidate& candidate, const std::vector<TopicRating>& ratings);

/// Of the first days: three things at most for the seven days from today on, beside checks of what was
/// relearned. Understanding comes first, then facts, of that topic where there are any, then practice:
/// questions, or a paper.
void keep_first_things(WorkToPlace& work, const std::vector<Fact>& facts, Day today);

/// Understanding on a day before facts, and these before practice, where that fits. `item_of` has the item of
/// each piece.
void put_first_things_in_order(std::vector<WorkPiece>& pieces, const std::vector<std::size_t>& item_of,
                               const std::vector<WorkItem>& items);

} // namespace inkturn
