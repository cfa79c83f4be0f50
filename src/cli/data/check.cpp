#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/check.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct CheckOptions {
    bool repair = false;
    bool compact = false;
};

void print_faults(const Context& context, const std::vector<StoreFault>& faults) {
    for (const StoreFault& fault : faults)
        context.out << text_line("- " + visible(fault.what) +
                                 (fault.can_be_repaired ? " (can be repaired)" : ""));
}

/// Each fault on a line; exit 1 where there is one.
void report_faults(const Context& context, const std::vector<StoreFault>& faults) {
    if (faults.empty()) {
        context.out << "The store is sound: the file, and all marks and days in it.\n";
        return;
    }
    print_faults(context, faults);
    const bool any_repair = std::any_of(faults.begin(), faults.end(),
                                        [](const StoreFault& fault) { return fault.can_be_repaired; });
    throw Error(count_text(faults.size(), "fault") + " in the store; " +
                (any_repair ? "'inkturn check --repair' repairs what can be repaired, " : "") +
                "'inkturn restore FILE' goes back to a backup");
}

void repair(const Context& context) {
    if (faults_of(context.store_to_read()).empty()) {
        context.out << "The store is sound: there is nothing to repair.\n";
        return;
    }
    const Repaired repaired = repair_store(context.store_file());
    context.out << text_line("Repaired what could be repaired. What was on file before is kept in " +
                             visible(repaired.kept) + ".");
    report_faults(context, repaired.left);
}

void look(const Context& context, const CheckOptions& options) {
    try {
        if (options.repair)
            repair(context);
        else
            report_faults(context, faults_of(context.store_to_read()));
    } catch (const StoreError& error) {
        if (error.kind() != Error::Kind::damaged)
            throw;
        throw Error(std::string(error.what()) +
                    ": too much to look further; 'inkturn restore FILE' goes back to a backup");
    }
}

void run_check(const Context& context, const CheckOptions& options) {
    look(context, options);
    if (!options.compact)
        return;
    context.store_to_write().compact();
    context.out << "The file was rewritten: nothing that was erased is left in it.\n";
}

} // namespace

void add_check(Command& line) {
    auto options = std::make_shared<CheckOptions>();
    Command command = line.command("check", "Check whether the store is sound");
    command.flag("--repair", options->repair, "Remove what belongs to nothing, rebuild the indexes");
    command.flag("--compact", options->compact, "Rewrite the file, without traces of what was erased");
    command.closing("Example:\n  inkturn check\n"
                    "Commands that write check it briefly once a day, and after one was interrupted.");
    command.runs(options, run_check);
}

} // namespace inkturn
