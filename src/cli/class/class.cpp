#include "cli/class/class.hpp"

#include "cli/commands.hpp"
#include "view/text/text.hpp"

namespace inkturn {

void add_class_option(Command& command, std::string& name, const std::string& help) {
    command.option("--class", name, "CLASS", help);
}

std::optional<std::string> class_named(const std::string& name) {
    return name.empty() ? std::nullopt : std::optional(name);
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

void add_class(Command& line) {
    Command group = line.group("class", "A class: sittings, members, retries, statistics, grades, a report");
    group.closing("Example:\n  inkturn class import marks.csv --paper pure-1 --date 2026-11-20\n"
                  "  inkturn class retries");
    add_class_import(group);
    add_class_members(group);
    add_class_retries(group);
    add_class_letters(group);
    add_class_retried(group);
    add_class_returned(group);
    add_class_collect(group);
    add_class_analyse(group);
    add_class_topics(group);
    add_class_standing(group);
    add_class_report(group);
    add_class_seats(group);
}

} // namespace inkturn
