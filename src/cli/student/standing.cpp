#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/outlooks.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/standing.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "view/text/aim.hpp"
#include "view/text/award.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct StandingOptions {
    std::string subject;
    std::string aim;
    std::string clear;
};

/// All that the screen or the JSON is made from.
struct Shown {
    CandidateStanding standing;
    std::vector<AwardStanding> awards;
    std::optional<AimOutlook> aim;
    std::size_t drawn; ///< sittings of drawn papers, which no boundary is for
};

/// Whose marks the next paper is foreseen from; empty where it isn't.
std::string foreseen_from(const Outlooks& outlooks, const Candidate& candidate, const SubjectStanding& in) {
    const auto subject = predictable_subject(candidate, in.subject);
    return subject ? text_line("The next paper's ranges rest on " +
                               marks_of_text(outlooks.in(*subject).candidates()) + ".")
                   : "";
}

void print_aim(const Context& context, const Shown& shown, const std::string& lines) {
    if (!lines.empty())
        context.out << "What it takes: " << aim_title(shown.aim->aim) << '\n' << lines << '\n';
}

void print(const Context& context, const Shown& shown, std::size_t position) {
    const AwardStanding& standing = shown.awards[position];
    context.out << context.heading(wrapped(award_title(standing.award), text_width(), 2)) << '\n';
    if (shown.aim)
        print_aim(context, shown, aim_lines(shown.aim->awards[position], standing, shown.aim->aim));
    context.out << components_sat_table(standing) << '\n' << open_lines(standing);
    if (standing.under.empty())
        context.out << text_line("No boundary set of the award is on file: inkturn boundaries add --award " +
                                 shell_word(standing.award.name) + " --set NAME --total N A=MARK B=MARK");
    else
        context.out << "\nThe sum of what counts:\n" << award_sets_table(standing) << award_key(standing);
    if (!standing.grades.empty())
        context.out << "\nEach component by itself:\n" << component_grades_table(standing);
    context.out << '\n';
}

void print_nearest(const Context& context, const Shown& shown) {
    if (!shown.aim)
        return;
    if (const auto table = nearest_table(shown.aim->nearest))
        context.out << context.heading("Marks nearest to be won") << '\n'
                    << *table << nearest_key(Gain()) << '\n';
}

void print(const Context& context, const Shown& shown, const SubjectStanding& in, const std::string& takes,
           const std::set<std::string>& subjects, const std::string& foreseen_from) {
    context.out << context.heading(in.subject.empty() ? "All subjects" : "Subject " + visible(in.subject))
                << '\n';
    print_aim(context, shown, takes);
    if (!in.standing.under.empty())
        context.out << basis_lines(in) << '\n'
                    << sets_table(in) << sets_key(in) << '\n'
                    << outlook_title(in) << outlook_table(in) << '\n'
                    << prediction_lines(in, subjects) << foreseen_from << worth_lines(in);
    if (!in.standing.under.empty() && !in.standing.unmatched.empty())
        context.out << '\n';
    context.out << unmatched_lines(in) << '\n';
}

void print(const Context& context, const Shown& shown, const Candidate& candidate, const Outlooks& outlooks) {
    const CandidateStanding& standing = shown.standing;
    context.out << context.heading(standing.candidate == "me" ? "Your standing"
                                                              : visible(standing.candidate) + "'s standing")
                << " under the grade boundaries on file\n\n";
    for (std::size_t i = 0; i < shown.awards.size(); ++i)
        print(context, shown, i);
    if (standing.subjects.empty() && shown.awards.empty()) {
        context.out << "No boundary sets on file"
                    << (standing.subject.empty() ? "" : " for " + visible(standing.subject))
                    << ".\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
        return;
    }
    bool any_fits = false;
    for (std::size_t i = 0; i < standing.subjects.size(); ++i) {
        const SubjectStanding& in = standing.subjects[i];
        const std::string takes = shown.aim ? aim_lines(shown.aim->subjects[i], in) : "";
        print(context, shown, in, takes, subjects_sat_whole(candidate, in.subject),
              foreseen_from(outlooks, candidate, in));
        any_fits = any_fits || !in.standing.under.empty();
    }
    for (const AwardStanding& award : shown.awards)
        any_fits = any_fits || !award.under.empty();
    print_nearest(context, shown);
    context.out << in_part_text(standing) << drawn_text(shown.drawn)
                << (shown.awards.empty() ? "" : award_caution())
                << (any_fits ? standing_caution()
                    : standing.subjects.empty()
                        ? "" // each award says so
                        : "No boundary set fits what was sat, so there is no standing.\n")
                << context.next(any_fits || standing.subjects.empty() ? "today" : "sitting list");
}

std::optional<Aim> aim_typed(const StandingOptions& options) {
    if (options.aim.empty() && !options.clear.empty())
        throw UsageError("--clear says how far above the boundary of --aim: name its grade too");
    if (options.aim.empty())
        return std::nullopt;
    return Aim{options.aim,
               Marks(options.clear.empty()
                         ? 0
                         : parse_whole_number(options.clear, 0, max_set_marks.count(), "--clear"))};
}

void run(const Context& context, const StandingOptions& options) {
    const std::optional<Aim> aim = aim_typed(options);
    Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    const Candidate whole = context.candidate_on_file(store);
    const Candidate candidate = without_drawn_papers(whole, DrawnPapers::copies(store));
    const Outlooks outlooks(context, store, peers_of(store, candidate.code));
    const NextPaper next = next_paper_of(outlooks, candidate.code);
    Shown shown{standing_in(options.subject, candidate, sets_on_file(store), next),
                award_standings(AwardsOnFile::all(store), options.subject, candidate,
                                award_sets_on_file(store), next),
                {},
                whole.sittings.size() - candidate.sittings.size()};
    const bool has_sets = !shown.standing.subjects.empty() || !shown.awards.empty();
    if (aim && has_sets)
        shown.aim = aim_outlook(shown.standing, shown.awards, *aim,
                                outlooks.topics_of({candidate.code}, options.subject, Gain()).topics);
    context.answer([&] { return json_of(shown.standing, shown.awards, shown.aim); },
                   [&] { print(context, shown, candidate, outlooks); });
}

} // namespace

void add_standing(Command& line) {
    auto options = std::make_shared<StandingOptions>();
    Command standing = line.command("standing", "Where the marks stand under each boundary set on file");
    standing.option("--subject", options->subject, "S", "Only this subject (all)");
    standing.option("--aim", options->aim, "GRADE", "Say what this grade takes under each set");
    standing.option("--clear", options->clear, "N", "With --aim: so many marks clear of its boundary (0)");
    standing.json();
    standing.closing("Examples:\n  inkturn standing --subject pure\n  inkturn standing --aim A --clear 10");
    standing.runs(options, run);
}

} // namespace inkturn
