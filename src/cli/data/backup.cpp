#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/named_input.hpp"

#include "inkturn/store/backup.hpp"
#include "view/text/text.hpp"

#include <fstream>
#include <iostream>

namespace inkturn {
namespace {

struct BackupOptions {
    std::string file;
};

/// Through a passing file, so that the copy is checked before a byte of it goes out.
void write_backup(const Context& context, const Store& store) {
    const PassingCopy copy("backup");
    back_up(store, copy.file());
    std::ifstream written(copy.file(), std::ios::binary);
    context.out << written.rdbuf();
}

void run_backup(const Context& context, const BackupOptions& options) {
    const Store store = context.store_to_read();
    if (options.file == "-") {
        write_backup(context, store);
        return;
    }
    back_up(store, options.file);
    context.out << text_line("Backed up to " + visible(options.file) + ": " +
                             count_text(store.papers().size(), "paper") + ", " +
                             count_text(store.candidates().size(), "candidate") + ". The copy was checked.")
                << "It holds candidates' marks: keep it where only you can read it.\n"
                << text_line("To go back to it: inkturn restore " + shell_word(options.file));
}

} // namespace

void add_backup(Command& line) {
    auto options = std::make_shared<BackupOptions>();
    Command command = line.command("backup", "Copy the store to a file, checked");
    command
        .option("-o,--output", options->file, "FILE",
                "The file to write, which must not exist; - is standard output")
        .required();
    command.closing("Example:\n  inkturn backup -o inkturn-2026-11-25.backup\n"
                    "It may run while other commands write. A copy made otherwise may catch the store\n"
                    "in the middle of a change.");
    command.runs(options, run_backup);
}

} // namespace inkturn
