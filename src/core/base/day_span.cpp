#include "inkturn/base/day_span.hpp"

#include "inkturn/base/error.hpp"

#include <string>

namespace inkturn {
namespace {

constexpr Days max_span{1500};

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

} // namespace inkturn
