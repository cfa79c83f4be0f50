#include "cli/span_options.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr Days days_shown{7};

} // namespace

void SpanOptions::add_to(CLI::App& command) {
    CLI::Option* one = command.add_option("--date", date, "This day alone")->type_name("D");
    command.add_option("--from", from, "First day shown (today)")->type_name("D")->excludes(one);
    command.add_option("--to", to, "Last day shown (6 days later)")->type_name("D")->excludes(one);
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
