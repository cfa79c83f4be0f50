#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/names_of_candidates.hpp"
#include "cli/outlooks.hpp"
#include "cli/output_file.hpp"
#include "cli/output_folder.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics_on_file.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/grades/award_standing.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/statistics/trend.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "view/page/report.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/award.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"
#include "view/text/today.hpp"

#include <algorithm>
#include <iostream>
#include <map>

namespace inkturn {
namespace {

constexpr Days two_weeks{14};

struct ReportOptions {
    std::string subject;
    std::string of_class;
    std::string names;
    CsvOptionTexts csv;
    OutputOptions output;
};

/// The candidate with only the sittings in one subject, if one was named.
Candidate of_subject(Candidate candidate, const std::string& subject) {
    auto& sittings = candidate.sittings;
    sittings.erase(std::remove_if(sittings.begin(), sittings.end(),
                                  [&](const SittingRecord& record) {
                                      return !subject.empty() && record.paper->subject() != subject;
                                  }),
                   sittings.end());
    return candidate;
}

std::vector<InkBar> bars_of(const Candidate& candidate, const std::vector<Copies>& copies) {
    std::vector<std::shared_ptr<const Paper>> papers;
    for (const SittingRecord& record : candidate.sittings)
        papers.push_back(record.paper);
    const std::set<std::string> drawn = drawn_papers(papers, copies);
    std::vector<InkBar> bars;
    for (const SittingRecord& record : candidate.sittings) {
        const Totals sum = totals(*record.paper, record.sitting.parts);
        bars.push_back({record.paper->id(), record.sitting.day, sum.max, sum.in_time, sum.overtime,
                        sum.corrected, drawn.count(record.paper->id()) > 0});
    }
    return bars;
}

std::optional<Report::LastPace> last_pace(const Candidate& candidate) {
    for (auto record = candidate.sittings.rbegin(); record != candidate.sittings.rend(); ++record)
        if (const auto clock = clock_of(*record->paper, record->sitting))
            return Report::LastPace{record->paper->id(),
                                    record->sitting.day,
                                    {record_of(*clock).points, clock->allowance(), clock->marks()}};
    return std::nullopt;
}

/// Every day of the two weeks, with or without work.
std::vector<Report::DayAhead> days_ahead(const Timetable& timetable, const Candidate& candidate, Day today) {
    std::vector<Report::DayAhead> days;
    const DaySpan span{today, std::min(today + two_weeks - Days{1}, latest_day)};
    for (const PlannedDay& planned : plan(timetable, candidate, span).days) {
        Report::DayAhead& day = days.emplace_back(Report::DayAhead{
            planned.day, planned.planned, planned.available, fixed_on(planned, candidate.exams)});
        for (const WorkItem& item : with_halves_joined(planned.items))
            day.items.push_back(long_text(item));
    }
    return days;
}

/// What today begins with, and whether all of it fits.
std::vector<std::string> next_of(const TodaysWork& work, const Timetable& made,
                                 const std::vector<Script>& scripts) {
    std::vector<std::string> next;
    if (const auto first = first_to_do(work, scripts)) {
        std::string text = opening_text(*first, work, scripts);
        text.front() = upper(text.front());
        next.push_back(text);
    } else if (work.next) {
        next.push_back("Nothing to do today; the next work is on " + day_text(work.next->day) + ".");
    }
    if (made.fit == PlanFit::too_little_time)
        next.push_back("The weeks are short by " + length_text(made.short_by) +
                       ", whatever the plan: inkturn plan says what would help.");
    else if (made.fit == PlanFit::not_found)
        next.push_back("No plan was found that fits: inkturn plan says what would help.");
    return next;
}

Report report_of(const Context& context, const ReportOptions& options, const Store& store,
                 const Candidate& whole, const Outlooks& outlooks) {
    const Day today = context.date_today();
    const Candidate candidate = of_subject(whole, options.subject);
    const Timetable made = whole_timetable(store, whole, today).made;
    const std::vector<Script> scripts = Desk::scripts(store, whole.code);

    const std::vector<BoundarySet> sets = sets_on_file(store);

    Report report;
    report.candidate = candidate.code;
    report.day = today;
    const std::vector<Copies> copies = DrawnPapers::copies(store);
    const Candidate of_papers = without_drawn_papers(candidate, copies);
    report.sittings = bars_of(candidate, copies);
    report.bands = bands_for(of_papers, sets);
    report.pace = last_pace(candidate);
    TopicsFound found = outlooks.topics_of({candidate.code}, options.subject, {});
    add_rated_advice(found.topics, whole, rated_topics_on_file(store, whole, options.subject));
    report.topics = report_topics(found.topics, found.candidates);
    const NextPaper next = next_paper_of(outlooks, candidate.code);
    report.standing = standing_page_table(standing_in(options.subject, of_papers, sets, next));
    report.awards = award_page_table(award_standings(AwardsOnFile::all(store), options.subject, of_papers,
                                                     award_sets_on_file(store), next));
    report.turns = trend(candidate).turns;
    report.days = days_ahead(made, whole, today);
    report.next = next_of(todays_work(whole, made, scripts, today), made, scripts);
    return report;
}

/// A page each for the members of a class, with their names if a file has them.
void write_class(const Context& context, const ReportOptions& options, const Store& store) {
    const NamesOfCandidates names(context, options.names, options.csv, "no report was written");
    std::map<std::vector<std::string>, Outlooks> by_peers; // most members have the same
    const std::vector<std::string> members = store.members(options.of_class);
    if (members.empty())
        throw Error("class " + options.of_class + " has no members, so there is no report to write");
    names.say_whose(context, members, options.of_class, "report");
    const PageFolder folder(context, options.output.file, options.output.force, members);
    ProgressLine progress(context.err, "inkturn: reports", std::nullopt, context.quiet);
    std::size_t written = 0;
    for (const std::string& code : members) {
        progress.show_piece("candidate", ++written, members.size());
        const std::vector<std::string> peers = peers_of(store, code);
        const Outlooks& outlooks = by_peers.try_emplace(peers, context, store, peers).first->second;
        Report report = report_of(context, options, store, store.candidate(code), outlooks);
        report.name = names.of(code);
        folder.write(code, to_html(report));
    }
    context.out << text_line("Wrote " + count_text(members.size(), "report") + " to " +
                             visible(options.output.file) + ", a page a candidate, such as " +
                             page_file_name(members.front()) + ".")
                << text_line(
                       "They hold pupils' marks: give each to its candidate alone, and delete the folder "
                       "once they are printed.")
                << "Next: open a file in a browser and print it on " << sheet_size_text() << '\n';
}

void run(const Context& context, const ReportOptions& options) {
    const Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    use_paper_size(context);
    if (!options.of_class.empty()) {
        write_class(context, options, store);
        return;
    }
    if (!options.names.empty())
        throw UsageError("--names goes with --class: one's own report needs no name");
    const Candidate candidate = context.candidate_on_file(store);
    const Report report = report_of(context, options, store, candidate,
                                    Outlooks(context, store, peers_of(store, candidate.code)));
    write_output(context, options.output, to_html(report), OwnMark::html);
    if (options.output.file != "-")
        context.out << "Wrote a report on candidate " << visible(report.candidate) << ": "
                    << count_text(report.sittings.size(), "sitting") << ", "
                    << count_text(report.topics.shown.size(), "topic")
                    << ".\nNext: open the file in a browser and print it on " << sheet_size_text() << '\n';
}

} // namespace

void add_report(Command& line) {
    auto options = std::make_shared<ReportOptions>();
    Command report =
        line.command("report", "A page to read: marks by ink, pace, topics, retries, days ahead");
    report.option("--subject", options->subject, "S", "Only sittings of papers of this subject (all)");
    report.option("--class", options->of_class, "CLASS",
                  "A page for each candidate in this class; -o is a folder");
    add_names_option(report, options->names, options->csv, "reports");
    options->output.add_to(report);
    report.closing("Example:\n  inkturn report -o me.html");
    report.runs(options, run);
}

} // namespace inkturn
