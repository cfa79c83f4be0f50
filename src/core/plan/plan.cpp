#include "inkturn/plan/plan.hpp"

#include "core/plan/spread_bound.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

std::vector<PlannedDay> empty_days(const Availability& availability, DaySpan span) {
    std::vector<PlannedDay> days;
    for (Day day = span.first; day <= span.last; day += Days{1})
        days.push_back({day, availability.on(day), Seconds(0), Seconds(0), {}});
    return days;
}

bool falls_in(const Retry& retry, DaySpan span) {
    return retry.day && span.contains(*retry.day);
}

/// What falls on a day of the span, with the days it might fall on cut to the span.
Load load_in(DaySpan possible_days, Day day, Seconds duration, DaySpan span) {
    return {std::min(day, std::max(possible_days.first, span.first)),
            std::max(day, std::min(possible_days.last, span.last)), duration, day};
}

/// What the fullest day must ask at least since no load is split: the largest of the loads' shares of the
/// longest day that each might fall on.
double fullest_of_whole_loads(const Capacity& capacity, const std::vector<Load>& loads) {
    double fullest = 0;
    for (const Load& load : loads) {
        Seconds longest{0};
        for (Day day = load.opens; day <= load.closes; day += Days{1})
            longest = std::max(longest,
                               capacity.available[static_cast<std::size_t>((day - capacity.first).count())]);
        if (longest > Seconds(0))
            fullest = std::max(fullest,
                               static_cast<double>(load.work.count()) / static_cast<double>(longest.count()));
    }
    return fullest;
}

bool is_begun(const PlannedWork& planned, const std::vector<Script>& on_desk) {
    return planned.what == WorkPurpose::sit &&
           std::any_of(on_desk.begin(), on_desk.end(), [&](const Script& script) {
               return !script.id.retry && script.paper->id() == planned.name;
           });
}

/// Whether an open retry that is left until the day may fall on it or later.
bool has_day_on(const Candidate& candidate, const Retry& retry, Day day) {
    const WindowByExams by = window_by_exams(candidate.exams, retry.paper->subject(), retry.dropped_on, day);
    return possible_days(by.window, by.exam, day).has_value();
}

} // namespace

std::vector<Retry> PlannedDay::retries() const {
    std::vector<Retry> retries;
    for (const WorkItem& item : items)
        if (const auto* retry = std::get_if<Retry>(&item.work))
            retries.push_back(*retry);
    return retries;
}

Plan plan(const Timetable& timetable, const Availability& availability, DaySpan span, Day today) {
    Plan plan;
    plan.days = empty_days(availability, span);
    const auto planned = [&](Day day) -> PlannedDay& {
        return plan.days[static_cast<std::size_t>((day - span.first).count())];
    };

    Capacity capacity{span.first, {}};
    for (const PlannedDay& day : plan.days)
        capacity.available.push_back(day.available);
    std::vector<Load> loads;
    const DaySpan from_today{std::max(span.first, today), span.last};
    for (const WorkItem& item : timetable.items) {
        if (!item.day || !span.contains(*item.day))
            continue;
        if (!item.possible_days)
            throw Error("work with a day needs possible days", Error::Kind::misused);
        planned(*item.day).planned += item.duration;
        planned(*item.day).items.push_back(item);
        loads.push_back(load_in(*item.possible_days, *item.day, item.duration, from_today));
    }
    for (const Reservation& room : timetable.reservations) {
        if (!span.contains(room.day))
            continue;
        planned(room.day).reserved += room.duration;
        loads.push_back(load_in(room.possible_days, room.day, room.duration, from_today));
    }

    for (const PlannedDay& day : plan.days) {
        if (day.available == Seconds(0))
            continue;
        const auto load = static_cast<double>((day.planned + day.reserved).count());
        const auto available = static_cast<double>(day.available.count());
        plan.evenness += load * load / available;
        plan.fullest_share = std::max(plan.fullest_share, load / available);
    }
    const SpreadBound bound = spread_bound(capacity, loads);
    plan.evenness_bound = bound.evenness;
    plan.fullest_share_bound = std::max(bound.fullest_share, fullest_of_whole_loads(capacity, loads));
    return plan;
}

Plan plan(const std::vector<Retry>& retries, const Availability& availability, DaySpan span, Day today) {
    Timetable timetable;
    for (const Retry& retry : retries) {
        std::optional<DaySpan> possible_days = retry.possible_days;
        if (retry.day)
            possible_days = {std::min(possible_days->first, *retry.day),
                             std::max(possible_days->last, *retry.day)};
        timetable.items.push_back({retry, retry.allowance, possible_days, retry.day});
    }
    return plan(timetable, availability, span, today);
}

SpanWork work_within(std::vector<Retry> retries, DaySpan span) {
    SpanWork within;
    for (Retry& retry : retries) {
        if (!falls_in(retry, span))
            continue;
        within.planned += retry.allowance;
        within.retries.push_back(std::move(retry));
    }
    return within;
}

std::size_t TodaysWork::facts_planned() const {
    return static_cast<std::size_t>(
        std::count_if(other_work.begin(), other_work.end(),
                      [](const PlannedWork& work) { return work.what == WorkPurpose::recall; }));
}

bool TodaysWork::is_last_day() const {
    return last_day_today == retries.size() + other_work.size();
}

TodaysWork todays_work(const Candidate& candidate, const Timetable& timetable,
                       const std::vector<Script>& on_desk, Day today) {
    TodaysWork work;
    work.day = today;
    work.available = candidate.availability.on(today);
    const auto comes = [&work](Day day, bool is_retry, bool is_counted) {
        if (!work.next || day < work.next->day)
            work.next = TodaysWork::Next{day, 0, true};
        if (day > work.next->day)
            return;
        work.next->count += is_counted ? 1 : 0;
        work.next->retries_alone = work.next->retries_alone && is_retry;
    };
    for (const Retry& retry : retries_of(timetable)) {
        if (!retry.day) {
            work.without_day += !is_examined_by(candidate.exams, retry.paper->subject(), today);
        } else if (*retry.day == today) {
            work.planned += retry.allowance;
            work.last_day_today += !has_day_on(candidate, retry, today + Days{1});
            work.retries.push_back(retry);
        } else {
            comes(*retry.day, true, true);
        }
    }
    std::set<Day> with_facts;
    for (const PlannedWork& planned : planned_work(timetable)) {
        if (planned.what == WorkPurpose::reservation || is_begun(planned, on_desk))
            continue;
        if (planned.day == today) {
            work.planned += planned.duration;
            work.last_day_today += is_examined_by(candidate.exams, planned.subject, today + Days{1});
            work.other_work.push_back(planned);
        } else {
            comes(planned.day, false,
                  planned.what != WorkPurpose::recall || with_facts.insert(planned.day).second);
        }
    }
    for (const PlannedWork& planned : candidate.planned)
        if (planned.day < today && planned.what != WorkPurpose::reservation &&
            planned.what != WorkPurpose::recall && is_to_do(candidate, planned) &&
            !is_begun(planned, on_desk) && !is_examined_by(candidate.exams, planned.subject, today))
            work.overdue.push_back(planned);
    return work;
}

} // namespace inkturn
