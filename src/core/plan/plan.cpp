#include "inkturn/plan/plan.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <tuple>

namespace inkturn {
namespace {

std::vector<PlannedDay> empty_days(const Availability& availability, DaySpan span) {
    std::vector<PlannedDay> days;
    for (Day day = span.first; day <= span.last; day += Days{1})
        days.push_back({day, availability.on(day), Seconds(0), Seconds(0), Seconds(0), false, {}, {}});
    return days;
}

bool falls_in(const Retry& retry, DaySpan span) {
    return retry.day && span.contains(*retry.day);
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

Plan plan(const Timetable& timetable, const Candidate& candidate, DaySpan span) {
    Plan plan;
    plan.days = empty_days(candidate.availability, span);
    const auto on = [&](Day day) -> PlannedDay& {
        return plan.days[static_cast<std::size_t>((day - span.first).count())];
    };
    if (span.contains(timetable.today))
        on(timetable.today).done = timetable.done;
    for (const WorkItem& item : timetable.items)
        if (item.day && span.contains(*item.day)) {
            on(*item.day).planned += item.duration;
            on(*item.day).items.push_back(item);
        }
    for (const Reservation& room : timetable.reservations)
        if (span.contains(room.day))
            on(room.day).reserved += room.duration;
    for (const LessonPlace& lesson : candidate.lessons)
        if (span.contains(lesson.day))
            on(lesson.day).lessons.push_back(lesson);
    for (const Exam& exam : candidate.exams)
        if (span.contains(exam.day)) {
            PlannedDay& day = on(exam.day);
            day.mock = exam.mock && (!day.exam || day.mock);
            day.exam = true;
        }
    for (PlannedDay& day : plan.days)
        if (day.exam && day.planned + day.reserved == Seconds(0))
            day.available = Seconds(0);
    return plan;
}

namespace {

/// A topic waits as its retries wait for it, until the eve of their exam.
bool can_wait(const WorkItem& item, Day today) {
    if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
        return !topic->exam || *topic->exam > today + Days{1};
    return item.possible_days && item.possible_days->last > today;
}

} // namespace

OpenTonight open_tonight(const Timetable& timetable) {
    OpenTonight open;
    for (const WorkItem& item : timetable.items)
        if (item.day == timetable.today)
            (can_wait(item, timetable.today) ? open.can_wait : open.last_day).push_back(item);
    return open;
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
    work.done = timetable.done;
    for (const LessonPlace& lesson : candidate.lessons)
        if (lesson.day == today)
            work.lessons.push_back(lesson);
    const auto comes = [&work](Day day, bool is_retry, bool is_counted) {
        if (!work.next || day < work.next->day)
            work.next = TodaysWork::Next{day, 0, true};
        if (day > work.next->day)
            return;
        work.next->count += is_counted ? 1 : 0;
        work.next->retries_alone = work.next->retries_alone && is_retry;
    };
    for (const WorkItem& item : timetable.items) {
        const auto* retry = std::get_if<Retry>(&item.work);
        if (!retry)
            continue;
        if (!retry->day) {
            work.without_day += has_no_day_left(*retry, candidate.exams, today);
        } else if (*retry->day == today) {
            work.planned += retry->allowance;
            work.last_day_today += !has_day_on(candidate, *retry, today + Days{1});
            work.retries.push_back(*retry);
        } else {
            comes(*retry->day, true, true);
            work.late_after += retry->late ? 1 : 0;
        }
    }
    work.not_placed = timetable.not_placed().size();
    std::set<Day> with_facts;
    std::set<std::tuple<Day, std::string, std::string>> topics; ///< counted once for both halves
    for (const PlannedWork& planned : planned_work(timetable)) {
        if (planned.what == WorkPurpose::reservation || is_begun(planned, on_desk))
            continue;
        if (planned.day == today) {
            work.planned += planned.duration;
            work.last_day_today += is_examined_by(candidate.exams, planned.subject, today + Days{1});
            work.other_work.push_back(planned);
        } else {
            comes(planned.day, false,
                  planned.what == WorkPurpose::recall ? with_facts.insert(planned.day).second
                  : planned.what == WorkPurpose::relearn
                      ? topics.emplace(planned.day, planned.subject, planned.name).second
                      : true);
        }
    }
    return work;
}

std::optional<FirstToDo> first_to_do(const TodaysWork& work, const std::vector<Script>& on_desk) {
    using Why = FirstToDo::Why;
    const auto find = [](const auto& list, const auto& is_it) -> std::optional<std::size_t> {
        const auto found = std::find_if(list.begin(), list.end(), is_it);
        return found == list.end() ? std::nullopt : std::optional<std::size_t>(found - list.begin());
    };
    const auto is = [](WorkPurpose what) {
        return [what](const PlannedWork& one) { return one.what == what; };
    };
    if (const auto runs = find(on_desk, [](const Script& one) { return !one.is_handed_in(); }))
        return FirstToDo{Why::clock_runs, *runs};
    if (!on_desk.empty())
        return FirstToDo{Why::to_mark, 0};
    const auto closing =
        std::min_element(work.retries.begin(), work.retries.end(), [](const Retry& a, const Retry& b) {
            return a.window && b.window ? a.window->closes < b.window->closes : a.window.has_value();
        });
    const auto first_closing = static_cast<std::size_t>(closing - work.retries.begin());
    if (closing != work.retries.end() && closing->late)
        return FirstToDo{Why::late, first_closing};
    if (const auto topic = find(work.other_work, is(WorkPurpose::relearn)))
        return FirstToDo{Why::before_retries, *topic};
    if (const auto paper = find(work.other_work, is(WorkPurpose::sit)))
        return FirstToDo{Why::needs_time, *paper};
    if (closing != work.retries.end())
        return FirstToDo{Why::closes_first, first_closing};
    if (!work.other_work.empty())
        return FirstToDo{Why::planned, 0};
    return std::nullopt;
}

} // namespace inkturn
