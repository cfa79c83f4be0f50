#pragma once

#include <cstdint>
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
enum class Default : std::uint8_t;

/// An option or an argument of a command.
class Option {
  public:
    Option& required();
    Option& needs(const Option& other);    ///< an error without the other
    Option& excludes(const Option& other); ///< an error beside the other
    Option& or_from(const char* variable); ///< the default comes from an environment variable
    /// Where it isn't typed, the value comes from the person's file of defaults, which is told; `unless` is a
    /// flag that rules this out.
    void or_stated(std::string& value, Default setting, const std::string& unless, const std::string& help);

  private:
    friend class Command;
    Option(CLI::Option* option, CLI::App* app, Context* context)
        : option_(option), app_(app), context_(context) {}

    CLI::Option* option_;
    CLI::App* app_;
    Context* context_;
};

/// A command as its file describes it: what may be typed after it, and what it runs. Names and texts are
/// shown on the help page. What is typed is stored as text; nothing runs until the whole line has been read.
class Command {
  public:
    Command(CLI::App* app, Context* context) : app_(app), context_(context) {}

    Command command(const std::string& name, const std::string& help);
    /// A command that holds others; it may also run by itself.
    Command group(const std::string& name, const std::string& help);

    Option argument(const std::string& name, std::string& value, const std::string& help);
    Option argument(const std::string& name, std::vector<std::string>& values, const std::string& help);
    /// The help page shows `value_name` for what is typed after it.
    Option option(const std::string& name, std::string& value, const std::string& value_name,
                  const std::string& help);
    /// May be typed several times.
    Option option(const std::string& name, std::vector<std::string>& values, const std::string& value_name,
                  const std::string& help);
    Option flag(const std::string& name, bool& value, const std::string& help);
    /// --json; see Context::answer().
    Option json(const std::string& help = "Print JSON");

    /// Text for the end of the help page.
    void closing(const std::string& text);

    void runs(std::function<void(const Context&)> run);
    /// Runs with these options.
    template <typename Options>
    void runs(const std::shared_ptr<Options>& options, void (*run)(const Context&, const Options&)) {
        runs([options, run](const Context& context) { run(context, *options); });
    }

  private:
    CLI::App* app_;
    Context* context_;
};

/// A top-level command and the function that describes it.
struct CommandEntry {
    const char* name;
    const char* occasion; ///< the heading on the help page that it comes under
    void (*add)(Command& line);
};

/// Parses the line, then runs the command, or `alone` if none was typed. To save time, only the commands
/// whose names were typed are described to the parser; all of them for help. Returns the exit code. Throws
/// UsageError if the line is wrong, and whatever the command throws.
int run_command_line(int argc, char** argv, const std::vector<CommandEntry>& commands,
                     void (*alone)(const Context&), Context& context);

} // namespace inkturn
