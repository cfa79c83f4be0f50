#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/student/plan_steering.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics_on_file.hpp"

#include "exchange/json/plan.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"
#include "view/text/checks.hpp"
#include "view/text/ratings.hpp"
#include "view/text/retries.hpp"
#include "view/text/steering.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct PlanOptions {
    std::string from;
    std::string to;
    std::string papers;
    std::string subject;
    std::string marking;
    std::string missed_from;
    std::string slips;
    bool again = false;
    PlanSteering steering;

    bool state_wishes() const { return !(papers + marking + missed_from + slips).empty(); }
};

constexpr Days plan_length{28};

DaySpan span_of(const Context& context, const PlanOptions& options) {
    const Day from = context.date_of(options.from);
    const Day to =
        options.to.empty() ? std::min(from + plan_length - Days{1}, latest_day) : context.date_of(options.to);
    return parse_day_span(iso(from) + ".." + iso(to), context.date_today());
}

/// The subjects of the papers on file and the papers sat.
std::set<std::string> subjects_of_papers(const Store& store, const Candidate& candidate) {
    std::set<std::string> subjects;
    for (const auto& paper : store.papers())
        subjects.insert(paper->subject());
    for (const SittingRecord& record : candidate.sittings)
        subjects.insert(record.paper->subject());
    subjects.erase("");
    return subjects;
}

void check_subject(const std::string& subject, std::set<std::string> known, const Candidate& candidate) {
    for (const Exam& exam : candidate.exams)
        known.insert(exam.subject);
    for (const auto& wish : candidate.wishes.papers)
        known.insert(wish.first);
    known.erase("");
    if (known.count(subject) > 0)
        return;
    const std::string problem = "--subject '" + subject + "': no paper, sitting or exam on file has it; ";
    if (known.empty())
        throw Error(problem + "none has a subject");
    throw Error(problem + "on file: " + list_text(known));
}

/// The subjects to sit papers in: the one named, or else those with an exam ahead; for an exam in all
/// subjects, those of the papers.
std::set<std::string> subjects_of_wishes(const Store& store, const Candidate& candidate,
                                         const PlanOptions& options, Day today) {
    const std::set<std::string> of_papers = subjects_of_papers(store, candidate);
    if (!options.subject.empty()) {
        check_subject(options.subject, of_papers, candidate);
        return {options.subject};
    }
    std::set<std::string> subjects;
    for (const Exam& exam : candidate.exams) {
        if (exam.day <= today || exam.mock)
            continue;
        if (exam.subject.empty() && !of_papers.empty())
            subjects.insert(of_papers.begin(), of_papers.end());
        else
            subjects.insert(exam.subject);
    }
    if (subjects.empty())
        throw Error("--papers " + options.papers +
                    ": there is no exam ahead; add one (inkturn exam add TITLE --on D) or use --subject");
    return subjects;
}

bool parse_on_or_off(const std::string& text, const std::string& option) {
    if (text != "on" && text != "off")
        throw Error(option + " '" + text + "': use on or off");
    return text == "on";
}

PlanWishes wishes_of(const Store& store, const Candidate& candidate, const PlanOptions& options, Day today) {
    PlanWishes wishes = candidate.wishes;
    if (!options.marking.empty())
        wishes.marking_percent =
            parse_whole_number(options.marking, 0, PlanWishes::max_marking_percent, "--marking");
    if (!options.missed_from.empty())
        wishes.retries.missed_from =
            Marks(parse_whole_number(options.missed_from, 1, max_part_marks.count(), "--missed-from"));
    if (!options.slips.empty())
        wishes.retries.slips = parse_on_or_off(options.slips, "--slips");
    if (options.papers.empty())
        return wishes;
    const int count = options.papers == "all"
                          ? 0
                          : parse_whole_number(options.papers, 0, PlanWishes::max_papers, "--papers");
    const std::set<std::string> subjects = subjects_of_wishes(store, candidate, options, today);
    if (options.subject.empty())
        wishes.papers.erase(""); // wished before papers had subjects
    for (const std::string& subject : subjects)
        if (options.papers == "all")
            wishes.papers.erase(subject);
        else
            wishes.papers[subject] = {count, today};
    return wishes;
}

/// Saves the wishes for this plan and later ones, and the days it gives.
void keep_plan(const Context& context, const PlanOptions& options) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change change(store);
    const std::string code = context.candidate_code();
    keep_times_by_default(context, change, code);
    keep_days_passed(change, code, today);
    if (options.state_wishes())
        PlanOnFile(change).set_wishes(code, wishes_of(store, store.candidate(code), options, today));
    keep_timetable(change, store.candidate(code), today,
                   options.again ? PlacementMode::again : PlacementMode::keep);
    change.commit();
}

/// A timetable, whose it is, and the days shown.
struct PlanShown {
    const Candidate& candidate;
    const Timetable& timetable;
    const std::vector<Remedy>& remedies;
    const std::vector<PlanChange>& changes;
    const std::vector<Choice>& choices;
    const PapersForChecks& papers;
    DaySpan span;
    Day today;
    std::string first_command; ///< of a candidate without a sitting
};

/// The next command after a plan without work.
std::string next_without_work(const PlanShown& shown) {
    if (shown.timetable.fit != PlanFit::fits)
        return "days set WEEKDAY=MINUTES";
    return shown.first_command.empty() ? "sitting list" : shown.first_command;
}

void print(const Context& context, const PlanShown& shown) {
    const Plan shown_days = plan(shown.timetable, shown.candidate, shown.span);
    const bool any = std::any_of(shown_days.days.begin(), shown_days.days.end(), [](const PlannedDay& day) {
        return !day.items.empty() || day.reserved > Seconds(0);
    });
    const bool any_fixed =
        std::any_of(shown_days.days.begin(), shown_days.days.end(),
                    [&](const PlannedDay& day) { return !fixed_on(day, shown.candidate.exams).empty(); });
    context.out << context.heading("Plan for " + visible(shown.candidate.code) + ", " + day_text(shown.span))
                << '\n'
                << verdict_text(shown.timetable)
                << (any || shown.timetable.items.empty() ? counted_work(shown_days) : "Nothing on these days")
                << '\n';
    if (any)
        context.out << "Times are " << form_of_lengths << ".\n";
    if (any || any_fixed)
        context.out << '\n' << plan_table(shown_days, shown.candidate.exams);
    std::string said = goes_by_text(shown.timetable) + rule_text(shown.candidate.wishes.retries);
    for (const SubjectAhead& subject : shown.timetable.subjects)
        said += subject_text(subject, shown.today);
    said += met_before_text(shown.timetable.items, shown.span) +
            checks_text(shown_days, shown.papers, context.same_candidate()) +
            unchecked_text(shown.timetable.unchecked) + expected_text(shown.timetable) +
            changes_text(shown.changes) + on_exam_days_text(shown.timetable, shown.candidate.exams) +
            without_day_text(shown.timetable, shown.candidate.exams, shown.today) +
            choices_text(shown.choices) +
            short_text(shown.timetable, shown.remedies, context.same_candidate());
    if (!said.empty())
        context.out << '\n' << said;
    if (any) {
        context.out << '\n'
                    << fullest_text(shown.timetable) << context.next("week")
                    << "or, to plan it all afresh: inkturn plan --again" << context.same_candidate() << '\n';
    } else {
        context.out << context.next(next_without_work(shown));
    }
}

void run(const Context& context, const PlanOptions& options) {
    const PlanSteering& steering = options.steering;
    check_steering_options(steering, options.subject);
    if (!options.subject.empty() && options.papers.empty() && !steering.names_topic())
        throw UsageError("--subject needs --papers or --topic");
    const bool is_kept = options.state_wishes() || options.again;
    if (steering.is_any() && is_kept)
        throw UsageError("decide about single work apart from wishes for the plan and --again");
    const Day today = context.date_today();
    const DaySpan span = span_of(context, options);
    const Candidate before = context.store_to_read().candidate(context.candidate_code());
    std::string done;
    if (steering.is_any())
        done = steer_plan(context, steering, options.subject);
    else if (is_kept)
        keep_plan(context, options);
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    TimetableOnFile timetable = whole_timetable(store, candidate, today);
    timetable.changes = changes(before, timetable.made, today);
    const std::vector<Remedy> would_do = remedies(candidate, timetable, today);
    const std::vector<Choice> chosen = choices(timetable.from, timetable.request, timetable.made, today);
    context.answer(
        [&] {
            return json_of(plan(timetable.made, candidate, span), timetable.made, would_do, timetable.changes,
                           {candidate.wishes.retries, chosen});
        },
        [&] {
            context.out << done << (done.empty() ? "" : "\n");
            print(context,
                  PlanShown{candidate, timetable.made, would_do, timetable.changes, chosen, timetable.papers,
                            span, today, candidate.sittings.empty() ? first_command(store, candidate) : ""});
        });
}

} // namespace

void add_plan(Command& line) {
    auto options = std::make_shared<PlanOptions>();
    Command plan_command =
        line.command("plan", "All the work up to the exam, day by day: retries, papers, topics, facts");
    plan_command.option("--from", options->from, "D", "First day shown (today)");
    plan_command.option("--to", options->to, "D", "Last day shown (27 days later)");
    plan_command.option("--papers", options->papers, "N|all",
                        "Papers to sit from today on, also for later plans; all: those on file (all)");
    plan_command.option("--subject", options->subject, "S",
                        "With --papers or --topic: in this subject (in each with an exam ahead)");
    plan_command.option("--marking", options->marking, "P",
                        "Time to mark a paper, in percent of its allowance, also for later plans (50)");
    plan_command.option("--missed-from", options->missed_from, "N",
                        "Missed marks from which a question makes a retry, also for later plans (1)");
    plan_command.option("--slips", options->slips, "on|off",
                        "Whether slips and misreadings alone make a retry, also for later plans (on)");
    plan_command.flag("--again", options->again, "Plan everything afresh");
    add_steering_options(plan_command, options->steering);
    plan_command.json();
    plan_command.closing("Examples:\n  inkturn plan --to +14d\n  inkturn plan --papers 8\n"
                         "  inkturn plan --paper pure-3 --on +9d\n  inkturn plan --restart\n"
                         "Each week has a free day (inkturn days free).");
    plan_command.runs(options, run);
}

} // namespace inkturn
