#include "exchange/document/merge.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

Json value_of(const std::vector<DrawnId>& ids) {
    Json all = Json::array();
    for (const DrawnId& drawn : ids)
        all.push_back({{"in_file", drawn.in_file}, {"here", drawn.here}});
    return all;
}

std::string json_of(const Merge& merge) {
    Json conflicts = Json::array();
    for (const Error& conflict : merge.conflicts)
        conflicts.push_back(conflict.what());
    return text_of({{"papers_added", merge.papers_added},
                    {"papers_completed", merge.papers_completed},
                    {"papers_unchanged", merge.papers_unchanged},
                    {"candidates_added", merge.candidates_added},
                    {"sittings_added", merge.sittings_added},
                    {"sittings_unchanged", merge.sittings_unchanged},
                    {"sittings_completed", merge.sittings_completed},
                    {"sittings_replaced", merge.sittings_replaced},
                    {"reattempts_added", merge.reattempts_added},
                    {"reattempts_unchanged", merge.reattempts_unchanged},
                    {"reattempts_completed", merge.reattempts_completed},
                    {"reattempts_replaced", merge.reattempts_replaced},
                    {"scripts_added", merge.scripts_added},
                    {"scripts_unchanged", merge.scripts_unchanged},
                    {"scripts_completed", merge.scripts_completed},
                    {"scripts_replaced", merge.scripts_replaced},
                    {"scripts_finished", merge.scripts_finished},
                    {"kept_days_added", merge.kept_days_added},
                    {"availabilities_added", merge.availabilities_added},
                    {"availabilities_replaced", merge.availabilities_replaced},
                    {"extra_times_added", merge.extra_times_added},
                    {"extra_times_replaced", merge.extra_times_replaced},
                    {"relearned_topics_added", merge.relearned_topics_added},
                    {"ratings_added", merge.ratings_added},
                    {"ratings_replaced", merge.ratings_replaced},
                    {"plan_wishes_added", merge.plan_wishes_added},
                    {"plan_wishes_replaced", merge.plan_wishes_replaced},
                    {"turns_asked_added", merge.turns_asked_added},
                    {"steered_added", merge.steered_added},
                    {"steered_replaced", merge.steered_replaced},
                    {"exams_added", merge.exams_added},
                    {"exams_unchanged", merge.exams_unchanged},
                    {"exams_moved", merge.exams_moved},
                    {"awards_added", merge.awards_added},
                    {"awards_unchanged", merge.awards_unchanged},
                    {"awards_replaced", merge.awards_replaced},
                    {"boundary_sets_added", merge.boundary_sets_added},
                    {"boundary_sets_unchanged", merge.boundary_sets_unchanged},
                    {"boundary_sets_replaced", merge.boundary_sets_replaced},
                    {"facts_added", merge.facts_added},
                    {"facts_unchanged", merge.facts_unchanged},
                    {"facts_completed", merge.facts_completed},
                    {"facts_replaced", merge.facts_replaced},
                    {"sheets_added", merge.sheets_added},
                    {"sheets_unchanged", merge.sheets_unchanged},
                    {"sheets_completed", merge.sheets_completed},
                    {"sheets_replaced", merge.sheets_replaced},
                    {"class_figures_added", merge.class_figures_added},
                    {"class_figures_unchanged", merge.class_figures_unchanged},
                    {"classes_added", merge.classes_added},
                    {"members_added", merge.members_added},
                    {"absences_added", merge.absences_added},
                    {"lessons_added", merge.lessons_added},
                    {"lessons_unchanged", merge.lessons_unchanged},
                    {"lessons_completed", merge.lessons_completed},
                    {"lessons_replaced", merge.lessons_replaced},
                    {"papers_kept_unseen", merge.papers_kept_unseen},
                    {"topics_listed", merge.topics_listed},
                    {"sets_added", merge.sets_added},
                    {"pictures_added", merge.pictures_added},
                    {"drawn_ids", value_of(merge.drawn_ids)},
                    {"left_out", merge.left_out},
                    {"conflicts", std::move(conflicts)}});
}

} // namespace inkturn
