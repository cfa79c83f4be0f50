#include "cli/commands.hpp"
#include "cli/timetable_on_file.hpp"

#include "exchange/json.hpp"
#include "inkturn/error.hpp"
#include "inkturn/number.hpp"
#include "inkturn/plan.hpp"
#include "inkturn/plan_on_file.hpp"
#include "sheet/retries.hpp"
#include "sheet/text.hpp"
#include "sheet/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string from;
    std::string to;
    std::string papers;
    std::string subject;
    std::string marking;
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

/// The subjects of which papers are wished: the one named, else those with an exam ahead.
std::vector<std::string> subjects_wished(const Candidate& candidate, const Options& options, Day today) {
    if (!options.subject.empty())
        return {options.subject};
    std::vector<std::string> subjects;
    for (const Exam& exam : candidate.exams)
        if (exam.day > today && std::find(subjects.begin(), subjects.end(), exam.subject) == subjects.end())
            subjects.push_back(exam.subject);
    if (subjects.empty())
        throw Error("--papers " + options.papers +
                    ": no exam is ahead; add it (inkturn exam add TITLE --on D) or name a --subject");
    return subjects;
}

PlanWishes wishes_of(const Candidate& candidate, const Options& options, Day today) {
    PlanWishes wishes = candidate.wishes;
    if (!options.marking.empty())
        wishes.marking_percent =
            parse_whole_number(options.marking, 0, PlanWishes::most_marking_percent, "--marking");
    if (options.papers.empty())
        return wishes;
    for (const std::string& subject : subjects_wished(candidate, options, today))
        if (options.papers == "all")
            wishes.papers.erase(subject);
        else
            wishes.papers[subject] = {
                parse_whole_number(options.papers, 0, PlanWishes::most_papers, "--papers"), today};
    return wishes;
}

/// Keeps what is wished of this plan and those to come.
void keep_wishes(const Context& context, const Options& options) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change change(store);
    const Candidate candidate = store.candidate(context.candidate_code());
    PlanOnFile(store).set_wishes(candidate.code, wishes_of(candidate, options, today));
    change.commit();
}

void print_quality(const Context& context, const Plan& plan) {
    context.out << "Fullest day: " << decimal(100 * plan.fullest_share, 1)
                << "% of its time; no plan could have it below " << decimal(100 * plan.fullest_share_bound, 1)
                << "%.\nEvenness: " << decimal(plan.evenness, 0)
                << " s (the less the more even); no plan could have it below "
                << decimal(plan.evenness_bound, 0)
                << " s.\nThe second bound is worked out as if work could be split over days.\n";
    if (plan.over > Seconds(0))
        context.out << "More than these days have: " << length_text(plan.over) << ".\n";
}

/// The timetable, what it was made for, and the days of it that are shown.
struct Shown {
    const Candidate& candidate;
    const Timetable& timetable;
    const std::vector<Remedy>& remedies;
    const std::vector<PlanChange>& changes;
    DaySpan span;
    Day today;
};

void print(const Context& context, const Shown& shown) {
    const Plan shown_days = plan(shown.timetable, shown.candidate.availability, shown.span, shown.today);
    context.out << context.heading("Plan for " + visible(shown.candidate.code) + ", " + spoken(shown.span))
                << '\n'
                << counted_work(shown_days) << '\n';
    const bool any = std::any_of(shown_days.days.begin(), shown_days.days.end(), [](const PlannedDay& day) {
        return !day.items.empty() || day.kept > Seconds(0);
    });
    if (any)
        context.out << '\n' << plan_table(shown_days);
    std::string said;
    for (const SubjectAhead& subject : shown.timetable.subjects)
        said += subject_text(subject, shown.today);
    said += foreseen_text(shown.timetable) + changes_text(shown.changes) +
            short_text(shown.timetable, shown.remedies);
    if (!said.empty())
        context.out << '\n' << said;
    if (any) {
        context.out << '\n';
        print_quality(context, shown_days);
        context.out << "Next: inkturn week (or inkturn plan --again, which places everything anew)\n";
    } else {
        context.out << "Next: inkturn "
                    << (shown.candidate.sittings.empty() ? "log PAPER PART=MARKS... --rest full"
                                                         : "sitting list")
                    << '\n';
    }
}

void run(const Context& context, const Options& options) {
    const Day today = context.date_today();
    const DaySpan span = span_of(context, options);
    if (!options.papers.empty() || !options.marking.empty())
        keep_wishes(context, options);
    Store store = options.again ? context.store_to_write() : context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const TimetableOnFile timetable =
        timetable_on_file(store, candidate, options.again ? Placing::again : Placing::keep, today);
    const std::vector<Remedy> would_do = remedies(candidate, timetable, today);
    if (options.json)
        context.out << json_of(plan(timetable.made, candidate.availability, span, today), timetable.made,
                               would_do, timetable.changes)
                           .dump(2)
                    << '\n';
    else
        print(context, {candidate, timetable.made, would_do, timetable.changes, span, today});
}

} // namespace

void add_plan(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* plan_command =
        app.add_subcommand("plan", "All the work up to the exam, day by day: retries, papers, topics, facts");
    plan_command->add_option("--from", options->from, "First day shown (today)")->type_name("D");
    plan_command->add_option("--to", options->to, "Last day shown (27 days later)")->type_name("D");
    plan_command
        ->add_option("--papers", options->papers,
                     "How many papers to sit from today on, kept for later plans; all: those on file (all)")
        ->type_name("N|all");
    plan_command
        ->add_option("--subject", options->subject,
                     "With --papers: of this subject (of each with an exam ahead)")
        ->type_name("S");
    plan_command
        ->add_option("--marking", options->marking,
                     "Time to mark a paper, in per cent of its allowance, kept for later plans (50)")
        ->type_name("P");
    plan_command->add_flag("--again", options->again, "Place everything anew");
    plan_command->add_flag("--json", options->json, "Print JSON");
    plan_command->footer("Example:\n  inkturn plan --to +14d\n  inkturn plan --papers 8\n"
                         "Each week keeps a day free (inkturn days free).");
    plan_command->callback(
        [options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
