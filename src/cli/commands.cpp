#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "inkturn/text.hpp"

#include <algorithm>
#include <array>
#include <ostream>
#include <string_view>
#include <vector>

namespace inkturn {
namespace {

constexpr const char* version = "inkturn 0.1.0";
struct Command {
    std::string_view name;
    void (*add)(CLI::App&, Context&);
};

/// In the order in which the help lists them.
constexpr std::array<Command, 26> commands{
    {{"paper", add_paper},     {"pace", add_pace},         {"sit", add_sit},
     {"mark", add_mark},       {"log", add_log},           {"sitting", add_sitting},
     {"today", add_today},     {"retry", add_retry},       {"plan", add_plan},
     {"week", add_week},       {"facts", add_facts},       {"topics", add_topics},
     {"trend", add_trend},     {"standing", add_standing}, {"boundaries", add_boundaries},
     {"scale", add_scale},     {"report", add_report},     {"picture", add_picture},
     {"booklet", add_booklet}, {"calendar", add_calendar}, {"days", add_days},
     {"exam", add_exam},       {"class", add_class},       {"candidate", add_candidate},
     {"export", add_export},   {"import", add_import}}};

constexpr std::size_t likely_slip = 2; ///< letters changed, at most, in a mistyped command

/// The names of the commands that may follow, whether or not they were set up.
std::vector<std::string> choices(const CLI::App& command) {
    std::vector<std::string> names;
    if (command.get_parent() == nullptr)
        for (const Command& choice : commands)
            names.emplace_back(choice.name);
    else
        for (const CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; }))
            names.push_back(choice->get_name());
    return names;
}

std::string nearest_command(const CLI::App& app, const std::string& typed) {
    std::string nearest;
    std::size_t least = likely_slip + 1;
    for (const std::string& name : choices(app)) {
        const std::size_t changed = letters_changed(typed, name);
        if (changed < least) {
            least = changed;
            nearest = name;
        }
    }
    return nearest;
}

/// The innermost command that was chosen.
const CLI::App& chosen(const CLI::App& app) {
    const auto typed = app.get_subcommands();
    return typed.empty() ? app : chosen(*typed.front());
}

std::string full_name(const CLI::App& command) {
    const CLI::App* parent = command.get_parent();
    return parent ? full_name(*parent) + " " + command.get_name() : command.get_name();
}

[[noreturn]] void refuse_unknown(const CLI::App& app, const std::string& typed) {
    const CLI::App& command = chosen(app);
    const bool is_option = typed.size() > 1 && typed.front() == '-';
    const bool takes_command = !choices(command).empty();
    std::string message = is_option       ? "no option " + typed
                          : takes_command ? "no command '" + typed + "'"
                                          : "'" + typed + "' is one word too many";
    const std::string nearest = is_option || !takes_command ? "" : nearest_command(command, typed);
    if (!nearest.empty())
        message += "; did you mean '" + nearest + "'?";
    throw UsageError(message + (nearest.empty() ? "." : "") + " See '" + full_name(command) + " --help'");
}

void check_is_complete(const CLI::App& app) {
    auto left_over = app.remaining(true);
    left_over.erase(std::remove(left_over.begin(), left_over.end(), "--"), left_over.end());
    if (!left_over.empty())
        refuse_unknown(app, left_over.front());
}

void check_has_command(const CLI::App& app, const Context& context) {
    if (context.run)
        return;
    std::string names;
    const CLI::App& command = chosen(app);
    for (const std::string& choice : choices(command))
        names += (names.empty() ? "" : ", ") + choice;
    throw UsageError("say what to do: " + names + ". See '" + full_name(command) + " --help'");
}

/// An empty value is most often that of a variable that was never set: it must not stand for me, or today.
void refuse_empty_values(CLI::App& command) {
    const CLI::Validator stated(
        [](const std::string& text) {
            return text.empty() ? std::string("an empty text names nothing") : "";
        },
        "");
    for (CLI::Option* option : command.get_options())
        if (option->nonpositional() && option->get_expected_max() > 0)
            option->check(stated);
    for (CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; }))
        refuse_empty_values(*choice);
}

/// What is wrong with the command line, where the library's words for it are hard to read in ours.
std::string message_of(const CLI::ParseError& error) {
    const std::string text = error.what();
    const std::size_t colon = text.find(": ");
    if (error.get_name() != "ArgumentMismatch" || colon == std::string::npos)
        return text;
    const std::string option = text.substr(0, colon);
    return option + (text.find("At Most", colon) == std::string::npos
                         ? " needs a value after it"
                         : " is there more than once: say it once");
}

void name_group(CLI::App& command) {
    for (CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; })) {
        choice->group("Commands");
        name_group(*choice);
    }
}

} // namespace

void add_commands(CLI::App& app, Context& context, const std::vector<std::string_view>& words) {
    const auto is_word = [&](std::string_view word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    };
    const bool wants_all = is_word("--help") || is_word("-h") ||
                           std::none_of(commands.begin(), commands.end(),
                                        [&](const Command& command) { return is_word(command.name); });
    const auto is_wanted = [&](const Command& command) { return wants_all || is_word(command.name); };

    app.set_version_flag("--version", version, "Show the version");
    app.add_option("--store", context.store,
                   "The store's file (else INKTURN_STORE, else in the XDG data folder)")
        ->type_name("FILE")
        ->envname("INKTURN_STORE");
    app.add_option("--candidate", context.candidate,
                   "Whom it is about, by code (else INKTURN_CANDIDATE, else me)")
        ->type_name("CODE")
        ->envname("INKTURN_CANDIDATE");
    app.add_option("--today", context.today,
                   "The day to take for today (else INKTURN_TODAY, else the local date)")
        ->type_name("DATE")
        ->envname("INKTURN_TODAY");
    app.add_flag("--no-colour", context.no_colour, "Plain text on a terminal too");

    for (const Command& command : commands)
        if (is_wanted(command))
            command.add(app, context);
    name_group(app);
    refuse_empty_values(app);
}

int run_command_line(int argc, char** argv, Context& context) {
    CLI::App app{"Marks timed papers by ink and brings the missed questions round again.", "inkturn"};
    app.formatter(help_formatter());
    app.set_help_flag("-h,--help", "Show this page");
    app.fallthrough();
    app.allow_extras();
    app.require_subcommand(0, 1);
    app.footer("A first sitting:\n"
               "  inkturn log pure-1 --new --minutes 90 1=5/5 2a=2+1/4:slip 2b=-/6:unfinished\n"
               "Then, any day:\n"
               "  inkturn today");
    add_commands(app, context, {argv + std::min(argc, 1), argv + argc});
    try {
        app.parse(argc, argv);
        check_is_complete(app);
        check_has_command(app, context);
    } catch (const CLI::Success& asked) {
        return app.exit(asked, context.out, context.err);
    } catch (const CLI::ParseError& error) {
        throw UsageError(message_of(error) + ". See '" + full_name(chosen(app)) + " --help'");
    }
    context.run();
    return 0;
}

} // namespace inkturn
