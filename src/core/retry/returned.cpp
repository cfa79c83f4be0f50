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

/// The window that an open retry has, or, where its exams have passed, had before them.
std::optional<Window> window_of(const Candidate& candidate, const Retry& retry) {
    if (retry.window)
        return retry.window;
    return window_by_exams(candidate.exams, retry.paper->subject(), retry.dropped_on, retry.dropped_on)
        .window;
}

void count_open(const Retry& retry, Day today, ReturnedWork& work) {
    if (!retry.window) {
        ++work.late;
        ++work.rested;
    } else if (retry.late) {
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
    for (const Retry& retry : open) {
        const auto window = window_of(candidate, retry);
        const bool has_rested =
            !retry.window && is_examined_by(candidate.exams, retry.paper->subject(), today);
        if (window && window->opens <= days.last && (retry.window || has_rested))
            count_open(retry, today, work);
    }
    work.due = work.recorded + work.planned + work.late + work.not_placed;
    return work;
}

std::vector<ReturnedWork> those_to_ask(const std::vector<ReturnedWork>& work) {
    std::vector<ReturnedWork> late;
    std::copy_if(work.begin(), work.end(), std::back_inserter(late),
                 [](const ReturnedWork& one) { return one.to_ask_for() > 0; });
    std::sort(late.begin(), late.end(), [](const ReturnedWork& a, const ReturnedWork& b) {
        return std::tuple(b.to_ask_for(), b.longest_late, a.candidate) <
               std::tuple(a.to_ask_for(), a.longest_late, b.candidate);
    });
    return late;
}

} // namespace inkturn
