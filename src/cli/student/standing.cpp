#include "cli/commands.hpp"
#include "cli/data/boundary_options.hpp"

#include "exchange/json/json.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string subject;
    bool json = false;
};

void print(const Context& context, const SubjectStanding& in) {
    context.out << context.heading(in.subject.empty() ? "All subjects" : "Subject " + visible(in.subject))
                << '\n';
    if (!in.standing.under.empty())
        context.out << taken_lines(in) << '\n'
                    << sets_table(in) << sets_key(in) << '\n'
                    << "Sets in which a grade is reached, and the cushion over the hardest:\n"
                    << outlook_table(in) << '\n'
                    << foreseen_lines(in) << worth_lines(in);
    if (!in.standing.under.empty() && !in.standing.unmatched.empty())
        context.out << '\n';
    context.out << unmatched_lines(in) << '\n';
}

void print(const Context& context, const StandingAsked& asked) {
    context.out << context.heading("Standing of " + visible(asked.candidate))
                << " under the grade boundaries on file\n\n";
    if (asked.subjects.empty()) {
        context.out << "No boundary sets on file"
                    << (asked.subject.empty() ? "" : " for " + visible(asked.subject))
                    << ".\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
        return;
    }
    bool any_fits = false;
    for (const SubjectStanding& in : asked.subjects) {
        print(context, in);
        any_fits = any_fits || !in.standing.under.empty();
    }
    context.out << (any_fits ? standing_caution()
                             : "No boundary set fits what was sat: there is no standing.\n")
                << "Next: inkturn " << (any_fits ? "today" : "sitting list") << '\n';
}

void run(const Context& context, const Options& options) {
    Store store = context.store_to_read();
    const StandingAsked asked =
        standing_in(options.subject, context.candidate_on_file(store), sets_on_file(store));
    if (options.json)
        context.out << json_of(asked).dump(2) << '\n';
    else
        print(context, asked);
}

} // namespace

void add_standing(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* standing =
        app.add_subcommand("standing", "Where the marks stand under every boundary set on file");
    standing->add_option("--subject", options->subject, "Only this subject (all)")->type_name("S");
    standing->add_flag("--json", options->json, "Print JSON");
    standing->footer("Example:\n  inkturn standing --subject pure");
    standing->callback(
        [options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
