#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

namespace inkturn {
namespace {

struct SitOptions {
    std::string paper;
    std::string extra_time;
    std::string date;
    std::string stopped_at;
    bool resume = false;
    DeskOptions desk;
};

void check(const Context& context, const SitOptions& options) {
    const bool begins = !options.extra_time.empty() || !options.desk.start_at.empty() ||
                        !options.desk.events.empty() || !options.date.empty();
    if (options.resume && begins)
        throw UsageError("--resume goes on with a clock that runs: only --stopped-at goes with it");
    if (!options.resume && !options.stopped_at.empty())
        throw UsageError("--stopped-at goes with --resume");
    if (!options.resume && options.paper.empty())
        throw UsageError("name the PAPER, or say --resume");
    if (options.desk.events.empty() && (!options.date.empty() || context.json))
        throw UsageError("--date and --json go with --events");
    if (!options.desk.events.empty() && !options.desk.start_at.empty())
        throw UsageError("--start-at does not go with --events, which have their times");
}

void resume(const Context& context, const SitOptions& options) {
    Store store = context.store_to_write();
    if (!options.paper.empty())
        Context::paper_on_file(store, options.paper);
    auto script = running_script(store, context.candidate_code());
    if (!script)
        throw Error("no clock of candidate " + context.candidate_code() +
                    " runs: there is nothing to resume; 'inkturn sitting list' shows what is on file");
    if (!options.paper.empty() && script->paper->id() != options.paper)
        throw Error("the clock that runs is that of " + script->paper->id() + ", not of " + options.paper);
    resume_script(context, store, std::move(*script), options.stopped_at);
}

void begin(const Context& context, const SitOptions& options) {
    const Day day = context.date_of(options.date);
    check_has_happened(day, context.date_today(), "a sitting");
    ExtraTime extra;
    if (!options.extra_time.empty())
        extra = ExtraTime(parse_whole_number(options.extra_time, 0, ExtraTime::max_percent, "--extra-time"));
    Store store = context.store_to_write();
    const auto paper = Context::paper_on_file(store, options.paper);
    write_script(context, store, blank_script(context.candidate_code(), paper, day, extra), options.desk);
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
    sit.argument("PAPER", options->paper, "The paper's id");
    sit.option("--extra-time", options->extra_time, "P", "Extra time in percent, as granted");
    sit.option("--start-at", options->desk.start_at, "09:00", "Wait until this time of day");
    sit.flag("--resume", options->resume, "Go on with the clock that runs");
    sit.option("--stopped-at", options->stopped_at, "10:42",
               "With --resume: a break from this time of day until now");
    sit.option("--events", options->desk.events, "FILE",
               "Take the times from a file, noted by hand; - reads standard input");
    sit.option("--date", options->date, "D", "With --events: the day it was sat (today)");
    sit.json("With --events: print JSON");
    sit.closing("Every key is on file at once: after a crash or a closed window --resume goes on,\n"
                "the clock having run. Events are a line each, such as:\n"
                "  09:00 start\n"
                "  09:06:30 2a\n"
                "  09:40 rest\n"
                "  09:45 work\n"
                "  10:31 hand in\n"
                "Example:\n  inkturn sit pure-1 --start-at 09:00");
    sit.runs(options, run);
}

} // namespace inkturn
