#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/entries.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/base/error.hpp"

namespace inkturn {
namespace {

struct SitOptions {
    std::string paper;
    std::string extra_time;
    std::string only;
    std::string date;
    std::string stopped_at;
    bool resume = false;
    DeskOptions desk;
};

void check(const Context& context, const SitOptions& options) {
    const bool begins = !options.extra_time.empty() || !options.only.empty() ||
                        !options.desk.start_at.empty() || !options.desk.events.empty() ||
                        !options.date.empty();
    if (options.resume && begins)
        throw UsageError("--resume continues a running clock: only --stopped-at can go with it");
    if (!options.resume && !options.stopped_at.empty())
        throw UsageError("--stopped-at needs --resume");
    if (options.desk.events.empty() && (!options.date.empty() || context.json))
        throw UsageError("--date and --json need --events");
    if (!options.desk.events.empty() && !options.desk.start_at.empty())
        throw UsageError("--start-at can't go with --events, which have their own times");
}

void resume(const Context& context, const SitOptions& options) {
    Store store = context.store_to_write();
    if (!options.paper.empty())
        Context::paper_on_file(store, options.paper);
    auto script = running_script(store, context.candidate_code());
    if (!script)
        throw Error("candidate " + context.candidate_code() +
                    " has no clock running: there is nothing to resume; 'inkturn sitting list' shows what is "
                    "on file");
    if (!options.paper.empty() && script->paper->id() != options.paper)
        throw Error("the clock running is for " + script->paper->id() + ", not " + options.paper);
    resume_script(context, store, std::move(*script), options.stopped_at);
}

/// The paper named, or else the one that the plan has for today.
std::shared_ptr<const Paper> paper_to_sit(const Context& context, const Store& store,
                                          const std::string& named) {
    if (!named.empty())
        return Context::paper_on_file(store, named);
    const Candidate candidate = store.candidate(context.candidate_code());
    const Day today = context.date_today();
    for (const WorkItem& item : timetable_on_file(store, candidate, today).made.items)
        if (const auto* sit = std::get_if<PaperToSit>(&item.work); sit && sit->paper && item.day == today)
            return sit->paper;
    throw Error("the plan has no paper on file for today: name the one to sit; 'inkturn paper list' lists "
                "them");
}

void begin(const Context& context, const SitOptions& options) {
    const Day day = context.date_done(options.date);
    check_has_happened(day, context.date_today(), "a sitting");
    Store store = context.store_to_write();
    const auto paper = paper_to_sit(context, store, options.paper);
    const std::string code = context.candidate_code();
    const ExtraTime extra = extra_time_of(context, options.extra_time, store.candidate(code));
    write_script(context, store, blank_script(code, paper, day, extra, parse_only(*paper, options.only)),
                 options.desk);
}

void run(const Context& context, const SitOptions& options) {
    check(context, options);
    if (options.resume)
        resume(context, options);
    else
        begin(context, options);
}

} // namespace

void add_sit(Command& line) {
    auto options = std::make_shared<SitOptions>();
    Command sit = line.command("sit", "Sit a paper against the clock");
    sit.argument("PAPER", options->paper, "The paper's id, or its beginning (the one planned for today)");
    sit.option("--only", options->only, "1-3,7", "Sit only these parts and questions (all)");
    sit.option("--extra-time", options->extra_time, "P",
               "Extra time granted, in percent (the candidate's own)");
    sit.option("--start-at", options->desk.start_at, "09:00", "Start at this time of day");
    sit.flag("--resume", options->resume, "Continue the running clock");
    sit.option("--stopped-at", options->stopped_at, "10:42",
               "With --resume: a break from this time of day until now");
    sit.option("--events", options->desk.events, "FILE",
               "Read times noted by hand from a file; - reads standard input");
    sit.option("--date", options->date, "D", "With --events: the day it was sat (today)");
    sit.json("With --events: print JSON");
    sit.closing("Every key is stored at once: after a crash or a closed window, --resume carries\n"
                "on, and the clock will have kept running. Write one line per event, such as:\n"
                "  09:00 start\n"
                "  09:06:30 2a\n"
                "  09:40 rest\n"
                "  09:45 work\n"
                "  10:31 hand in\n"
                "Example:\n  inkturn sit pure-1 --start-at 09:00");
    sit.runs(options, run);
}

} // namespace inkturn
