#include "cli/commands.hpp"

#include "exchange/json/json.hpp"
#include "inkturn/statistics/trend.hpp"
#include "view/text/text.hpp"
#include "view/text/trend.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    bool json = false;
};

void print(const Context& context, const std::string& code, const Trend& trend) {
    if (trend.sittings.empty()) {
        context.out << "No sittings of candidate " << visible(code)
                    << " on file.\nNext: inkturn log PAPER PART=MARKS... --rest full\n";
        return;
    }
    context.out << context.heading("Sittings of candidate " + visible(code)) << ", as they came\n\n"
                << trend_figure(trend.sittings) << '\n'
                << trend_table(trend.sittings) << '\n';
    if (const auto table = trend_pace_table(trend.sittings))
        context.out << *table << '\n';
    if (!trend.turns.empty())
        context.out << "Retries, by turn:\n\n" << turns_table(trend.turns) << '\n';
    context.out << "Next: inkturn topics\n";
}

void run(const Context& context, const Options& options) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const Trend found = trend(candidate);
    if (options.json)
        context.out << json_of(found).dump(2) << '\n';
    else
        print(context, candidate.code, found);
}

} // namespace

void add_trend(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand("trend", "How sittings and retries go, in the order of time");
    command->add_flag("--json", options->json, "Print JSON");
    command->footer("Example:\n  inkturn trend");
    command->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
