#include "cli/class/class.hpp"
#include "cli/compacted.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct CloseOptions {
    std::string name;
    bool dry_run = false;
    bool yes = false;
};

/// What becomes of a class that is closed.
struct Closing {
    std::vector<ClosedClassFigures> kept; ///< by paper
    std::vector<std::string> too_few;     ///< ids of papers whose figures would give marks away
    std::vector<std::string> erased;      ///< members of no other class
    std::vector<std::string> staying;     ///< members of another class too
    std::size_t sittings = 0;             ///< that are erased
    std::size_t reattempts = 0;           ///< likewise

    /// Whether there is nobody of whom a trace could be left.
    bool erases_nobody() const { return erased.empty(); }
};

void take_figures(const Store& store, const std::string& name, Day today, Closing& closing) {
    for (const auto& paper : store.papers()) {
        const Side side = side_on_file(store, paper, name, WhichSitting::first);
        if (side.sittings.empty())
            continue;
        ClosedClassFigures figures{name, today, paper->id(), part_figures(side)};
        if (figures.parts.empty())
            closing.too_few.push_back(paper->id());
        else
            closing.kept.push_back(std::move(figures));
    }
}

Closing closing_of(const Store& store, const std::string& name, Day today) {
    Closing closing;
    take_figures(store, name, today, closing);
    for (const std::string& code : store.members(name)) {
        if (store.classes_of(code).size() > 1) {
            closing.staying.push_back(code);
            continue;
        }
        closing.erased.push_back(code);
        for (const SittingRecord& record : store.candidate(code).sittings) {
            ++closing.sittings;
            closing.reattempts += record.reattempts.size();
        }
    }
    return closing;
}

void print_kept(const Context& context, const Closing& closing) {
    context.out << context.heading("To be kept") << ": "
                << (closing.kept.empty() ? "no figures.\n"
                                         : "how many did each part, and their marks together.\n");
    if (!closing.kept.empty()) {
        Table table({{"paper", Table::Align::left_may_be_cut},
                     {"parts", Table::Align::right},
                     {"candidates", Table::Align::right}});
        for (const ClosedClassFigures& figures : closing.kept)
            table.add_row({figures.paper, std::to_string(figures.parts.size()),
                           std::to_string(figures.parts.front().candidates)});
        context.out << table;
    }
    if (!closing.too_few.empty())
        context.out << text_line("The figures of " + joined(closing.too_few, " and ") + " are not kept" +
                                 ": fewer than " + std::to_string(PaperAnalysis::min_candidates_unnamed) +
                                 " candidates sat, so they would give marks away though they name nobody.");
}

void print_erased(const Context& context, const std::string& name, const Closing& closing) {
    if (closing.erases_nobody())
        context.out << context.heading("To be removed") << ":\n"
                    << text_line("Class " + visible(name) + ", its exams and times. No candidate is erased" +
                                 (closing.staying.empty() ? ": nobody is in it." : "."));
    else
        context.out << context.heading("To be erased for good") << ":\n"
                    << text_line("Class " + visible(name) + ", its exams and times, and " +
                                 count_text(closing.erased.size(), "candidate") +
                                 " with everything on file about them.");
    if (!closing.erases_nobody())
        context.out << text_line(visible(joined(closing.erased, ", ")) + ".")
                    << text_line(count_text(closing.sittings, "sitting") + ", " +
                                 count_text(closing.reattempts, "re-attempt") +
                                 " and their days, notes, scripts, sheets and wishes; and every change that "
                                 "can be taken back, whoever it is about.");
    if (!closing.staying.empty())
        context.out << text_line("Staying, because they are in another class too: " +
                                 visible(joined(closing.staying, ", ")) + ". They leave this class.");
}

void close_for_good(Store& store, const Store::Seen seen, const std::string& name, const Closing& closing) {
    {
        Store::Change change(store, seen);
        ClosedClasses closed(change);
        for (const ClosedClassFigures& figures : closing.kept)
            if (!closed.add(figures))
                throw Error("figures of a class " + name +
                                " closed today are on file already: close this one "
                                "tomorrow, or give it another name",
                            Error::Kind::conflict);
        change.remove_class(name);
        for (const std::string& code : closing.erased)
            if (change.store().has_candidate(code)) // one with nothing else on file went with the class
                change.erase_candidate(code);
        if (!closing.erases_nobody())
            change.forget_changes();
        change.commit();
    }
    if (!closing.erases_nobody())
        leave_no_trace(store);
}

/// What is left of the candidates elsewhere, and what to do with the figures.
void print_closed(const Context& context, const std::string& name, const Closing& closing) {
    if (closing.erases_nobody())
        context.out << "\nClosed. Nobody was erased, so 'inkturn undo' takes it back.\n";
    else
        context.out << "\nClosed. The store holds no trace of these candidates. Copies of the store,\n"
                       "backups, exports, printed lists and the files the marks came from still may:\n"
                       "deal with those too. No change up to this one can be taken back.\n";
    if (closing.kept.empty())
        context.out << "Next: inkturn class list\n";
    else
        context.out << "Next: inkturn paper show " << closing.kept.front().paper << '\n'
                    << text_line("Once another class has sat that paper: inkturn class analyse " +
                                 closing.kept.front().paper + " --class CLASS --against-closed " +
                                 shell_word(name));
}

void run(const Context& context, const CloseOptions& options) {
    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    const Store::Seen seen = store.seen();
    const Closing closing = closing_of(store, options.name, context.date_today());
    print_kept(context, closing);
    context.out << '\n';
    print_erased(context, options.name, closing);
    if (options.dry_run) {
        context.out << "\nNothing was erased. Next: run it again without --dry-run\n";
        return;
    }
    if (!options.yes && !context.confirmed("Close class " + visible(options.name) + " for good?"))
        throw Error("nothing was erased");
    close_for_good(store, seen, options.name, closing);
    print_closed(context, options.name, closing);
}

} // namespace

void add_class_close(Command& group) {
    auto options = std::make_shared<CloseOptions>();
    Command close =
        group.command("close", "At the year's end: keep the figures of questions, erase the candidates");
    close.argument("CLASS", options->name, "The class's name").required();
    close.flag("--dry-run", options->dry_run, "Only say what would be kept and what erased");
    close.flag("--yes", options->yes, "Don't ask");
    close.closing("Example:\n  inkturn class close tuesday --dry-run\n"
                  "Erasing is for good, as with 'inkturn candidate erase'. To keep the marks, make\n"
                  "a backup or an export first, and keep that as the school's policy and local\n"
                  "law say.");
    close.runs(options, run);
}

} // namespace inkturn
