#include "cli/commands.hpp"
#include "cli/desk/at_desk.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

namespace inkturn {
namespace {

struct Options {
    std::string paper;
    std::string extra_time;
    std::string date;
    std::string stopped_at;
    bool resume = false;
    DeskOptions desk;
};

[[noreturn]] void refuse(const std::string& why) {
    throw UsageError("sit: " + why + ". See 'inkturn sit --help'");
}

void check(const Options& options) {
    const bool begins = !options.extra_time.empty() || !options.desk.start_at.empty() ||
                        !options.desk.events.empty() || !options.date.empty();
    if (options.resume && begins)
        refuse("--resume goes on with a clock that runs: only --stopped-at goes with it");
    if (!options.resume && !options.stopped_at.empty())
        refuse("--stopped-at goes with --resume");
    if (!options.resume && options.paper.empty())
        refuse("name the PAPER, or say --resume");
    if (options.desk.events.empty() && (!options.date.empty() || options.desk.json))
        refuse("--date and --json go with --events");
    if (!options.desk.events.empty() && !options.desk.start_at.empty())
        refuse("--start-at does not go with --events, which have their times");
}

void resume(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    if (!options.paper.empty())
        Context::paper_on_file(store, options.paper);
    auto script = running_script(Desk(store), context.candidate_code());
    if (!script)
        throw Error("no clock of candidate " + context.candidate_code() +
                    " runs: there is nothing to resume; 'inkturn sitting list' shows what is on file");
    if (!options.paper.empty() && script->paper->id() != options.paper)
        throw Error("the clock that runs is that of " + script->paper->id() + ", not of " + options.paper);
    resume_script(context, store, std::move(*script), options.stopped_at);
}

void begin(const Context& context, const Options& options) {
    const Day day = context.date_of(options.date);
    check_has_happened(day, context.date_today(), "a sitting");
    ExtraTime extra;
    if (!options.extra_time.empty())
        extra = ExtraTime(parse_whole_number(options.extra_time, 0, ExtraTime::most_percent, "--extra-time"));
    Store store = context.store_to_write();
    const auto paper = Context::paper_on_file(store, options.paper);
    write_script(context, store, blank_script(context.candidate_code(), paper, day, extra), options.desk);
}

void run(const Context& context, const Options& options) {
    check(options);
    if (options.resume)
        resume(context, options);
    else
        begin(context, options);
}

} // namespace

void add_sit(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* sit = app.add_subcommand("sit", "Sit a paper against the clock");
    sit->add_option("PAPER", options->paper, "The paper's id");
    sit->add_option("--extra-time", options->extra_time, "Extra time in percent, as granted")->type_name("P");
    sit->add_option("--start-at", options->desk.start_at, "Wait until this time of day")->type_name("09:00");
    sit->add_flag("--resume", options->resume, "Go on with the clock that runs");
    sit->add_option("--stopped-at", options->stopped_at,
                    "With --resume: a break from this time of day until now")
        ->type_name("10:42");
    sit->add_option("--events", options->desk.events,
                    "Take the times from a file, noted by hand; - reads standard input")
        ->type_name("FILE");
    sit->add_option("--date", options->date, "With --events: the day it was sat (today)")->type_name("D");
    sit->add_flag("--json", options->desk.json, "With --events: print JSON");
    sit->footer("Every key is on file at once: after a crash or a closed window --resume goes on,\n"
                "the clock having run. Events are a line each, such as:\n"
                "  09:00 start\n"
                "  09:06:30 2a\n"
                "  09:40 rest\n"
                "  09:45 work\n"
                "  10:31 hand in\n"
                "Example:\n  inkturn sit pure-1 --start-at 09:00");
    sit->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
