#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/entries.hpp"
#include "cli/student/log_entries.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct LogOptions {
    std::string paper;
    std::vector<std::string> entries;
    std::vector<std::string> notes;
    std::string date;
    std::string rest;
    std::string extra_time;
    std::string only;
    bool new_paper = false;
    std::string title;
    std::string subject;
    std::string minutes;
};

Paper new_paper(const LogOptions& options, const std::vector<Entry>& entries) {
    PaperHead head{options.paper, options.title, options.subject, std::nullopt, RetryBy::question};
    if (!options.minutes.empty())
        head.duration = std::chrono::minutes{parse_whole_number(options.minutes, 1, 1440, "--minutes")};
    return paper_from_entries(std::move(head), entries);
}

std::shared_ptr<const Paper> paper_to_log(const Store& store, const std::string& id) {
    return Context::paper_on_file(store, id,
                                  "add it with 'inkturn paper add', or use --new and give each part its "
                                  "maximum, such as 1=3/5");
}

std::shared_ptr<const Paper> paper_of(Store::Change& change, const LogOptions& options,
                                      const std::vector<Entry>& entries) {
    if (!options.new_paper)
        return paper_to_log(change.store(), options.paper);
    if (change.store().find_paper(options.paper))
        throw Error("paper " + options.paper + " is already on file: leave out --new");
    auto paper = std::make_shared<Paper>(new_paper(options, entries));
    change.add_paper(*paper);
    return paper;
}

bool is_pasted(const LogOptions& options) {
    return options.entries == std::vector<std::string>{"-"};
}

NotedEntries entries_of(const Context& context, const Store& store, const LogOptions& options) {
    if (!is_pasted(options))
        return parse_entries(options.entries, options.notes);
    NotedEntries pasted = parse_entries({}, options.notes);
    pasted.entries = read_pasted_entries(
        context.in, options.new_paper ? nullptr : paper_to_log(store, options.paper).get());
    return pasted;
}

/// Today's paper of the plan, or else the first on file that the candidate has not sat.
std::string likely_paper(const Store& store, const Candidate& candidate, Day today) {
    for (const WorkItem& item : timetable_on_file(store, candidate, today).made.items)
        if (const auto* sit = std::get_if<PaperToSit>(&item.work); sit && sit->paper && item.day == today)
            return sit->paper->id();
    for (const auto& paper : store.papers())
        if (std::none_of(candidate.sittings.begin(), candidate.sittings.end(),
                         [&](const SittingRecord& one) { return one.paper->id() == paper->id(); }))
            return paper->id();
    return "";
}

std::string ask_for_paper(const Context& context, const Store& store) {
    const std::string likely =
        likely_paper(store, store.candidate(context.candidate_code()), context.date_today());
    if (!stdin_is_terminal() || !stdout_is_terminal())
        throw UsageError("name the PAPER that was sat");
    context.out << "Paper" << (likely.empty() ? "" : " [" + likely + "]") << ": " << std::flush;
    std::string typed;
    std::getline(context.in, typed);
    if (typed.empty() && likely.empty())
        throw Error("nothing was saved: no paper was named");
    return typed.empty() ? likely : typed;
}

/// The marks as typed after the command, pasted, or asked for with their notes.
AskedMarks marks_of(const Context& context, const LogOptions& options, const Paper& paper,
                    const std::vector<Entry>& entries, Day day) {
    const auto rest = parse_rest(options.rest);
    const auto only = parse_only(paper, options.only);
    const bool may_ask = stdin_is_terminal() && stdout_is_terminal() && !only;
    if (!entries.empty() || rest || options.new_paper || !may_ask)
        return {marks_from_entries(paper, entries, rest, only), {}}; // says which are missing
    auto marks = ask_for_marks(context, paper, day);
    if (!marks)
        throw Error("nothing was saved");
    return *std::move(marks);
}

/// A paper's latest sitting counts, so the retries of earlier ones end.
void print_ended(const Context& context, const std::vector<Retry>& before, const Candidate& candidate) {
    std::set<std::string> open;
    for (const Retry& retry : open_retries(candidate, context.date_today()))
        open.insert(to_text(retry.id));
    std::vector<std::string> ended;
    for (const Retry& retry : before)
        if (open.count(to_text(retry.id)) == 0)
            ended.push_back(to_text(retry.id));
    if (!ended.empty() && !context.json)
        context.out << text_line(
            "The paper was sat before, and its latest sitting counts: " + std::to_string(ended.size()) +
            (ended.size() == 1 ? " open retry is closed, " : " open retries are closed, ") +
            joined(ended, ", ") + ". If you meant another paper, 'inkturn undo' takes it back.");
}

void run(const Context& context, const LogOptions& typed) {
    if (!typed.new_paper && !(typed.title + typed.subject + typed.minutes).empty())
        throw UsageError("--title, --subject and --minutes need --new");
    if (typed.new_paper && typed.paper.empty())
        throw UsageError("--new needs the PAPER and its entries");
    if (typed.new_paper && !typed.only.empty())
        throw UsageError("--only is for a paper on file: the entries of a new one make all of its parts");
    parse_rest(typed.rest);
    const Day today = context.date_today();
    const Day day = context.date_done(typed.date);
    check_has_happened(day, today, "a sitting");

    Store store = context.store_to_write();
    LogOptions options = typed;
    if (options.paper.empty())
        options.paper = ask_for_paper(context, store);
    const NotedEntries marks = entries_of(context, store, options);
    if (options.new_paper) {
        question_new_subject(context, store, options.subject);
        context.question_duration(new_paper(options, marks.entries));
    }
    const ExtraTime extra =
        extra_time_of(context, options.extra_time, store.candidate(context.candidate_code()));
    Sitting sitting{day, extra, {}, {}, amended({}, marks.notes)};
    if (!options.new_paper) {
        AskedMarks asked =
            marks_of(context, options, *paper_to_log(store, options.paper), marks.entries, day);
        sitting.parts = std::move(asked.parts);
        sitting.notes.insert(asked.notes.begin(), asked.notes.end());
    }
    const std::vector<Retry> before =
        open_retries(store.candidate(context.candidate_code()), context.date_today());
    Store::Change change(store);
    keep_times_by_default(context, change, context.candidate_code());
    const Candidate days_before = store.candidate(context.candidate_code());
    keep_days_passed(change, context.candidate_code(), today);
    const auto paper = paper_of(change, options, marks.entries);
    if (options.new_paper)
        sitting.parts = marks_of(context, options, *paper, marks.entries, day).parts;
    const SittingId id = change.add_sitting(context.candidate_code(), *paper, sitting);
    const Candidate candidate = store.candidate(context.candidate_code());
    const KeptTimetable kept = keep_timetable(change, candidate, today, days_before);
    change.commit();
    print_ended(context, before, candidate);
    print_sitting(context, candidate, id, kept);
}

} // namespace

void add_log(Command& line) {
    auto options = std::make_shared<LogOptions>();
    Command log = line.command("log", "Log a sitting: marks by ink, part by part");
    log.argument("PAPER", options->paper, "The paper's id, or its beginning (asked for on a terminal)");
    log.argument("ENTRY", options->entries,
                 "PART=MARKS[/MAX][:REASON], a note may follow in quotes; or - to read them from standard "
                 "input; none: asked for on a terminal, a line per question");
    add_note_option(log, options->notes);
    log.option("--date", options->date, "D", "The day it was sat (today)");
    log.option("--rest", options->rest, "full|none", "Parts not named: earned in time, or not attempted");
    log.option("--only", options->only, "1-3,7", "Only these parts and questions were set (all)");
    log.option("--extra-time", options->extra_time, "P",
               "Extra time granted, in percent (the candidate's own)");
    log.flag("--new", options->new_paper, "Make the paper from the entries, each with its /MAX");
    log.option("--title", options->title, "T", "With --new: its title");
    log.option("--subject", options->subject, "S", "With --new: its subject");
    log.option("--minutes", options->minutes, "M", "With --new: the duration stated on the paper");
    log.json();
    log.closing(marks_help() +
                "\n"
                "Pasted: entries, or a spreadsheet's row of marks, with its row of labels or without.\n"
                "Example: 2b lost marks, 7 went into overtime, the rest was in time\n"
                "  inkturn log pure-1 2b=1:slip 'sign of cos' 7=6+2 --rest full");
    log.runs(options, run);
}

} // namespace inkturn
