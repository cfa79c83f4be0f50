#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/trend.hpp"
#include "inkturn/statistics/trend.hpp"
#include "view/text/text.hpp"
#include "view/text/trend.hpp"

#include <iostream>

namespace inkturn {
namespace {

void print(const Context& context, const std::string& code, const Trend& trend) {
    if (trend.sittings.empty()) {
        context.out << "No sittings on file for candidate " << visible(code) << ".\n"
                    << context.next("log PAPER PART=MARKS... --rest full");
        return;
    }
    context.out << context.heading("Sittings of candidate " + visible(code)) << ", oldest first\n\n"
                << trend_figure(trend.sittings) << '\n'
                << trend_table(trend.sittings) << '\n';
    if (const auto table = trend_pace_table(trend.sittings))
        context.out << *table << '\n';
    if (!trend.turns.empty())
        context.out << "Retries, by turn:\n\n" << turns_table(trend.turns) << '\n';
    if (const std::string again = secured_again_line(trend.secured_again); !again.empty())
        context.out << again << '\n';
    context.out << context.next("topics");
}

void run_trend(const Context& context) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const Trend found = trend(candidate);
    context.answer([&] { return json_of(found); }, [&] { print(context, candidate.code, found); });
}

} // namespace

void add_trend(Command& line) {
    Command command = line.command("trend", "How sittings and retries have gone, oldest first");
    command.json();
    command.closing("Example:\n  inkturn trend");
    command.runs(run_trend);
}

} // namespace inkturn
