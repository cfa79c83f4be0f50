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

std::string lost_to(std::optional<Reason> reason) {
    if (!reason)
        return "without a reason";
    switch (*reason) {
    case Reason::method:
    case Reason::recall:
        return "to " + std::string(name(*reason));
    case Reason::slip:
        return "to a slip";
    case Reason::misread:
        return "to misreading";
    case Reason::unfinished:
        return "unfinished";
    }
    return {};
}

/// `2 to method in part 7a`.
std::string piece_of(const Part& part, const LostPart& lost) {
    return std::to_string(lost.marks.count()) + " " + lost_to(lost.reason) + " in part " + part.label;
}

/// `Parts 7a and 7c`.
std::string named_parts(const std::vector<std::string>& labels) {
    return (labels.size() == 1 ? "Part " : "Parts ") + joined(labels, " and ");
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

std::string short_day_text(DaySpan span) {
    const date::year_month_day first{span.first};
    const date::year_month_day last{span.last};
    std::string end = without_year(span.last);
    if (span.first == span.last)
        return end;
    const std::string start = without_year(span.first);
    const bool same_month = first.year() == last.year() && first.month() == last.month();
    return (same_month ? start.substr(0, start.size() - 4) : start) + " to " + end;
}

std::string short_day_text(Day day) {
    const std::string text = day_text(day);
    return text.substr(0, text.size() - 5);
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

std::string lost_text(const Paper& paper, const Question& question, const std::vector<LostPart>& lost,
                      std::optional<int> turn_after) {
    std::vector<std::string> pieces;
    std::vector<std::string> joining;
    std::vector<std::string> staying;
    for (const LostPart& one : lost) {
        const Part& part = paper.part(question.parts[one.place]);
        pieces.push_back(piece_of(part, one));
        if (one.is_new)
            (one.joins_next ? joining : staying).push_back(part.label);
    }
    if (pieces.empty())
        return "";
    std::string text = text_line("Lost this time: " + joined(pieces, ", ") + ".");
    if (!joining.empty())
        text += text_line(named_parts(joining) + " had been got before" +
                          (turn_after ? (joining.size() == 1 ? ", and joins turn " : ", and join turn ") +
                                            std::to_string(*turn_after)
                                      : std::string()) +
                          ".");
    if (!staying.empty())
        text += text_line(named_parts(staying) +
                          " had been got before; a slip or a misreading there opens no turn.");
    return text;
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
