#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
} // namespace CLI

namespace inkturn {

struct Context;

/// An option or an argument of a command.
class Option {
  public:
    explicit Option(CLI::Option* option) : option_(option) {}

    Option& required();
    Option& needs(const Option& other);    ///< refused without the other
    Option& excludes(const Option& other); ///< refused beside the other
    Option& or_from(const char* variable); ///< where it is not typed, an environment variable's value counts

  private:
    CLI::Option* option_;
};

/// A command as its file describes it: what may be typed after it, and what it runs. Names and texts are
/// those of the help page. What is typed is stored as text; nothing runs before the whole line was read.
class Command {
  public:
    Command(CLI::App* app, Context* context) : app_(app), context_(context) {}

    Command command(const std::string& name, const std::string& help);
    /// A command that holds others; it may run by itself too.
    Command group(const std::string& name, const std::string& help);

    Option argument(const std::string& name, std::string& value, const std::string& help);
    Option argument(const std::string& name, std::vector<std::string>& values, const std::string& help);
    /// `value_name` stands for what is typed after it.
    Option option(const std::string& name, std::string& value, const std::string& value_name,
                  const std::string& help);
    /// May be typed several times.
    Option option(const std::string& name, std::vector<std::string>& values, const std::string& value_name,
                  const std::string& help);
    Option flag(const std::string& name, bool& value, const std::string& help);
    /// --json, which Context::answer() goes by.
    Option json(const std::string& help = "Print JSON");

    /// What stands at the end of the help page.
    void closing(const std::string& text);

    void runs(std::function<void(const Context&)> run);
    /// Runs with the options that were bound to it.
    template <typename Options>
    void runs(const std::shared_ptr<Options>& options, void (*run)(const Context&, const Options&)) {
        runs([options, run](const Context& context) { run(context, *options); });
    }

  private:
    CLI::App* app_;
    Context* context_;
};

/// A command of the first level, and what describes it.
struct CommandEntry {
    const char* name;
    void (*add)(Command& line);
};

/// Parses the line, then runs what was asked. Only the commands whose names are among the words typed are
/// described to the parser, which saves setting the others up; all where none is, or where help is asked for.
/// Returns the exit code of a line that needs no run (help, version); throws UsageError where the line is
/// wrong, and what the run throws.
int run_command_line(int argc, char** argv, const std::vector<CommandEntry>& commands, Context& context);

} // namespace inkturn
