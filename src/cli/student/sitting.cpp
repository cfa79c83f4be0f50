#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/entries.hpp"
#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/script.hpp"
#include "exchange/json/sitting.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/desk/part_on_clock.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct SittingOptions {
    std::string sitting;
    std::vector<std::string> entries;
    std::vector<std::string> notes;
    std::string date;
    std::string extra_time;
    bool yes = false;
};

ScriptId id_of(const SittingOptions& options) {
    return parse_script_id(options.sitting);
}

SittingId sitting_id_of(const SittingOptions& options) {
    return SittingId{parse_whole_number(options.sitting, 1, 2'000'000'000, "sitting")};
}

void print(const Context& context, const Candidate& candidate, const std::vector<Retry>& retries,
           const std::vector<Script>& scripts) {
    if (!scripts.empty())
        context.out << "Still to mark:\n\n" << scripts_table(scripts) << '\n';
    if (candidate.sittings.empty() && scripts.empty()) {
        context.out << "No sittings on file for candidate " << visible(candidate.code) << ".\n"
                    << context.next("log PAPER PART=MARKS... --rest full");
        return;
    }
    if (!candidate.sittings.empty())
        context.out << sittings_table(candidate, retries) << '\n';
    context.out << "Next: "
                << (scripts.empty()
                        ? "inkturn sitting show " +
                              std::to_string(static_cast<std::int64_t>(candidate.sittings.back().id))
                        : next_command(scripts.front()))
                << '\n';
}

void list_sittings(const Context& context) {
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const std::vector<Retry> retries = retries_to_place(candidate, context.date_today()); // to count them
    const std::vector<Script> scripts = Desk::scripts(store, candidate.code);
    context.answer([&] { return json_of(candidate, retries, scripts); },
                   [&] { print(context, candidate, retries, scripts); });
}

/// The candidate's last one, if nothing was typed.
std::string last_sitting(const Context& context, const Store& store) {
    const Candidate candidate = context.candidate_on_file(store);
    if (candidate.sittings.empty())
        throw Error("no sitting on file for candidate " + candidate.code + "; 'inkturn log' logs one");
    return std::to_string(static_cast<std::int64_t>(candidate.sittings.back().id));
}

void show(const Context& context, const SittingOptions& typed) {
    Store store = context.store_to_read();
    SittingOptions options = typed;
    if (options.sitting.empty())
        options.sitting = last_sitting(context, store);
    if (const auto script = script_on_file(context, store, id_of(options))) {
        context.answer([&] { return json_of(*script); }, [&] { print_script(context, *script); });
        return;
    }
    const SittingId id = sitting_id_of(options);
    const Candidate candidate = context.candidate_of(store, id);
    print_sitting(context, candidate, id, {retries_on_file(store, candidate, context.date_today()), {}},
                  true);
}

/// The sitting with the changes typed.
Sitting changed(const Context& context, const SittingOptions& options, const SittingRecord& record) {
    Sitting sitting = record.sitting;
    if (!options.date.empty())
        sitting.day = context.date_done(options.date);
    if (!options.extra_time.empty())
        sitting.extra_time =
            ExtraTime(parse_whole_number(options.extra_time, 0, ExtraTime::max_percent, "--extra-time"));
    const NotedEntries typed = parse_entries(options.entries, options.notes);
    sitting.parts = amended(*record.paper, sitting.parts, typed.entries);
    sitting.notes = amended(sitting.notes, typed.notes);
    check_can_replace(*record.paper, sitting, record, context.date_today());
    return sitting;
}

void print_kept(const Context& context, const Script& script) {
    context.out << "Saved. Still to mark: " << wrapped_list(not_marked(script), text_width(), 2)
                << "\nNext: " << next_command(script) << '\n';
}

/// Off the terminal, where nobody can be asked.
void note_doubtful_overtime(const Context& context, const Script& script) {
    const std::vector<PartOnClock> seen = parts_on_clock(script);
    for (std::size_t place = 0; place < script.marks.size(); ++place)
        if (script.marks[place] && is_overtime_doubtful(seen, *script.marks[place]))
            context.err << text_line("inkturn: part " + script.paper->part(script.positions[place]).label +
                                     " has marks in overtime, which the clock never reached: check them");
}

/// A script takes marks until every part has them.
void amend_script(const Context& context, const SittingOptions& options, Store& store, const ScriptId& id) {
    Store::Change change(store);
    std::optional<Script> found = script_on_file(context, store, id); // as another window left it
    if (!found)
        throw Error("the script of " + to_text(id) + " was removed meanwhile");
    Script script = std::move(*found);
    if (!options.date.empty() || !options.extra_time.empty())
        throw Error("sitting " + options.sitting +
                    " is still to be marked: change its date and extra time after that");
    const NotedEntries typed = parse_entries(options.entries, options.notes);
    enter_marks(script, typed.entries);
    script.notes = amended(script.notes, typed.notes);
    note_doubtful_overtime(context, script);
    const auto marked = keep_marks(change, script, context.date_today());
    change.commit();
    if (marked && script.id.retry)
        print_retried(context, marked->candidate, *script.id.retry, marked->kept);
    else if (marked)
        print_sitting(context, marked->candidate, script.id.sitting, marked->kept);
    else
        context.answer([&] { return json_of(script); }, [&] { print_kept(context, script); });
}

void print_amended(const Context& context, const SittingRecord& was, const Sitting& is) {
    context.out << context.heading("Amended") << '\n'
                << amended_text(differences(*was.paper, was.sitting, is)) << '\n';
}

void amend(const Context& context, const SittingOptions& options) {
    if (options.entries.empty() && options.notes.empty() && options.date.empty() &&
        options.extra_time.empty())
        throw UsageError("say what to change: an ENTRY, --note, --date or --extra-time");
    Store store = context.store_to_write();
    if (script_on_file(context, store, id_of(options))) {
        amend_script(context, options, store, id_of(options));
        return;
    }
    const SittingId id = sitting_id_of(options);
    Store::Change change(store);
    const Candidate days_before = context.candidate_of(store, id);
    keep_days_passed(change, days_before.code, context.date_today());
    const Candidate before = context.candidate_of(store, id);
    change.change_sitting(id, changed(context, options, get_sitting(before, id)));
    const Candidate candidate = store.candidate(before.code);
    const KeptTimetable kept = keep_timetable(change, candidate, context.date_today(), days_before);
    change.commit();
    if (!context.json)
        print_amended(context, get_sitting(before, id), get_sitting(candidate, id).sitting);
    print_sitting(context, candidate, id, kept);
}

void remove_script(const Context& context, const SittingOptions& options, Store& store, Store::Seen seen,
                   const Script& script) {
    const std::string what = heading_of(script) + ", not marked through";
    if (!options.yes && !context.confirmed("Remove it? " + what + "."))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    Desk(change).remove(script.id);
    change.commit();
    context.out << "Removed: " << visible(what) << ".\n";
}

/// `2 retries`; nothing where none is open.
std::vector<std::string> open_retries(const Context& context, const Store& store, const Candidate& candidate,
                                      SittingId id) {
    const std::vector<Retry> retries = retries_on_file(store, candidate, context.date_today());
    const auto open = std::count_if(retries.begin(), retries.end(),
                                    [id](const Retry& retry) { return retry.id.sitting == id; });
    return open == 0 ? std::vector<std::string>{}
                     : std::vector{std::to_string(open) + (open == 1 ? " open retry" : " open retries")};
}

void remove(const Context& context, const SittingOptions& options) {
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    if (const auto script = script_on_file(context, store, id_of(options))) {
        remove_script(context, options, store, seen, *script);
        return;
    }
    const Candidate candidate = context.candidate_of(store, sitting_id_of(options));
    const SittingRecord& record = get_sitting(candidate, sitting_id_of(options));
    const std::string what = "sitting " + options.sitting + " (" + record.paper->id() + " on " +
                             day_text(record.sitting.day) + ", " + candidate.code + ")";
    const std::string going =
        with_what_goes(records_if(store, [&](Store::Change& tried) { tried.remove_sitting(record.id); }),
                       {"sitting"}, open_retries(context, store, candidate, record.id));
    if (!options.yes && !context.confirmed("Remove " + what + going + "?"))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    keep_days_passed(change, candidate.code, context.date_today());
    change.remove_sitting(record.id);
    KeptTimetable kept;
    if (store.has_candidate(candidate.code))
        kept = keep_timetable(change, store.candidate(candidate.code), context.date_today(), candidate);
    change.commit();
    context.out << text_line("Removed " + visible(what) + going + ".") << changes_text(kept.moved);
}

} // namespace

void add_sitting(Command& line) {
    auto options = std::make_shared<SittingOptions>();
    Command sitting = line.group("sitting", "Sittings on file: list, show, amend, remove");
    sitting.closing("Example:\n  inkturn sitting list");

    Command list_all = sitting.command("list", "List a candidate's sittings");
    list_all.json();
    list_all.closing("Example:\n  inkturn sitting list --candidate K07");
    list_all.runs(list_sittings);

    Command show_one = sitting.command("show", "Show a sitting: its marks by ink and its retries");
    show_one.argument("SITTING", options->sitting, "Its number (the last one)");
    show_one.json();
    show_one.closing("Example:\n  inkturn sitting show 12");
    show_one.runs(options, show);

    Command amend_one = sitting.command("amend", "Correct what was logged, and so its retries");
    amend_one.argument("SITTING", options->sitting, "Its number").required();
    amend_one.argument("ENTRY", options->entries, "PART=MARKS[:REASON] instead of what was logged");
    amend_one.option("--note", options->notes, "PART=TEXT", "A note on a part; without TEXT it is removed");
    amend_one.option("--date", options->date, "D", "The day it was sat");
    amend_one.option("--extra-time", options->extra_time, "P", "Extra time granted, in percent");
    amend_one.json();
    amend_one.closing("Example:\n  inkturn sitting amend 12 7b=2+1+3:method");
    amend_one.runs(options, amend);

    Command remove_one = sitting.command("remove", "Remove a sitting and its retries");
    remove_one.argument("SITTING", options->sitting, "Its number").required();
    remove_one.flag("--yes", options->yes, "Don't ask");
    remove_one.closing("Example:\n  inkturn sitting remove 12");
    remove_one.runs(options, remove);
}

} // namespace inkturn
