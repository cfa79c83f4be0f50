#include "inkturn/base/day_span.hpp"

#include "inkturn/base/error.hpp"

#include <string>

namespace inkturn {
namespace {

constexpr Days max_span{1500};

std::string span_text(DaySpan span) {
    return span.first == span.last ? iso(span.first) : iso(span.first) + ".." + iso(span.last);
}

/// So many years later; 1 March for a 29 February that there is not.
Day years_later(Day day, int years) {
    const date::year_month_day later = date::year_month_day{day} + date::years{years};
    return later.ok() ? Day{later} : Day{later.year() / date::March / 1};
}

/// Asks for the same days of the first year that has one of them ahead, where that is soon: of yesterday it
/// would be no likely slip.
std::string what_to_type(DaySpan span, Day today) {
    constexpr Days soon{183};
    int years = 1;
    while (years_later(span.last, years) < today)
        ++years;
    const DaySpan next{years_later(span.first, years), years_later(span.last, years)};
    return next.first - today > soon ? "give a day from today on" : "did you mean " + span_text(next) + "?";
}

} // namespace

DaySpan parse_day_span(std::string_view text, Day today) {
    const std::size_t dots = text.find("..");
    if (dots == std::string_view::npos) {
        const Day day = parse_day(text, today);
        return {day, day};
    }
    const DaySpan span{parse_day(text.substr(0, dots), today), parse_day(text.substr(dots + 2), today)};
    if (span.last < span.first)
        throw Error("'" + std::string(text) + "' ends before it starts");
    if (span.last - span.first >= max_span)
        throw Error("'" + std::string(text) + "' is longer than " + std::to_string(max_span.count()) +
                    " days");
    return span;
}

DaySpan parse_span_ahead(std::string_view text, Day today) {
    const DaySpan span = parse_day_span(text, today);
    if (span.last < today)
        throw Error(span_text(span) + (span.first == span.last ? " is past" : " are all past") +
                        " (today is " + iso(today) + "): " + what_to_type(span, today),
                    Error::Kind::conflict);
    return span;
}

} // namespace inkturn
