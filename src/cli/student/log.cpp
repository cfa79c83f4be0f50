#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/entries.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct LogOptions {
    std::string paper;
    std::vector<std::string> entries;
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

std::shared_ptr<const Paper> paper_of(Store::Change& change, const LogOptions& options,
                                      const std::vector<Entry>& entries) {
    auto paper = change.store().find_paper(options.paper);
    if (!paper && !options.new_paper)
        throw Error(
            "no paper " + options.paper +
            " on file; add it with 'inkturn paper add', or use --new and give each part its maximum, such as "
            "1=3/5");
    if (paper && options.new_paper)
        throw Error("paper " + options.paper + " is already on file: leave out --new");
    if (!paper) {
        paper = std::make_shared<Paper>(new_paper(options, entries));
        change.add_paper(*paper);
    }
    return paper;
}

void run(const Context& context, const LogOptions& options) {
    if (!options.new_paper && !(options.title + options.subject + options.minutes).empty())
        throw UsageError("--title, --subject and --minutes need --new");
    if (options.new_paper && !options.only.empty())
        throw UsageError("--only is for a paper on file: the entries of a new one make all of its parts");
    const Day today = context.date_today();
    const Day day = context.date_of(options.date);
    check_has_happened(day, today, "a sitting");
    const std::vector<Entry> entries = parse_entries(options.entries);
    const auto rest = parse_rest(options.rest);

    Store store = context.store_to_write();
    Store::Change change(store);
    keep_days_passed(change, context.candidate_code(), today);
    const auto paper = paper_of(change, options, entries);
    const ExtraTime extra = extra_time_of(options.extra_time, store.candidate(context.candidate_code()));
    const Sitting sitting{day, extra,
                          marks_from_entries(*paper, entries, rest, parse_only(*paper, options.only))};
    const SittingId id = change.add_sitting(context.candidate_code(), *paper, sitting);
    const Candidate candidate = store.candidate(context.candidate_code());
    const KeptTimetable kept = keep_timetable(change, candidate, today);
    change.commit();
    print_sitting(context, candidate, id, kept);
}

} // namespace

void add_log(Command& line) {
    auto options = std::make_shared<LogOptions>();
    Command log = line.command("log", "Log a sitting: marks by ink, part by part");
    log.argument("PAPER", options->paper, "The paper's id").required();
    log.argument("ENTRY", options->entries,
                 "PART=MARKS[/MAX][:REASON]; MARKS is in time[+overtime[+corrected]], - if not attempted, or "
                 "not-set if it was not set; REASON is method, recall, slip, misread or unfinished");
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
    log.closing("Example: 2b lost marks, 7 was finished in overtime, the rest was done in time\n"
                "  inkturn log pure-1 2b=1:slip 7=6+2 --rest full");
    log.runs(options, run);
}

} // namespace inkturn
