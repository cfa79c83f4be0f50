#include "cli/commands.hpp"

#include "exchange/json.hpp"
#include "inkturn/error.hpp"
#include "inkturn/plan.hpp"
#include "sheet/retries.hpp"
#include "sheet/text.hpp"

#include <algorithm>
#include <iomanip>
#include <iostream>
#include <sstream>

namespace inkturn {
namespace {

struct Options {
    std::string from;
    std::string to;
    bool again = false;
    bool json = false;
};

constexpr Days days_shown{28};

DaySpan span_of(const Context& context, const Options& options) {
    const Day from = context.date_of(options.from);
    const Day to =
        options.to.empty() ? std::min(from + days_shown - Days{1}, latest_day) : context.date_of(options.to);
    return parse_day_span(iso(from) + ".." + iso(to), context.date_today());
}

std::string percent_text(double share) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(1) << 100 * share << '%';
    return text.str();
}

std::string seconds_text(double seconds) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(0) << seconds << " s";
    return text.str();
}

void print_quality(const Context& context, const Plan& plan) {
    context.out << "\nFullest day: " << percent_text(plan.fullest_share)
                << " of its time; no plan could have it below " << percent_text(plan.fullest_share_bound)
                << ".\nEvenness: " << seconds_text(plan.evenness)
                << " (the less the more even); no plan could have it below "
                << seconds_text(plan.evenness_bound)
                << ".\nBoth bounds are worked out as if questions could be split over days.\n";
    if (plan.over > Seconds(0))
        context.out
            << "It does not all fit: " << length_text(plan.over)
            << " is over the time available. Give it more time\n(inkturn days on D=90), or let some go: rest "
               "days and sleep come first.\n";
}

void print(const Context& context, const Candidate& candidate, const Plan& plan, DaySpan span) {
    std::size_t count = 0;
    for (const PlannedDay& day : plan.days)
        count += day.retries.size();
    context.out << context.heading("Plan for " + visible(candidate.code) + ", " + spoken(span)) << ": "
                << counted_retries(count) << '\n';
    if (count == 0) {
        context.out << "Next: inkturn "
                    << (candidate.sittings.empty() ? "log PAPER PART=MARKS... --rest full" : "sitting list")
                    << '\n';
        return;
    }
    context.out << '\n' << plan_table(plan);
    print_quality(context, plan);
    context.out << "Next: inkturn today (or inkturn plan --again, which places everything anew)\n";
}

void run(const Context& context, const Options& options) {
    const Day today = context.date_today();
    const DaySpan span = span_of(context, options);
    Store store = options.again ? context.store_to_write() : context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const std::vector<Retry> retries =
        open_retries(candidate, today, options.again ? Placing::again : Placing::keep);
    keep_days(store, retries);
    const Plan planned = plan(retries, candidate.availability, span, today);
    if (options.json)
        context.out << json_of(planned).dump(2) << '\n';
    else
        print(context, candidate, planned, span);
}

} // namespace

void add_plan(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* plan_command = app.add_subcommand("plan", "The retries day by day, and how even they are");
    plan_command->add_option("--from", options->from, "First day shown (today)")->type_name("D");
    plan_command->add_option("--to", options->to, "Last day shown (27 days later)")->type_name("D");
    plan_command->add_flag("--again", options->again, "Place everything anew");
    plan_command->add_flag("--json", options->json, "Print JSON");
    plan_command->footer("Example:\n  inkturn plan --to +14d");
    plan_command->callback(
        [options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
