#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/changes.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct UndoOptions {
    bool yes = false;
};

ChangeOnFile last_change(const Store& store) {
    if (auto last = ChangesOnFile::find_last(store))
        return std::move(*last);
    throw Error("there is no change to take back");
}

void print_taken_back(const Context& context, const Store& store) {
    const auto before = ChangesOnFile::find_last(store);
    context.out << "Taken back.\n"
                << text_line("Next: inkturn redo brings it back; " +
                             (before
                                  ? "inkturn undo takes back the change before it: " + command_text(*before)
                                  : std::string("no change before it is kept")));
}

void undo(const Context& context, const UndoOptions& options) {
    Store store = context.store_to_read();
    ChangeOnFile last = last_change(store);
    if (!context.json)
        context.out << context.heading("The last change") << ", " << change_text(last) << std::flush;
    if (!options.yes && !context.confirmed("Take it back?"))
        throw Error("nothing was taken back");
    ChangesOnFile::take_back(store, last.id);
    last.taken_back = true;
    context.answer([&] { return json_of(last); }, [&] { print_taken_back(context, store); });
}

} // namespace

void add_undo(Command& line) {
    auto options = std::make_shared<UndoOptions>();
    Command command = line.command("undo", "Take the last change back");
    command.flag("--yes", options->yes, "Don't ask");
    command.json();
    command.closing("Example:\n  inkturn undo\n"
                    "It first says which change that is. Typed again, it takes back the one before.\n"
                    "Files that were written stay, and so does the record of calendars written.");
    command.runs(options, undo);
}

} // namespace inkturn
