#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/outlooks.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/standing.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct StandingOptions {
    std::string subject;
};

/// Whose marks the next paper is foreseen from; empty where it isn't.
std::string foreseen_from(const Outlooks& outlooks, const Candidate& candidate, const SubjectStanding& in) {
    const auto subject = predictable_subject(candidate, in.subject);
    return subject ? text_line("The next paper's ranges rest on " +
                               marks_of_text(outlooks.in(*subject).candidates()) + ".")
                   : "";
}

void print(const Context& context, const SubjectStanding& in, const std::string& foreseen_from) {
    context.out << context.heading(in.subject.empty() ? "All subjects" : "Subject " + visible(in.subject))
                << '\n';
    if (!in.standing.under.empty())
        context.out << basis_lines(in) << '\n'
                    << sets_table(in) << sets_key(in) << '\n'
                    << "Sets in which each grade is reached, and the cushion above the hardest:\n"
                    << outlook_table(in) << '\n'
                    << prediction_lines(in) << foreseen_from << worth_lines(in);
    if (!in.standing.under.empty() && !in.standing.unmatched.empty())
        context.out << '\n';
    context.out << unmatched_lines(in) << '\n';
}

void print(const Context& context, const CandidateStanding& standing, const Candidate& candidate,
           const Outlooks& outlooks) {
    context.out << context.heading(standing.candidate == "me" ? "Your standing"
                                                              : visible(standing.candidate) + "'s standing")
                << " under the grade boundaries on file\n\n";
    if (standing.subjects.empty()) {
        context.out << "No boundary sets on file"
                    << (standing.subject.empty() ? "" : " for " + visible(standing.subject))
                    << ".\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
        return;
    }
    bool any_fits = false;
    for (const SubjectStanding& in : standing.subjects) {
        print(context, in, foreseen_from(outlooks, candidate, in));
        any_fits = any_fits || !in.standing.under.empty();
    }
    context.out << in_part_text(standing)
                << (any_fits ? standing_caution()
                             : "No boundary set fits what was sat, so there is no standing.\n")
                << "Next: inkturn " << (any_fits ? "today" : "sitting list") << '\n';
}

void run(const Context& context, const StandingOptions& options) {
    Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    const Candidate candidate = context.candidate_on_file(store);
    const Outlooks outlooks(store, peers_of(store, candidate.code));
    const CandidateStanding standing =
        standing_in(options.subject, candidate, sets_on_file(store), next_paper_of(outlooks, candidate.code));
    context.answer([&] { return json_of(standing); }, [&] { print(context, standing, candidate, outlooks); });
}

} // namespace

void add_standing(Command& line) {
    auto options = std::make_shared<StandingOptions>();
    Command standing = line.command("standing", "Where the marks stand under each boundary set on file");
    standing.option("--subject", options->subject, "S", "Only this subject (all)");
    standing.json();
    standing.closing("Example:\n  inkturn standing --subject pure");
    standing.runs(options, run);
}

} // namespace inkturn
