#include "cli/span_options.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr Days days_shown{7};

} // namespace

void SpanOptions::add_to(Command& command) {
    const Option one = command.option("--date", date, "D", "This day alone");
    command.option("--from", from, "D", "First day shown (today)").excludes(one);
    command.option("--to", to, "D", "Last day shown (6 days later)").excludes(one);
}

DaySpan SpanOptions::read(const Context& context) const {
    if (!date.empty()) {
        const Day day = context.date_of(date);
        return {day, day};
    }
    const Day first = context.date_of(from);
    const Day last = to.empty() ? std::min(first + days_shown - Days{1}, latest_day) : context.date_of(to);
    return parse_day_span(iso(first) + ".." + iso(last), context.date_today());
}

} // namespace inkturn
