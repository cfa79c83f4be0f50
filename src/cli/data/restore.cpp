#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/named_input.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/backup.hpp"
#include "view/text/text.hpp"

#include <cerrno>
#include <iostream>
#include <system_error>
#include <unistd.h>

namespace inkturn {
namespace {

struct RestoreOptions {
    std::string file;
    bool yes = false;
};

/// Messages name standard input by that, and not by its passing copy.
std::string restored(const NamedInput& copy, const std::string& store) {
    try {
        return restore_store(copy.file(), store);
    } catch (const Error& error) {
        std::string text = error.what();
        const std::size_t at = text.find("'" + copy.file() + "'");
        if (copy.is_named() || at == std::string::npos)
            throw;
        throw Error(text.replace(at, copy.file().size() + 2, "standard input"));
    }
}

/// So that nobody is asked about a file that can't be read. It isn't opened: a pipe would wait for its
/// writer.
void check_is_there(const NamedInput& copy) {
    if (copy.is_named() && ::access(copy.file().c_str(), R_OK) != 0)
        throw Error("'" + copy.file() + "' can't be read: " + std::generic_category().message(errno));
}

void run_restore(const Context& context, const RestoreOptions& options) {
    const std::string store = context.store_file();
    if (options.file == "-" && !options.yes)
        throw UsageError("to read a backup from standard input, which nothing can be asked on, add --yes");
    const NamedInput copy(options.file, context);
    check_is_there(copy);
    if (!options.yes && !context.confirmed("Replace " + store + " with what " + options.file + " holds?"))
        throw Error("nothing was restored");
    const std::string kept = restored(copy, store);
    *context.stored = true;
    const Store restored = context.store_to_read();
    context.out << text_line("Restored from " +
                             visible(options.file == "-" ? "standard input" : options.file) + ": " +
                             count_text(restored.papers().size(), "paper") + ", " +
                             count_text(restored.candidates().size(), "candidate") + ".");
    if (!kept.empty())
        context.out << text_line("What was on file until now is kept in " + visible(kept) +
                                 ": remove it once you are sure that you don't need it.");
    context.out << "Next: inkturn today\n";
}

} // namespace

void add_restore(Command& line) {
    auto options = std::make_shared<RestoreOptions>();
    Command command = line.command("restore", "Go back to a backup");
    command
        .argument("FILE", options->file,
                  "What 'inkturn backup' wrote, or a copy of a store; - is standard input")
        .required();
    command.flag("--yes", options->yes, "Don't ask");
    command.closing("Example:\n  inkturn restore inkturn-2026-11-25.backup\n"
                    "The backup is checked first and stays as it is. What was on file until then is kept\n"
                    "beside the store. Somebody who was erased since comes back with an older backup:\n"
                    "erase them again.");
    command.runs(options, run_restore);
}

} // namespace inkturn
