#include "view/text/retries.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/text.hpp"

namespace inkturn {
namespace {

using Align = Table::Align;

std::string without_year(Day day) {
    const std::string text = date_text(day);
    return text.substr(0, text.size() - 5);
}

/// Short, for a table: the days beside it give the year.
std::string window_text(const Retry& retry) {
    return retry.window ? without_year(retry.window->opens) + " to " + without_year(retry.window->closes)
                        : "none";
}

} // namespace

std::string day_text(DaySpan span) {
    const date::year_month_day first{span.first};
    const date::year_month_day last{span.last};
    std::string end = date_text(span.last);
    if (span.first == span.last)
        return end;
    const std::string start = date_text(span.first);
    if (first.year() != last.year())
        return start + " to " + end;
    if (first.month() != last.month())
        return start.substr(0, start.size() - 5) + " to " + end;
    return start.substr(0, start.size() - 9) + " to " + end;
}

std::string counted_retries(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " retry" : " retries");
}

std::string parts_asked(const Retry& retry) {
    std::string text;
    for (const std::size_t part : retry.paper_question().parts)
        text += (text.empty() ? "" : " ") + retry.paper->parts()[part].label;
    return text;
}

std::string missed_text(const Retry& retry) {
    return std::to_string(retry.missed_marks.count()) + " of " +
           std::to_string(retry.paper_question().marks.count());
}

std::string rule_text(const RetryRule& rule) {
    if (rule.is_default())
        return "";
    std::string text;
    if (rule.missed_from > Marks(1))
        text = "Only questions with at least " + std::to_string(rule.missed_from.count()) +
               " missed marks make a retry";
    if (!rule.slips)
        text += text.empty() ? "Slips and misreadings alone make no retry"
                             : ", and slips and misreadings alone make none";
    return wrapped(text + ".", text_width()) + '\n';
}

std::string remark(const Retry& retry) {
    if (!retry.day)
        return retry.window ? "not placed" : "no day left";
    if (retry.outside_window)
        return "outside";
    return retry.window->squeezed ? "squeezed" : "";
}

std::string late_text(const Retry& retry, Day today) {
    return retry.late ? count_text(static_cast<std::size_t>((today - retry.window->closes).count()), "day")
                      : "";
}

Table retries_by_day(const std::vector<Retry>& retries, Day today) {
    Table table({{"retry"},
                 {"parts", Align::left_may_be_cut},
                 {"missed", Align::right},
                 {"time", Align::right},
                 {"day"},
                 {"window"},
                 {"late", Align::right, true},
                 {"note", Align::left, true}});
    for (const Retry& retry : retries)
        table.add_row({to_text(retry.id), parts_asked(retry), missed_text(retry),
                       length_text(retry.allowance), retry.day ? day_text(*retry.day) : "-",
                       window_text(retry), late_text(retry, today), remark(retry)});
    return table;
}

Table retries_of_day(const std::vector<Retry>& retries, Day today) {
    Table table({{"retry"},
                 {"paper", Align::left_may_be_cut},
                 {"parts", Align::left_may_be_cut},
                 {"missed", Align::right},
                 {"time", Align::right},
                 {"window"},
                 {"late", Align::right, true},
                 {"note", Align::left, true}});
    for (const Retry& retry : retries)
        table.add_row({to_text(retry.id), retry.paper->id(), parts_asked(retry), missed_text(retry),
                       length_text(retry.allowance), window_text(retry), late_text(retry, today),
                       remark(retry)});
    return table;
}

} // namespace inkturn
