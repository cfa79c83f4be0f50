#include "cli/data/topics_amended.hpp"

#include "cli/student/timetable_on_file.hpp"

#include "inkturn/store/papers.hpp"

namespace inkturn {

std::vector<PlanChange> moved_days(const Context& context, Store::Change& change) {
    const std::string code = context.candidate_code();
    if (!change.store().has_candidate(code))
        return {};
    return keep_timetable(change, change.store().candidate(code), context.date_today()).moved;
}

std::vector<PlanChange> amend_topics(const Context& context, Store::Change& change,
                                     const std::map<std::string, PaperAmendment>& amendments) {
    if (amendments.empty())
        return {};
    keep_days_passed(change, context.candidate_code(), context.date_today());
    for (const auto& [id, amendment] : amendments) // one before may have amended a copy
        PapersOnFile(change).amend(amended(*change.store().find_paper(id), amendment));
    return moved_days(context, change);
}

} // namespace inkturn
