#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/changes.hpp"
#include "inkturn/base/error.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct RedoOptions {
    bool yes = false; ///< as for undo, though nothing is asked
};

void redo(const Context& context, const RedoOptions& /*options*/) {
    Store store = context.store_to_read();
    auto change = ChangesOnFile::find_taken_back(store);
    if (!change)
        throw Error("nothing was taken back that could be brought back: a change made since has "
                    "dropped it");
    ChangesOnFile::bring_back(store, change->id);
    change->taken_back = false;
    context.answer([&] { return json_of(*change); },
                   [&] {
                       context.out << context.heading("Brought back") << ", " << change_text(*change)
                                   << "Next: inkturn undo takes it back again\n";
                   });
}

} // namespace

void add_redo(Command& line) {
    auto options = std::make_shared<RedoOptions>();
    Command command = line.command("redo", "Bring back the change that was taken back last");
    command.flag("--yes", options->yes, "As for undo, though redo asks nothing");
    command.json();
    command.closing("Example:\n  inkturn redo\n"
                    "A new change drops those that were taken back.");
    command.runs(options, redo);
}

} // namespace inkturn
