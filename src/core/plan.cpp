#include "inkturn/plan.hpp"

#include "inkturn/spread.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::vector<PlannedDay> empty_days(const Availability& availability, DaySpan span) {
    std::vector<PlannedDay> days;
    for (Day day = span.first; day <= span.last; day += Days{1})
        days.push_back({day, availability.on(day), Seconds(0), {}});
    return days;
}

bool falls_in(const Retry& retry, DaySpan span) {
    return retry.day && span.first <= *retry.day && *retry.day <= span.last;
}

/// The load of a retry with its window cut to the span. A retry outside its window has its day alone.
Load load_in(const Retry& retry, DaySpan span) {
    if (retry.outside_window)
        return {*retry.day, *retry.day, retry.allowance, retry.day};
    return {std::max(retry.left->first, span.first), std::min(retry.left->last, span.last), retry.allowance,
            retry.day};
}

} // namespace

Plan plan(const std::vector<Retry>& retries, const Availability& availability, DaySpan span, Day today) {
    Plan plan;
    plan.days = empty_days(availability, span);

    Capacity capacity{span.first, {}};
    for (const PlannedDay& day : plan.days)
        capacity.available.push_back(day.available);
    std::vector<Load> loads;
    std::vector<Day> days;
    const DaySpan from_today{std::max(span.first, today), span.last};
    for (const Retry& retry : retries) {
        if (!falls_in(retry, span))
            continue;
        PlannedDay& day = plan.days[static_cast<std::size_t>((*retry.day - span.first).count())];
        day.asked += retry.allowance;
        day.retries.push_back(retry);
        loads.push_back(load_in(retry, from_today));
        days.push_back(*retry.day);
    }

    const Weight weight = weigh(capacity, loads, days);
    const SpreadBound bound = spread_bound(capacity, loads);
    plan.over = weight.over;
    plan.evenness = weight.evenness;
    plan.evenness_bound = bound.evenness;
    plan.fullest_share = fullest_share(capacity, loads, days);
    plan.fullest_share_bound = bound.fullest_share;
    return plan;
}

AskedWithin asked_within(std::vector<Retry> retries, DaySpan span) {
    AskedWithin within;
    for (Retry& retry : retries) {
        if (!falls_in(retry, span))
            continue;
        within.asked += retry.allowance;
        within.retries.push_back(std::move(retry));
    }
    return within;
}

TodaysWork todays_work(const std::vector<Retry>& retries, const Availability& availability, Day today) {
    TodaysWork work;
    work.today = {today, availability.on(today), Seconds(0), {}};
    for (const Retry& retry : retries) {
        if (!retry.day) {
            ++work.without_day;
        } else if (*retry.day == today) {
            work.today.asked += retry.allowance;
            work.today.retries.push_back(retry);
        } else if (!work.next || *retry.day < work.next->day) {
            work.next = TodaysWork::Next{*retry.day, 1};
        } else if (*retry.day == work.next->day) {
            ++work.next->count;
        }
    }
    return work;
}

} // namespace inkturn
