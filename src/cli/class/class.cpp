#include "cli/class/class.hpp"

#include "cli/commands.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

void add_class_option(Command& command, std::string& name, const std::string& help) {
    command.option("--class", name, "CLASS", help);
}

void add_class_looked_at(Command& command, std::string& name, const std::string& help) {
    command.option("--class", name, "CLASS", help)
        .or_stated(name, Default::of_class, "--all-classes",
                   "All on file, whatever class the file of defaults names");
}

std::optional<std::string> class_named(const std::string& name) {
    return name.empty() ? std::nullopt : std::optional(name);
}

void WhichSittingOptions::add_to(Command& command) {
    command.flag("--first", first, "Count each candidate's first sitting, which was unseen (the default)");
    command.flag("--latest", latest, "Count each candidate's latest sitting");
}

WhichSitting WhichSittingOptions::which() const {
    if (first && latest)
        throw UsageError("choose one of --first and --latest");
    return latest ? WhichSitting::latest : WhichSitting::first;
}

std::string which_counts(WhichSitting which, const std::string& class_name) {
    const std::string name = which == WhichSitting::latest ? "latest" : "first";
    return "Each candidate's " + name + " sitting counts, or the " + name +
           " of the whole paper if there is one, by unaided marks." +
           (class_name.empty()
                ? ""
                : " Sittings from home or another class count only where there is none for this "
                  "one.");
}

Side side_on_file(const Store& store, std::shared_ptr<const Paper> paper, const std::string& class_name,
                  WhichSitting which, const std::optional<DaySpan>& days) {
    std::vector<SittingOfPaper> sittings = store.sittings_of(*paper, class_named(class_name));
    if (days)
        sittings.erase(
            std::remove_if(sittings.begin(), sittings.end(),
                           [&](const SittingOfPaper& sitting) { return !days->contains(sitting.day); }),
            sittings.end());
    std::vector<SittingOfPaper> counted = one_each(*paper, sittings, which);
    return {std::move(paper), std::move(counted)};
}

std::vector<SittingOfPaper> sat_elsewhere(const Store& store, const Paper& paper,
                                          const std::string& class_name) {
    if (class_name.empty())
        return {};
    return sat_elsewhere(store.sittings_of(paper, class_name), store.sittings_of(paper, std::nullopt));
}

std::vector<std::string> codes_of(const Store& store, const std::string& class_name) {
    return class_name.empty() ? store.candidates() : store.members(class_name);
}

std::string class_words(const std::string& class_name) {
    return class_name.empty() ? "" : " --class " + shell_word(class_name);
}

std::string class_title(const std::string& class_name) {
    return class_name.empty() ? "all candidates" : "class " + visible(class_name);
}

std::string counted_for_class(const std::string& class_name) {
    return class_name.empty() ? ""
                              : "Only papers set to this class count: imported or marked for it, or sat by "
                                "more than half of it. Sittings from home or another class count only where "
                                "there is none for this one.";
}

void add_class(Command& line) {
    Command group =
        line.group("class", "A class: sittings, marks, members, retries, statistics, grades, a report");
    group.closing("Examples:\n  inkturn class import marks.csv --paper pure-1 --date 2026-11-20\n"
                  "  inkturn class retries");
    add_class_import(group);
    add_class_mark(group);
    add_class_members(group);
    add_class_retries(group);
    add_class_marks(group);
    add_class_letters(group);
    add_class_phone(group);
    add_class_retried(group);
    add_class_returned(group);
    add_class_collect(group);
    add_class_analyse(group);
    add_class_topics(group);
    add_class_standing(group);
    add_class_report(group);
    add_class_close(group);
}

} // namespace inkturn
