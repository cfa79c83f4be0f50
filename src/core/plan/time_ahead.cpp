#include "inkturn/plan/time_ahead.hpp"

#include <algorithm>

namespace inkturn {
namespace {

void add_if_any(std::vector<DaySpan>& spans, DaySpan span) {
    if (span.first <= span.last)
        spans.push_back(span);
}

} // namespace

TimeAhead time_ahead(const Availability& availability, const std::vector<Exam>& exams, Seconds done_today,
                     DaySpan days) {
    TimeAhead time{days.first, {}};
    for (Day day = days.first; day <= days.last; day += Days{1})
        time.days.push_back({availability.on(day), Seconds(0), false});
    for (const Exam& exam : exams)
        if (days.first <= exam.day && exam.day <= days.last)
            time.days[static_cast<std::size_t>((exam.day - days.first).count())].exam = true;
    if (!time.days.empty())
        time.days.front().done = done_today;
    return time;
}

Day last_day_looked_at(const WindowByExams& by, Day today) {
    constexpr Days looked_at{56};
    if (!by.window)
        return today;
    const Day last = std::min(std::max(by.window->closes, today) + looked_at, latest_day);
    return by.exam ? std::min(last, *by.exam - Days{1}) : last;
}

std::vector<DaySpan> retry_spans(const Window& window, std::optional<Day> exam, Day attempt,
                                 const TimeAhead& time) {
    const Day today = time.today;
    Day last = today + Days{time.days.size()} - Days{1};
    if (exam)
        last = std::min(last, *exam - Days{1});
    std::vector<DaySpan> spans;
    if (window.closes < today) {
        add_if_any(spans, {today, last});
        return spans;
    }
    const DaySpan left{std::max(window.opens, today), window.closes};
    spans.push_back(left);
    add_if_any(spans, {window.closes + Days{1}, last});
    add_if_any(spans, {std::max(today, attempt + Days{1}), left.first - Days{1}});
    return spans;
}

WorkPiece retry_piece(Seconds work, const WindowByExams& by, Day attempt, int number, const TimeAhead& time) {
    WorkPiece piece{work, {}};
    if (!by.window)
        return piece;
    piece.spans = retry_spans(*by.window, by.exam, attempt, time);
    if (by.window->closes < time.today)
        piece.late = Lateness{by.window->closes, attempt, number};
    return piece;
}

} // namespace inkturn
