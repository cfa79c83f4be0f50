#include "inkturn/plan/plan_change.hpp"

#include "core/retry/kept_days.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

std::optional<Day> day_before(const Candidate& candidate, const KeptDays& retries, const WorkItem& item) {
    if (const auto* retry = std::get_if<Retry>(&item.work))
        return retries.find(retry->id.sitting, retry->id.question);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        return planned_day(candidate.planned, WorkPurpose::sit, paper->subject,
                           paper->paper ? paper->paper->id() : std::string(), paper->number);
    if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
        return planned_day(candidate.planned, WorkPurpose::relearn, topic->subject, topic->topic,
                           topic->piece);
    if (const auto* check = std::get_if<TopicToCheck>(&item.work))
        return planned_day(candidate.planned, WorkPurpose::check, check->subject, check->topic, 0);
    return std::nullopt;
}

std::string named(const WorkItem& item) {
    if (const auto* retry = std::get_if<Retry>(&item.work))
        return to_text(retry->id);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        return name_of(*paper);
    if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
        return topic->topic;
    if (const auto* check = std::get_if<TopicToCheck>(&item.work))
        return check->topic;
    return {};
}

/// Halves that went together are one hour.
void join_halves(std::vector<PlanChange>& changes) {
    for (auto change = changes.begin(); change != changes.end(); ++change) {
        const auto half = std::find_if(change + 1, changes.end(), [&](const PlanChange& other) {
            return std::tie(other.kind, other.what, other.from, other.to) ==
                   std::tie(change->kind, change->what, change->from, change->to);
        });
        if (half == changes.end())
            continue;
        changes.erase(half);
        change->half = false;
    }
}

} // namespace

std::vector<PlanChange> changes(const Candidate& candidate, const Timetable& timetable, Day today) {
    std::vector<PlanChange> changes;
    const KeptDays retries(candidate.placements);
    for (const WorkItem& item : timetable.items) {
        const auto before = day_before(candidate, retries, item);
        const bool is_over = before && !item.day && *before < today; // told while its day was ahead
        if (before && before != item.day && !is_over)
            changes.push_back({item.kind(), named(item), *before, item.day, *before < today,
                               item.kind() == WorkKind::relearn});
    }
    std::stable_sort(changes.begin(), changes.end(),
                     [](const PlanChange& a, const PlanChange& b) { return a.from < b.from; });
    join_halves(changes);
    return changes;
}

} // namespace inkturn
