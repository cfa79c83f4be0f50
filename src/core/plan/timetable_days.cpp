#include "core/retry/kept_days.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/plan/timetable.hpp"

#include <array>
#include <limits>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace inkturn {
namespace {

std::string fact_name(FactId fact) {
    return std::to_string(static_cast<std::int64_t>(fact));
}

constexpr std::array<std::string_view, 5> work_names{"retry", "sit", "relearn", "check", "recall"};

} // namespace

std::string_view name(WorkKind kind) noexcept {
    return work_names[static_cast<std::size_t>(kind)];
}

std::vector<WorkItem> Timetable::not_placed() const {
    std::vector<WorkItem> without;
    for (const WorkItem& item : items)
        if (!item.day && item.possible_days)
            without.push_back(item);
    return without;
}

SittingsRequest sittings_of(const TimetableRequest& request) {
    return {request.papers, request.on_desk, request.share, request.of_others, request.drawn, request.met};
}

TimetableRequest with_weak_topics(TimetableRequest request, const Candidate& candidate) {
    if (!request.weak)
        request.weak = std::make_shared<const std::vector<WeakTopic>>(weak_topics(candidate));
    return request;
}

Candidate with_days_of(const Timetable& timetable, Candidate candidate) {
    // By labels that the candidate or the timetable holds.
    std::map<std::pair<SittingId, std::string_view>, Day> days;
    for (const Placement& placement : candidate.placements)
        days[{placement.sitting, placement.question}] = placement.day;
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work); retry && item.day)
            days[{retry->id.sitting, retry->id.question}] = *item.day;
    std::vector<Placement> placements;
    for (const auto& [retry, day] : days)
        placements.push_back({retry.first, std::string(retry.second), day});
    candidate.placements = std::move(placements);
    candidate.planned = planned_work(timetable);
    candidate.planned_for = timetable.today;
    return candidate;
}

void compare_with_file(const Candidate& candidate, Timetable& timetable) {
    const KeptDays days(candidate.placements);
    for (WorkItem& item : timetable.items)
        if (auto* retry = std::get_if<Retry>(&item.work)) {
            retry->kept_day = days.find(retry->id.sitting, retry->id.question);
            retry->day_is_new = retry->day && retry->day != retry->kept_day;
        }
}

std::vector<Retry> retries_of(const Timetable& timetable) {
    std::vector<Retry> retries;
    retries.reserve(timetable.items.size());
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work))
            retries.push_back(*retry);
    return retries;
}

FactDays fact_days(const std::vector<PlannedWork>& planned) {
    FactDays days;
    for (const PlannedWork& work : planned)
        if (work.what == WorkPurpose::recall)
            if (const auto number = read_whole_number(work.name, std::numeric_limits<int>::max()))
                days[FactId{*number}] = work.day;
    return days;
}

std::vector<PlannedWork> planned_work(const Timetable& timetable) {
    std::vector<PlannedWork> planned;
    for (const WorkItem& item : timetable.items) {
        if (!item.day)
            continue;
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            planned.push_back({WorkPurpose::sit, paper->subject,
                               paper->paper ? paper->paper->id() : std::string(), paper->number, *item.day,
                               item.duration});
        else if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
            planned.push_back(
                {WorkPurpose::relearn, topic->subject, topic->topic, topic->piece, *item.day, item.duration});
        else if (const auto* check = std::get_if<TopicToCheck>(&item.work))
            planned.push_back(
                {WorkPurpose::check, check->subject, check->topic, 0, *item.day, item.duration});
        else if (const auto* group = std::get_if<RecallGroup>(&item.work))
            for (const FactId fact : group->facts)
                planned.push_back(
                    {WorkPurpose::recall, group->subject, fact_name(fact), 0, *item.day, time_for_fact});
    }
    for (const Reservation& reservation : timetable.reservations)
        if (reservation.turn == 1) // room for later turns yields to all that may come
            planned.push_back({WorkPurpose::reservation, reservation.subject, reservation.paper, 0,
                               reservation.day, reservation.duration});
    return planned;
}

bool has_plan(const Candidate& candidate, const TimetableRequest& request, Day today) {
    TimetableRequest one = with_weak_topics(request, candidate);
    one.mode = PlacementMode::again;
    const WorkAhead ahead = work_ahead(candidate, one, today);
    if (proven_short(ahead.time, ahead.pieces) > Seconds(0))
        return false;
    one.mode = PlacementMode::keep;
    return timetable(candidate, one, today).fit == PlanFit::fits;
}

} // namespace inkturn
