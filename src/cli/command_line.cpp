#include "cli/command_line.hpp"

#include "cli/closing.hpp"
#include "cli/command_table.hpp"
#include "cli/context.hpp"
#include "cli/versions.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <ostream>
#include <string_view>
#include <utility>

namespace inkturn {
namespace {

constexpr const char* program_help = "Marks timed papers by ink and brings the missed questions round again.";
constexpr std::size_t likely_slip = 2; ///< most letters that may differ in a mistyped command
constexpr std::size_t columns_of_man_page = 72;

/// A name with its meaning beside it, or below if the name is too long or the terminal narrow.
std::string entry(std::string name, const std::string& meaning) {
    const std::size_t name_width = text_width() < 60 ? 6 : 24;
    name.insert(0, "  ");
    if (name.size() + 2 > name_width)
        name += '\n' + std::string(name_width, ' ');
    else
        name.resize(name_width, ' ');
    return name + wrapped(meaning, text_width() - name_width, name_width) + '\n';
}

class HelpFormatter : public CLI::Formatter {
  public:
    HelpFormatter() {
        label("SUBCOMMAND", "COMMAND");
        label("Subcommands", "Commands");
        label("Positionals", "Arguments");
    }

    std::string make_option(const CLI::Option* option, bool is_positional) const override {
        const std::string name = make_option_name(option, is_positional);
        return entry(is_positional ? name : name + make_option_opts(option), make_option_desc(option));
    }

    std::string make_option_opts(const CLI::Option* option) const override {
        const std::string text = option->get_items_expected() == 0 ? "" : " " + option->get_type_name();
        return text + (option->get_required() ? " (required)" : "");
    }

    std::string make_subcommand(const CLI::App* command) const override {
        return entry(command->get_name(), command->get_description());
    }

    std::string make_description(const CLI::App* command) const override {
        return wrapped(command->get_description(), text_width()) + '\n';
    }

    std::string make_footer(const CLI::App* command) const override {
        const std::string text = command->get_footer();
        return text.empty() ? text : laid_out(text, text_width()) + '\n';
    }
};

/// Names of the commands that may come next, set up or not.
std::vector<std::string> choices(const CLI::App& command, const std::vector<CommandEntry>& commands) {
    std::vector<std::string> names;
    if (command.get_parent() == nullptr)
        for (const CommandEntry& choice : commands)
            names.emplace_back(choice.name);
    else
        for (const CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; }))
            names.push_back(choice->get_name());
    return names;
}

std::string nearest_command(const CLI::App& app, const std::vector<CommandEntry>& commands,
                            const std::string& typed) {
    std::string nearest;
    std::size_t least = likely_slip + 1;
    for (const std::string& name : choices(app, commands)) {
        const std::size_t changed = letters_changed(typed, name);
        if (changed < least) {
            least = changed;
            nearest = name;
        }
    }
    return nearest;
}

/// Of the options of the command and of those above it.
std::string nearest_option(const CLI::App& command, const std::string& typed) {
    std::vector<std::string> names;
    for (const CLI::App* app = &command; app; app = app->get_parent())
        for (const CLI::Option* option : app->get_options())
            for (const std::string& name : option->get_lnames())
                names.push_back("--" + name);
    return nearest_name(typed.substr(0, typed.find('=')), names).value_or("");
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

[[noreturn]] void refuse_unknown(const CLI::App& app, const std::vector<CommandEntry>& commands,
                                 const std::string& typed) {
    const CLI::App& command = chosen(app);
    const bool is_option = typed.size() > 1 && typed.front() == '-';
    const bool takes_command = !choices(command, commands).empty();
    std::string message = is_option       ? "unknown option " + typed
                          : takes_command ? "unknown command '" + typed + "'"
                                          : "'" + typed + "' is not expected here" +
                                                (command.get_option_no_throw("--class") != nullptr
                                                     ? "; a class is named with --class"
                                                     : "");
    const std::string nearest = is_option       ? nearest_option(command, typed)
                                : takes_command ? nearest_command(command, commands, typed)
                                                : "";
    if (!nearest.empty())
        message += "; did you mean '" + nearest + "'?";
    throw UsageError(message + (nearest.empty() ? "." : "") + " See '" + full_name(command) + " --help'");
}

void check_is_complete(const CLI::App& app, const std::vector<CommandEntry>& commands) {
    auto left_over = app.remaining(true);
    left_over.erase(std::remove(left_over.begin(), left_over.end(), "--"), left_over.end());
    if (!left_over.empty())
        refuse_unknown(app, commands, left_over.front());
}

[[noreturn]] void ask_for_command(const CLI::App& app, const std::vector<CommandEntry>& commands) {
    const CLI::App& command = chosen(app);
    std::string names;
    for (const std::string& choice : choices(command, commands))
        names += (names.empty() ? "" : ", ") + choice;
    throw UsageError("choose a command: " + names + ". See '" + full_name(command) + " --help'");
}

/// The bytes of a file's name are what they are.
bool names_file(const CLI::Option& option) {
    const std::string kind = option.nonpositional() ? option.get_type_name() : option.get_name(true);
    return kind.find("FILE") != std::string::npos || kind.find("FOLDER") != std::string::npos;
}

/// Makes what is typed alike however its accents were written, without blanks at its ends unless it is a
/// blank itself. Returns what is wrong with it.
std::string settle_text(std::string& text) {
    try {
        const std::string_view between_blanks = trimmed(text);
        text = composed(between_blanks.empty() ? text : between_blanks);
        check_is_visible(text, "'" + text + "'");
        return {};
    } catch (const Error& error) {
        return error.what();
    }
}

/// An empty value usually comes from an unset variable: it must not mean me, or today.
void check_values(CLI::App& command) {
    const CLI::Validator stated(
        [](const std::string& text) { return text.empty() ? std::string("the value is empty") : ""; }, "");
    for (CLI::Option* option : command.get_options()) {
        if (option->get_expected_max() == 0 || option->get_items_expected() == 0)
            continue;
        if (option->nonpositional())
            option->check(stated);
        if (!names_file(*option))
            option->transform(CLI::Validator(settle_text, ""));
    }
    for (CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; }))
        check_values(*choice);
}

/// What is wrong with the command line; rewords the parser's messages that are hard to read.
std::string message_of(const CLI::ParseError& error) {
    std::string text = error.what();
    const auto reword = [&](std::string_view word, const char* plain) {
        if (const std::size_t at = text.find(word); at != std::string::npos)
            text.replace(at, word.size(), plain);
        return text;
    };
    if (error.get_name() == "ExcludesError")
        return reword(" excludes ", " can't be used with ");
    if (error.get_name() == "RequiresError")
        return reword(" requires ", " needs ");
    const std::size_t colon = text.find(": ");
    if (error.get_name() != "ArgumentMismatch" || colon == std::string::npos)
        return text;
    const std::string option = text.substr(0, colon);
    return option + (text.find("At Most", colon) == std::string::npos ? " needs a value after it"
                                                                      : " is given more than once");
}

void name_group(CLI::App& command) {
    for (CLI::App* choice : command.get_subcommands([](const CLI::App*) { return true; })) {
        choice->group("Commands");
        name_group(*choice);
    }
}

/// The commands to describe to the parser: those whose names were typed; all for help.
std::vector<CommandEntry> wanted(const std::vector<CommandEntry>& commands,
                                 const std::vector<std::string>& words) {
    const auto is_word = [&](std::string_view word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    };
    if (is_word("--help") || is_word("-h") || is_word("help"))
        return commands;
    std::vector<CommandEntry> named;
    std::copy_if(commands.begin(), commands.end(), std::back_inserter(named),
                 [&](const CommandEntry& command) { return is_word(command.name); });
    return named;
}

void add_global_options(CLI::App& app, Context& context) {
    app.set_version_flag("--version", version_text, "The version, the store's layout and the libraries");
    Command line(&app, &context);
    line.option("--store", context.store, "FILE", "Store file (INKTURN_STORE, or in the XDG data folder)")
        .or_from("INKTURN_STORE");
    line.option("--candidate", context.candidate, "CODE",
                "The candidate's code (INKTURN_CANDIDATE, the file of defaults, or me)")
        .or_from("INKTURN_CANDIDATE");
    line.option("--today", context.today, "DATE",
                "The date to use as today (INKTURN_TODAY, or the local date)")
        .or_from("INKTURN_TODAY");
    line.flag("-q,--quiet", context.quiet, "Show no progress");
    line.flag("--no-colour", context.no_colour, "Plain text, even on a terminal");
}

/// The one whom the file of defaults names; empty if it names none, or wrongly.
std::string candidate_by_default(const Context& context) {
    try {
        return context.defaults->find(Default::candidate).value_or("");
    } catch (const Error&) {
        return {};
    }
}

/// A line of the file of defaults that says nothing may have been meant to say something.
void tell_strays(const Context& context) {
    for (const DefaultMistake& stray : context.defaults->file().strays)
        context.err << "inkturn: note: " << visible(context.defaults->shown_name() + ", " + to_text(stray))
                    << '\n';
}

/// The words after the program's name, and the candidate where the environment or the file of defaults named
/// one.
std::string typed(const std::vector<std::string>& words, const std::string& candidate) {
    std::string line;
    for (const std::string& word : words)
        line += (line.empty() ? "" : " ") + shell_word(word);
    if (!candidate.empty() && line.find("--candidate") == std::string::npos)
        line += " --candidate " + shell_word(candidate);
    return line;
}

OptionRow row_of(const CLI::Option& option) {
    OptionRow row;
    if (option.get_positional()) {
        row.names = {option.get_name(true)};
    } else {
        for (const std::string& name : option.get_snames())
            row.names.push_back("-" + name);
        for (const std::string& name : option.get_lnames())
            row.names.push_back("--" + name);
        row.value = option.get_items_expected() == 0 ? "" : option.get_type_name();
    }
    row.help = option.get_description();
    row.required = option.get_required();
    row.repeats = option.get_items_expected_max() > 1;
    return row;
}

CommandRow row_of(const CLI::App& app, const std::vector<CommandEntry>& commands) {
    CommandRow row{app.get_name(), {}, app.get_description(), {}, {}, {}, {}};
    row.closing = laid_out(app.get_footer(), columns_of_man_page);
    for (const CommandEntry& command : commands)
        if (app.get_parent() && !app.get_parent()->get_parent() && app.get_name() == command.name)
            row.occasion = command.occasion;
    for (const CLI::Option* option : app.get_options())
        (option->get_positional() ? row.arguments : row.options).push_back(row_of(*option));
    for (const CLI::App* inner : app.get_subcommands([](const CLI::App*) { return true; }))
        row.commands.push_back(row_of(*inner, commands));
    return row;
}

/// Everything about the program and these commands, for the parser.
void describe(CLI::App& app, const std::vector<CommandEntry>& commands, Context& context) {
    app.formatter(std::make_shared<HelpFormatter>());
    app.set_help_flag("-h,--help", "Show this page");
    app.fallthrough();
    app.allow_extras();
    app.require_subcommand(0, 1);
    app.footer("A first sitting:\n"
               "  inkturn log pure-1 --new --minutes 90 1=5/5 2a=2+1/4:slip 2b=-/6:unfinished\n"
               "Then, any day, what to do today:\n"
               "  inkturn\n"
               "What a command does, with examples:\n"
               "  inkturn help COMMAND");
    add_global_options(app, context);
    Command line(&app, &context);
    for (const CommandEntry& command : commands)
        command.add(line);
    name_group(app);
    for (CLI::App* described : app.get_subcommands([](const CLI::App*) { return true; }))
        for (const CommandEntry& command : commands)
            if (described->get_name() == command.name)
                described->group(command.occasion);
}

std::vector<std::string> words_typed(int argc, char** argv) {
    return {argv + std::min(argc, 1), argv + argc};
}

/// `help class import` is `class import --help`. The parser takes the words from the last to the first.
std::vector<std::string> for_parser(std::vector<std::string> words, bool asks_for_help) {
    if (asks_for_help) {
        words.erase(words.begin());
        words.emplace_back("--help");
    }
    std::reverse(words.begin(), words.end());
    return words;
}

/// How a message about the command begins: `plan`, or `boundaries fill`.
std::string short_name(const CLI::App& command) {
    return full_name(command).substr(std::string_view("inkturn ").size());
}

} // namespace

Option& Option::required() {
    option_->required();
    return *this;
}

Option& Option::needs(const Option& other) {
    option_->needs(other.option_);
    return *this;
}

Option& Option::excludes(const Option& other) {
    option_->excludes(other.option_);
    return *this;
}

Option& Option::or_from(const char* variable) {
    option_->envname(variable);
    return *this;
}

void Option::or_stated(std::string& value, Default setting, const std::string& unless,
                       const std::string& help) {
    CLI::Option* flag = app_->add_flag(unless, help)->excludes(option_);
    context_->settle.emplace_back([=, &value, app = app_, option = option_](const Context& context) {
        if (!app->parsed() || !option->empty() || !flag->empty())
            return;
        value = context.defaults->find(setting).value_or("");
        if (!value.empty())
            context.tell_default(setting,
                                 std::string(name(setting)) + " " + value + " (all: " + unless + ")");
    });
}

Command Command::command(const std::string& name, const std::string& help) {
    return {app_->add_subcommand(name, help), context_};
}

Command Command::group(const std::string& name, const std::string& help) {
    CLI::App* group = app_->add_subcommand(name, help);
    group->require_subcommand(0, 1);
    return {group, context_};
}

Option Command::argument(const std::string& name, std::string& value, const std::string& help) {
    return {app_->add_option(name, value, help), app_, context_};
}

Option Command::argument(const std::string& name, std::vector<std::string>& values, const std::string& help) {
    return {app_->add_option(name, values, help), app_, context_};
}

Option Command::option(const std::string& name, std::string& value, const std::string& value_name,
                       const std::string& help) {
    return {app_->add_option(name, value, help)->type_name(value_name), app_, context_};
}

Option Command::option(const std::string& name, std::vector<std::string>& values,
                       const std::string& value_name, const std::string& help) {
    return {app_->add_option(name, values, help)->type_name(value_name), app_, context_};
}

Option Command::flag(const std::string& name, bool& value, const std::string& help) {
    return {app_->add_flag(name, value, help), app_, context_};
}

Option Command::json(const std::string& help) {
    return flag("--json", context_->json, help);
}

void Command::closing(const std::string& text) {
    app_->footer(text);
}

void Command::runs(std::function<void(const Context&)> run) {
    app_->callback([context = context_, run = std::move(run)] {
        if (!context->run) // the parser calls the innermost command's first
            context->run = run;
    });
}

CommandRow command_table(const std::vector<CommandEntry>& commands, Context& context) {
    CLI::App app{program_help, "inkturn"};
    describe(app, commands, context);
    return row_of(app, commands);
}

int run_command_line(int argc, char** argv, const std::vector<CommandEntry>& commands,
                     void (*alone)(const Context&), Context& context) {
    const auto words = words_typed(argc, argv);
    const bool asks_for_help = !words.empty() && words.front() == "help";
    CLI::App app{program_help, "inkturn"};
    describe(app, wanted(commands, words), context);
    check_values(app);

    try {
        app.parse(for_parser(words, asks_for_help));
        check_is_complete(app, commands);
    } catch (const CLI::Success& exit_request) {
        if (asks_for_help)
            check_is_complete(app, commands);
        return app.exit(exit_request, context.out, context.err);
    } catch (const CLI::ParseError& error) {
        throw UsageError(message_of(error) + ". See '" + full_name(chosen(app)) + " --help'");
    }
    if (!context.run && app.get_subcommands().empty())
        context.run = alone;
    if (!context.run)
        ask_for_command(app, commands);
    context.typed =
        typed(words, context.candidate.empty() ? candidate_by_default(context) : context.candidate);
    try {
        for (const auto& settle : context.settle)
            settle(context);
        context.run(context);
    } catch (const UsageError& error) {
        const CLI::App& command = chosen(app);
        throw UsageError(short_name(command) + ": " + error.what() + ". See '" + full_name(command) +
                         " --help'");
    }
    tell_strays(context);
    if (*context.stored && *context.candidate_by_default)
        context.tell_default(Default::candidate, "stored for candidate " + context.candidate_code());
    return 0;
}

} // namespace inkturn
