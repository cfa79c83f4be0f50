#include "cli/class/doubts_listed.hpp"
#include "cli/commands.hpp"
#include "cli/compacted.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/document/document.hpp"
#include "exchange/json/members.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/calendar.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/lessons.hpp"
#include "inkturn/store/plan.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <optional>

namespace inkturn {
namespace {

struct CandidateOptions {
    std::string code;
    std::string new_code;
    std::string extra_time;
    std::vector<std::string> accepted;
    OutputOptions output;
    bool pictures = false;
    bool dry_run = false;
    bool yes = false;
};

/// The code on file that was typed, or written as lists show it: one with a character that shows nothing, as
/// earlier versions took, can't be typed.
std::string code_on_file(const Store& store, const std::string& typed) {
    const std::vector<std::string> codes = store.candidates();
    for (const std::string& code : codes)
        if (code == typed)
            return code;
    for (const std::string& code : codes)
        if (visible(code) == typed)
            return code;
    throw Error("no candidate " + typed + " on file; 'inkturn candidate list' shows those that are");
}

/// Says which code can't be typed, and how it gets one that can; false where there is none.
bool tell_of_hidden_character(const Context& context, const std::vector<CandidateOnFile>& candidates) {
    const auto hidden = std::find_if(candidates.begin(), candidates.end(), [](const auto& candidate) {
        return hidden_character(candidate.code).has_value();
    });
    if (hidden == candidates.end())
        return false;
    context.out << '\n'
                << text_line(
                       visible(hidden->code) +
                       " has a character that shows nothing, so it can't be typed: give it another code.")
                << "Next: inkturn candidate rename " << shell_argument(hidden->code) << " NEW\n";
    return true;
}

void print_candidates(const Context& context, const std::vector<CandidateOnFile>& candidates) {
    if (candidates.empty()) {
        context.out << "No candidates on file. Next: inkturn log PAPER PART=MARKS... --rest full\n";
        return;
    }
    const bool any_extra_time = std::any_of(candidates.begin(), candidates.end(),
                                            [](const auto& one) { return one.extra_time.has_value(); });
    std::vector<Table::Column> columns{
        {"candidate", Table::Align::left_may_be_cut}, {"sittings", Table::Align::right}, {"latest"}};
    if (any_extra_time)
        columns.push_back({"extra time", Table::Align::right});
    columns.push_back({"classes", Table::Align::left_may_be_cut});
    Table table(std::move(columns));
    for (const CandidateOnFile& candidate : candidates) {
        std::vector<std::string> row{candidate.code, std::to_string(candidate.sittings),
                                     candidate.latest ? day_text(*candidate.latest) : "-"};
        if (any_extra_time)
            row.push_back(candidate.extra_time ? std::to_string(candidate.extra_time->percent()) + "%" : "");
        row.push_back(joined(candidate.classes, ", "));
        table.add_row(std::move(row));
    }
    context.out << table;
    if (!tell_of_hidden_character(context, candidates))
        context.out << "\nNext: inkturn today --candidate CODE\n";
}

void list_candidates(const Context& context) {
    const Store store = context.store_to_read();
    const std::vector<CandidateOnFile> candidates = store.listed_candidates(std::nullopt);
    context.answer([&] { return json_of(candidates); }, [&] { print_candidates(context, candidates); });
}

/// Whether one of the document's papers has a picture on file.
bool any_picture(const Store& store, const Document& document) {
    const std::vector<PictureOnFile> pictures = store.pictures();
    return std::any_of(pictures.begin(), pictures.end(), [&](const PictureOnFile& picture) {
        return std::any_of(document.papers.begin(), document.papers.end(),
                           [&](const auto& paper) { return paper->id() == picture.paper; });
    });
}

/// Empty where there are none.
std::string pictures_along_text(const Store& store, const Document& document) {
    if (!document.pictures.empty())
        return "; with " + count_text(document.pictures.size(), "picture");
    return any_picture(store, document) ? "; without pictures (--pictures takes them along)" : "";
}

void export_one(const Context& context, const CandidateOptions& options) {
    const Store store = context.store_to_read();
    const std::string code = code_on_file(store, options.code);
    const Document document =
        document_of(store, code, options.pictures ? WithPictures::yes : WithPictures::no);
    write_output(context, options.output, to_text(document));
    if (options.output.file != "-")
        context.out << text_line("Wrote everything about candidate " + visible(code) +
                                 ", and nothing about anyone else" + pictures_along_text(store, document) +
                                 ".")
                    << "Next, on the other store's computer: inkturn import FILE\n";
}

/// Sittings on file keep theirs.
void set(const Context& context, const CandidateOptions& options) {
    std::optional<ExtraTime> extra;
    if (options.extra_time != "none")
        extra = ExtraTime(
            parse_whole_number(options.extra_time, 0, ExtraTime::max_percent, "--extra-time (or none)"));
    Store store = context.store_to_write();
    const std::string code =
        settled_codes(context, store, {context.candidate_code()}, options.accepted).front();
    if (!context.candidate.empty())
        note_unknown(context, store, {code});
    Store::Change change(store);
    keep_times_by_default(context, change, code);
    change.set_extra_time(code, extra);
    change.commit();
    context.out << "Candidate " << visible(code) << ": "
                << (extra ? std::to_string(extra->percent()) + "% extra time in sittings to come"
                          : "no extra time is stated any more")
                << ". Those on file keep theirs.\n";
    if (extra && extra->percent() > 0)
        context.out << "Only the centre and the awarding body can grant extra time.\n";
    context.out << "Next: inkturn pace PAPER\n";
}

void rename(const Context& context, const CandidateOptions& options) {
    Store store = context.store_to_write();
    const std::string code = code_on_file(store, options.code);
    const std::string new_code =
        settled_codes(context, store, {options.new_code}, options.accepted, code).front();
    {
        Store::Change change(store);
        change.rename_candidate(code, new_code);
        change.commit();
    }
    leave_no_trace(store);
    context.out << "Candidate " << visible(code) << " is now " << visible(new_code)
                << ".\nNo change up to this one can be taken back: those kept told the old code.\n"
                   "Next: inkturn candidate list\n";
}

void print_what_goes(const Context& context, Store& store, const std::string& code) {
    const Candidate candidate = store.candidate(code);
    std::size_t reattempts = 0;
    for (const SittingRecord& record : candidate.sittings)
        reattempts += record.reattempts.size();
    const std::vector<std::string> classes = store.classes_of(code);
    std::string what = count_text(candidate.sittings.size(), "sitting") + ", " +
                       count_text(reattempts, "re-attempt") + ", " +
                       count_text(candidate.placements.size(), "day") + " chosen for retries";
    const std::size_t scripts = Desk::scripts(store, code).size();
    if (scripts > 0)
        what += ", " + count_text(scripts, "script") + " still to mark";
    if (const std::size_t sheets = FactsOnFile::sheets(store, code).size(); sheets > 0)
        what += ", " + count_text(sheets, "sheet") + " of facts";
    if (!candidate.own_times.is_empty())
        what += ", the time set for days";
    if (!candidate.planned.empty())
        what += ", " + count_text(candidate.planned.size(), "piece") + " of other work planned";
    if (!candidate.relearned.empty())
        what += ", " + count_text(candidate.relearned.size(), "note") + " of topics relearned";
    if (const std::size_t ratings = PlanOnFile::ratings(store, code).size(); ratings > 0)
        what += ", " + count_text(ratings, "rating") + " of topics";
    if (!candidate.wishes.is_default())
        what += ", wishes for the plan";
    if (candidate.extra_time)
        what += ", extra time";
    const std::vector<Lesson> lessons = LessonsOnFile::all(store);
    if (const auto asked = std::count_if(lessons.begin(), lessons.end(),
                                         [&](const Lesson& one) { return find_asked(one, code) != nullptr; });
        asked > 0)
        what += ", " + count_text(static_cast<std::size_t>(asked), "lesson") + " asked for";
    if (const std::size_t events = CalendarOnFile::events(store, code).size(); events > 0)
        what += ", " + count_text(events, "event") + " of calendars written";
    if (!classes.empty())
        what += ", membership of " + visible(joined(classes, ", "));
    context.out << context.heading("Candidate " + visible(code)) << "\n  "
                << wrapped(what + "; and every change that can be taken back, whoever it is about.", 76, 2)
                << '\n';
}

/// Says what goes. Returns the candidate's code on file; nothing where only changes that can be taken back
/// tell of it.
std::optional<std::string> show_what_goes(const Context& context, Store& store, const std::string& typed) {
    if (!store.has_candidate(typed) && ChangesOnFile::tell_of(store, typed)) {
        context.out << context.heading("Candidate " + visible(typed)) << "\n  "
                    << wrapped("no longer on file, but changes that can be taken back tell of it: all of "
                               "those go.",
                               76, 2)
                    << '\n';
        return std::nullopt;
    }
    std::string code = code_on_file(store, typed);
    print_what_goes(context, store, code);
    return code;
}

/// The candidate named as CODE, or else by --candidate; never the usual one.
std::string code_named(const Context& context, const CandidateOptions& options) {
    if (options.code.empty() && context.candidate.empty())
        throw UsageError("name the candidate: its CODE, or --candidate CODE");
    if (!options.code.empty() && !context.candidate.empty() && options.code != context.candidate)
        throw UsageError("CODE is " + options.code + " and --candidate is " + context.candidate +
                         ": name one candidate");
    return options.code.empty() ? context.candidate : options.code;
}

void erase(const Context& context, const CandidateOptions& options) {
    const std::string typed = code_named(context, options);
    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    const Store::Seen seen = store.seen();
    const std::optional<std::string> code = show_what_goes(context, store, typed);
    if (options.dry_run) {
        context.out << "Nothing was erased. Next: run it again without --dry-run\n";
        return;
    }
    if (!options.yes && !context.confirmed("Erase all of this for good?"))
        throw Error("nothing was erased");
    {
        Store::Change change(store, seen);
        if (code)
            change.erase_candidate(*code);
        change.forget_changes();
        change.commit();
    }
    leave_no_trace(store);
    context.out << "Erased: the store holds no trace of it. Copies of the store, backups, exports,\n"
                   "printed lists and the file the marks came from still may: deal with those too.\n"
                   "No change up to this one can be taken back: those kept may have told of it.\n";
}

} // namespace

void add_candidate(Command& line) {
    auto options = std::make_shared<CandidateOptions>();
    Command group = line.group("candidate", "Candidates' data: list, set extra time, export, rename, erase");
    group.closing("Example:\n  inkturn candidate export K07 -o K07.json\n"
                  "Pupils' marks are personal data: the school's policy and local law come first.");

    Command list_all = group.command("list", "List the candidates on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn candidate list");
    list_all.runs(list_candidates);

    Command export_file = group.command("export", "Write everything about a candidate to a file");
    export_file.argument("CODE", options->code, "The candidate").required();
    options->output.add_to(export_file);
    export_file.flag("--pictures", options->pictures,
                     "Take along the pictures of papers they sat and of sets printed for them");
    export_file.closing("Example:\n  inkturn candidate export K07 -o K07.json");
    export_file.runs(options, export_one);

    Command set_one = group.command("set", "State the extra time that a candidate was granted");
    set_one
        .option("--extra-time", options->extra_time, "P|none",
                "In percent of the allowance, 0 to 100; none: not stated")
        .required();
    add_accept_option(set_one, options->accepted);
    set_one.closing("Sittings to come take it, unless one states its own. Only the centre and the\n"
                    "awarding body can grant extra time.\n"
                    "Example:\n  inkturn candidate set --candidate K07 --extra-time 25");
    set_one.runs(options, set);

    Command rename_one = group.command("rename", "Give a candidate another code");
    rename_one.argument("CODE", options->code, "The present code").required();
    rename_one.argument("NEW", options->new_code, "The new code, not yet in use").required();
    add_accept_option(rename_one, options->accepted);
    rename_one.closing("Example:\n  inkturn candidate rename me K07\n"
                       "What was done before can't be taken back afterwards: changes tell the old code.");
    rename_one.runs(options, rename);

    Command erase_one = group.command("erase", "Erase everything about a candidate");
    erase_one.argument("CODE", options->code, "The candidate (else --candidate)");
    erase_one.flag("--dry-run", options->dry_run, "Only say what would be erased");
    erase_one.flag("--yes", options->yes, "Don't ask");
    erase_one.closing("Example:\n  inkturn candidate erase K07 --dry-run");
    erase_one.runs(options, erase);
}

} // namespace inkturn
