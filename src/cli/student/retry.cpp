#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/entries.hpp"
#include "cli/student/retry_lines.hpp"
#include "cli/student/retry_outcome.hpp"
#include "cli/student/retry_shown.hpp"
#include "cli/student/retry_steering.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct RetryOptions {
    std::string id;
    std::vector<std::string> entries;
    std::vector<std::string> notes;
    std::string rest;
    std::string only;
    std::string date;
    std::string events;
    std::string on;
    std::string drop;
    std::vector<std::string> accepted;
    bool again = false;
    bool sit = false;
    bool full = false;
    bool undo = false;
    bool with_notes = false;

    bool has_marks() const { return full || !entries.empty(); }
};

void print_early(const Context& context, const Window& window, Day day) {
    if (day < window.opens)
        context.out << "Its window opens on " << day_text(window.opens)
                    << ".\nThis one still counts, but a longer gap tells you more.\n";
}

void record(const Context& context, const RetryOptions& options, const RetryId& id) {
    if (!options.entries.empty() && options.full)
        throw UsageError("give the marks as ENTRY..., or use --full");
    const Day today = context.date_today();
    const Day day = context.date_done(options.date);
    const auto rest = options.full ? Rest::full : parse_rest(options.rest);
    const NotedEntries typed = parse_entries(options.entries, options.notes);

    Store store = context.store_to_write();
    Store::Change change(store);
    const Candidate days_before = context.candidate_of(store, id.sitting);
    keep_days_passed(change, days_before.code, today);
    const Candidate before = context.candidate_of(store, id.sitting);
    const Paper& paper = *get_sitting(before, id.sitting).paper;
    Reattempt reattempt =
        take_retry(before, id, typed.entries, rest, day, today, parse_only(paper, options.only));
    reattempt.notes = amended({}, typed.notes);
    const auto window = window_of(before, id, today);
    Desk desk(change);
    if (const auto script = Desk::find(store, script_id(id))) {
        check_is_handed_in(*script);
        reattempt.clock = script->events;
        reattempt.notes = amended(script->notes, typed.notes);
        desk.remove(script->id);
    }
    change.add_reattempt(id.sitting, reattempt);
    const Candidate candidate = store.candidate(before.code);
    const KeptTimetable kept = keep_timetable(change, candidate, today, days_before);
    change.commit();

    if (!context.json && candidate.code != context.candidate_code())
        context.out << "This is a retry of candidate " << visible(candidate.code)
                    << ", and recorded for them.\n";
    if (window && !context.json)
        print_early(context, *window, day);
    print_retried(context, candidate, id, kept);
}

/// Sits the question against the clock; its marks are entered later.
void sit(const Context& context, const RetryOptions& options, const RetryId& id) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    const Candidate candidate = context.candidate_of(store, id.sitting);
    const auto only = parse_only(*get_sitting(candidate, id.sitting).paper, options.only);
    write_script(context, store, blank_script(candidate, id, context.date_done(options.date), today, only),
                 {options.events, {}});
}

/// What is to be done with it is said once.
void check_one(const RetryOptions& options) {
    const bool has_marks = options.has_marks();
    const bool is_steered = !options.on.empty() || !options.drop.empty() || options.again;
    const int said = (has_marks ? 1 : 0) + (options.sit ? 1 : 0) + (options.undo ? 1 : 0) +
                     (!options.on.empty() ? 1 : 0) + (!options.drop.empty() ? 1 : 0) +
                     (options.again ? 1 : 0);
    const bool has_details = !options.rest.empty() || !options.date.empty() || !options.only.empty();
    if (options.undo && (said > 1 || has_details))
        throw UsageError("--undo takes no marks and no other options");
    if (is_steered && (said > 1 || has_details || !options.events.empty()))
        throw UsageError("--on, --drop and --again take no marks and no other options");
    if (!has_marks && !options.notes.empty())
        throw UsageError("--note needs marks");
    if (said == 0 && (!options.rest.empty() || !options.date.empty()))
        throw UsageError("give the marks as ENTRY..., or use --full");
    if (options.with_notes && said > 0)
        throw UsageError("--notes shows the notes of earlier turns: it takes no marks and no other options");
    if (options.full && !options.rest.empty())
        throw UsageError("use either --full or --rest");
    if (options.sit && (has_marks || !options.rest.empty()))
        throw UsageError("--sit takes no marks: enter them afterwards");
    if (!options.events.empty() && !options.sit)
        throw UsageError("--events needs --sit");
}

/// `-`: lines of pages for the phone say it all.
bool reads_lines(const RetryOptions& options) {
    if (options.id != "-") {
        if (!options.accepted.empty())
            throw UsageError("--accept needs - in place of the retry's id");
        return false;
    }
    const bool is_alone =
        !options.has_marks() && !options.sit && !options.undo && !options.again && !options.with_notes &&
        (options.on + options.drop + options.rest + options.only + options.date + options.events).empty() &&
        options.notes.empty();
    if (!is_alone)
        throw UsageError("with - the lines say it all: leave marks and other options out");
    return true;
}

void run(const Context& context, const RetryOptions& options) {
    if (reads_lines(options)) {
        record_lines(context, options.accepted);
        return;
    }
    check_one(options);
    if (options.sit && options.events.empty() && (context.json || !options.date.empty()))
        throw UsageError("with --sit, --date and --json need --events");
    const RetryId id = parse_retry_id(options.id);
    if (options.sit)
        sit(context, options, id);
    else if (options.undo)
        undo_retry(context, id);
    else if (!options.on.empty())
        ask_for_day(context, id, options.on);
    else if (!options.drop.empty())
        drop_retry(context, id, options.drop);
    else if (options.again)
        ask_again(context, id);
    else if (options.has_marks())
        record(context, options, id);
    else
        show_retry(context, id, options.with_notes);
}

} // namespace

void add_retry(Command& line) {
    auto options = std::make_shared<RetryOptions>();
    Command retry = line.command("retry", "Show a missed question, record its re-attempt, or sit it");
    retry
        .argument("RETRY", options->id,
                  "Its id, as 'inkturn today' shows it; - records the lines of a phone's page")
        .required();
    retry.argument("ENTRY", options->entries,
                   "PART=MARKS[:REASON], as in 'inkturn log'; without any, the question is shown");
    add_note_option(retry, options->notes);
    retry.flag("--notes", options->with_notes, "Show what was noted before: it may give the answer away");
    retry.flag("--full", options->full, "All its marks were earned in time");
    retry.option("--rest", options->rest, "full|none", "Parts not named: earned in time, or not attempted");
    retry.option("--only", options->only, "7b", "Only these parts were tried: all that were missed, or more");
    retry.option("--date", options->date, "D", "The day it was done (today)");
    retry.flag("--sit", options->sit, "Work it against the clock; marks come afterwards");
    retry.option("--events", options->events, "FILE",
                 "With --sit: a file of times noted by hand; - reads standard input");
    retry.option("--on", options->on, "D", "Plan it on this day before the exam, in its window or not");
    retry.option("--drop", options->drop, "REASON", "Take it off the plan");
    retry.flag("--again", options->again, "Bring a secured question round once more");
    retry.option("--accept", options->accepted, "ANSWER",
                 "With -, where asked: old-dates keeps dates more than a year back; not-done leaves retries "
                 "without a mark open");
    retry.flag("--undo", options->undo, "Undo what was last done to it: its marks, --on, --drop or --again");
    retry.json();
    retry.closing(marks_help() +
                  "\nExamples:\n  inkturn retry 12q7\n  inkturn retry 12q7 7a=3 7b=2+1:slip\n  inkturn retry "
                  "12q7t2 --full\n  inkturn "
                  "retry 12q7 --sit\n  inkturn retry 12q7 "
                  "--on +3d\n  inkturn retry 12q3 --drop 'not on this syllabus'\n"
                  "  inkturn retry - <<< 'inkturn;...;end'");
    retry.runs(options, run);
}

} // namespace inkturn
