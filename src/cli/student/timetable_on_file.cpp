#include "cli/student/timetable_on_file.hpp"

#include "cli/student/papers_to_sit.hpp"
#include "cli/student/topics_on_file.hpp"

#include "inkturn/plan/later_turns.hpp"
#include "inkturn/plan/roll.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/reading.hpp"

#include <algorithm>
#include <memory>

namespace inkturn {
namespace {

std::vector<Candidate> others_in_classes(const Store& store, const Candidate& candidate) {
    std::vector<Candidate> others;
    for (const std::string& name : store.classes_of(candidate.code))
        for (const std::string& code : store.members(name))
            if (code != candidate.code)
                others.push_back(store.candidate(code));
    return others;
}

MissedShare share_on_file(const Store& store, const Candidate& candidate, const std::vector<Copies>& copies) {
    if (const auto own = missed_share({without_drawn_papers(candidate, copies)}, candidate.wishes.retries))
        return {*own, ShareOf::candidate};
    std::vector<Candidate> others = others_in_classes(store, candidate);
    for (Candidate& other : others)
        other = without_drawn_papers(std::move(other), copies);
    if (const auto of_members = missed_share(others, candidate.wishes.retries))
        return {*of_members, ShareOf::members};
    return {};
}

TimetableRequest timetable_request(const Store& store, const Candidate& candidate, Day today) {
    const Reading whole(store);
    const PapersOfPlans on_file(store);
    const std::vector<Script> scripts = Desk::scripts(store, candidate.code);
    SittingsRequest sittings = on_file.request_for(candidate, scripts, today);
    TimetableRequest request;
    request.papers = std::move(sittings.papers);
    request.on_desk = std::move(sittings.on_desk);
    request.of_others = std::move(sittings.of_others);
    request.drawn = std::move(sittings.drawn);
    request.met = std::move(sittings.met);
    request.topics_on_desk = topics_on_desk(scripts);
    request.facts = FactsOnFile::all(store);
    request.sheets = FactsOnFile::sheets(store, candidate.code);
    request.share = share_on_file(store, candidate, on_file.copies());
    request.turns = TurnsReserved::first;
    request.drawn_unseen = unseen_papers(request.papers, request.drawn, on_file.copies(), candidate, scripts);
    request.weak = std::make_shared<const std::vector<WeakTopic>>(weak_topics(candidate, on_file.copies()));
    request.ratings = ratings_that_count(rated_topics_on_file(store, candidate));
    if (!request.ratings.empty() || !topics_to_check(candidate, {}, today).empty())
        request.unseen = std::make_shared<const std::vector<UnseenQuestion>>(unseen_questions(
            on_file.papers(), on_file.copies(), candidate, scripts, on_file.kept_unseen(), today));
    return request;
}

/// The day for which the days on file were chosen; where that is not known, the first of them.
std::optional<Day> planned_for(const Candidate& candidate) {
    std::optional<Day> day = candidate.planned_for;
    const auto count = [&, is_known = day.has_value()](Day one) {
        if (!is_known)
            day = std::min(day.value_or(one), one);
    };
    for (const Placement& placement : candidate.placements)
        count(placement.day);
    for (const PlannedWork& planned : candidate.planned)
        count(planned.day);
    return day;
}

/// The candidate with the days that each day since those on file were chosen would have planned.
Candidate rolled_to(const Candidate& candidate, const TimetableRequest& request, Day today) {
    const auto from = planned_for(candidate);
    if (!from)
        return candidate;
    return rolled(KeptOn<Candidate>{*from, candidate}, today - Days{1},
                  [&](const Candidate& kept, Day day) {
                      return with_days_of(timetable(kept, request, day), kept);
                  })
        .kept;
}

void keep_days_of(Store::Change& change, const Candidate& candidate, const Timetable& made, Day today) {
    change.keep_days(retries_of(made));
    PlanOnFile plan(change);
    plan.keep(candidate.code, planned_work(made));
    plan.set_planned_for(candidate.code, std::max(today, candidate.planned_for.value_or(today)));
}

} // namespace

TimetableOnFile timetable_on_file(const Store& store, const Candidate& candidate, Day today,
                                  PlacementMode mode) {
    TimetableOnFile on_file{
        timetable_request(store, candidate, today), {}, {}, {}, {PapersOnFile::ids(store), {}}};
    on_file.papers.drawn = on_file.request.drawn_unseen;
    on_file.from = rolled_to(candidate, on_file.request, today);
    on_file.request.mode = mode;
    on_file.made = timetable(on_file.from, on_file.request, today);
    on_file.request.mode = PlacementMode::keep;
    compare_with_file(candidate, on_file.made);
    on_file.changes = changes(candidate, on_file.made, today);
    return on_file;
}

TimetableOnFile whole_timetable(const Store& store, const Candidate& candidate, Day today) {
    TimetableOnFile whole = timetable_on_file(store, candidate, today);
    reserve_later_turns(whole.from, whole.made);
    whole.request.turns = TurnsReserved::all;
    return whole;
}

KeptTimetable keep_timetable(Store::Change& change, const Candidate& candidate, Day today,
                             PlacementMode mode) {
    const TimetableOnFile on_file = timetable_on_file(change.store(), candidate, today, mode);
    keep_days_of(change, candidate, on_file.made, today);
    return {retries_of(on_file.made), on_file.changes};
}

KeptTimetable keep_timetable(Store::Change& change, const Candidate& candidate, Day today,
                             const Candidate& before) {
    const TimetableOnFile on_file = timetable_on_file(change.store(), candidate, today);
    keep_days_of(change, candidate, on_file.made, today);
    return {retries_of(on_file.made), changes(before, on_file.made, today)};
}

std::vector<PlanChange> keep_days_passed(Store::Change& change, const std::string& code, Day today) {
    const Candidate candidate = change.store().candidate(code);
    const auto from = planned_for(candidate);
    if (!from || *from >= today)
        return {};
    return keep_timetable(change, candidate, today).moved;
}

void keep_days_passed(Store::Change& change, const std::vector<std::string>& codes, Day today) {
    for (const std::string& code : codes)
        keep_days_passed(change, code, today);
}

void keep_times_by_default(const Context& context, Store::Change& change, const std::string& code) {
    if (const auto times = context.times_by_default(change.store(), code))
        change.set_times(code, *times);
}

std::vector<Retry> retries_on_file(const Store& store, const Candidate& candidate, Day today) {
    return retries_of(timetable_on_file(store, candidate, today).made);
}

std::vector<Remedy> remedies(const Candidate& candidate, const TimetableOnFile& timetable, Day today) {
    if (timetable.made.fit == PlanFit::fits)
        return {};
    return remedies(candidate, timetable.request, today);
}

} // namespace inkturn
