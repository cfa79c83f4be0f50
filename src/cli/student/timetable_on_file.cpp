#include "cli/student/timetable_on_file.hpp"

#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/reading.hpp"

#include <algorithm>
#include <tuple>
#include <variant>

namespace inkturn {
namespace {

bool are_same(const PlannedWork& a, const PlannedWork& b) {
    return std::tie(a.what, a.subject, a.name, a.number, a.day, a.duration) ==
           std::tie(b.what, b.subject, b.name, b.number, b.day, b.duration);
}

std::vector<Candidate> others_in_classes(const Store& store, const Candidate& candidate) {
    std::vector<Candidate> others;
    for (const std::string& name : store.classes_of(candidate.code))
        for (const std::string& code : store.members(name))
            if (code != candidate.code)
                others.push_back(store.candidate(code));
    return others;
}

MissedShare share_on_file(const Store& store, const Candidate& candidate) {
    if (const auto own = missed_share({candidate}))
        return {*own, ShareOf::candidate};
    if (const auto of_members = missed_share(others_in_classes(store, candidate)))
        return {*of_members, ShareOf::members};
    return {};
}

/// Those of a day in any order.
std::vector<PlannedWork> in_order(std::vector<PlannedWork> planned) {
    std::sort(planned.begin(), planned.end(), [](const PlannedWork& a, const PlannedWork& b) {
        return std::tie(a.day, a.what, a.subject, a.name, a.number, a.duration) <
               std::tie(b.day, b.what, b.subject, b.name, b.number, b.duration);
    });
    return planned;
}

TimetableRequest timetable_request(const Store& store, const Candidate& candidate, PlacementMode mode) {
    const Reading whole(store);
    TimetableRequest request;
    for (const PaperOnFile& on_file : store.papers())
        request.papers.push_back(on_file.paper);
    for (const Script& script : Desk::scripts(store, candidate.code))
        if (!script.id.retry)
            request.on_desk.insert(script.paper->id());
    request.facts = FactsOnFile::all(store);
    request.sheets = FactsOnFile::sheets(store, candidate.code);
    request.share = share_on_file(store, candidate);
    request.mode = mode;
    return request;
}

std::vector<Retry> retries_of(const Timetable& timetable) {
    std::vector<Retry> retries;
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work))
            retries.push_back(*retry);
    return retries;
}

void keep_timetable(Store& store, const Candidate& candidate, const Timetable& timetable) {
    keep_days(store, retries_of(timetable));
    const std::vector<PlannedWork> planned = in_order(planned_work(timetable));
    const std::vector<PlannedWork> on_file = in_order(candidate.planned);
    if (!store.writable() ||
        std::equal(planned.begin(), planned.end(), on_file.begin(), on_file.end(), are_same))
        return;
    Store::Change change(store);
    PlanOnFile(change).keep(candidate.code, planned);
    change.commit();
}

} // namespace

TimetableOnFile timetable_on_file(Store& store, const Candidate& candidate, PlacementMode mode, Day today) {
    TimetableOnFile on_file{timetable_request(store, candidate, mode), {}, {}};
    on_file.made = timetable(candidate, on_file.request, today);
    on_file.changes = changes(candidate, on_file.made, today);
    keep_timetable(store, candidate, on_file.made);
    return on_file;
}

std::vector<Remedy> remedies(const Candidate& candidate, const TimetableOnFile& timetable, Day today) {
    if (timetable.made.short_by == Seconds(0))
        return {};
    return remedies(candidate, timetable.request, today);
}

} // namespace inkturn
