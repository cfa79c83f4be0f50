#include "inkturn/retry/returned.hpp"

#include <algorithm>
#include <iterator>
#include <tuple>

namespace inkturn {
namespace {

/// The day from which the window of a recorded turn counted.
Day counted_from(const SittingRecord& record, const Reattempt& reattempt) {
    Day from = record.sitting.day;
    for (const Reattempt& earlier : record.reattempts)
        if (earlier.question == reattempt.question && earlier.turn < reattempt.turn)
            from = std::max(from, earlier.day);
    for (const AskedAgain& again : record.asked_again)
        if (again.question == reattempt.question && again.turn == reattempt.turn)
            from = std::max(from, again.day);
    return from;
}

/// Whether the turn was done on these days, or later though its window opened by then.
bool was_due(const Candidate& candidate, const SittingRecord& record, const Reattempt& reattempt,
             DaySpan days) {
    if (reattempt.day < days.first)
        return false;
    if (reattempt.day <= days.last)
        return true;
    const auto window = window_by_exams(candidate.exams, record.paper->subject(),
                                        counted_from(record, reattempt), reattempt.day)
                            .window;
    return window && window->opens <= days.last;
}

void count_recorded(const Candidate& candidate, DaySpan days, ReturnedWork& work) {
    for (const SittingRecord& record : candidate.sittings)
        for (const Reattempt& reattempt : record.reattempts) {
            work.last_recorded = std::max(work.last_recorded.value_or(reattempt.day), reattempt.day);
            work.recorded += was_due(candidate, record, reattempt, days);
        }
}

void count_open(const Retry& retry, Day today, ReturnedWork& work) {
    if (retry.late) {
        ++work.late;
        work.longest_late = std::max(work.longest_late, today - retry.window->closes);
    } else if (retry.day) {
        ++work.planned;
    } else {
        ++work.not_placed;
    }
}

} // namespace

ReturnedWork returned_work(const Candidate& candidate, const std::vector<Retry>& open, DaySpan days,
                           Day today) {
    ReturnedWork work;
    work.candidate = candidate.code;
    count_recorded(candidate, days, work);
    for (const Retry& retry : open)
        if (retry.window && retry.window->opens <= days.last)
            count_open(retry, today, work);
    work.due = work.recorded + work.planned + work.late + work.not_placed;
    return work;
}

std::vector<ReturnedWork> those_to_ask(const std::vector<ReturnedWork>& work) {
    std::vector<ReturnedWork> late;
    std::copy_if(work.begin(), work.end(), std::back_inserter(late),
                 [](const ReturnedWork& one) { return one.late > 0; });
    std::sort(late.begin(), late.end(), [](const ReturnedWork& a, const ReturnedWork& b) {
        return std::tuple(b.late, b.longest_late, a.candidate) <
               std::tuple(a.late, a.longest_late, b.candidate);
    });
    return late;
}

} // namespace inkturn
