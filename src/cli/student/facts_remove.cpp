#include "cli/change_text.hpp"
#include "cli/student/facts.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct FactsRemoveOptions {
    std::vector<std::string> facts;
    std::string topic;
    bool yes = false;
};

std::set<FactId> ids_named(const std::vector<Fact>& on_file, const std::vector<std::string>& numbers) {
    std::set<FactId> ids;
    for (const std::string& number : numbers) {
        const FactId id{parse_whole_number(number, 1, 2'000'000'000, "fact")};
        if (!find_fact(on_file, id))
            throw Error("no fact " + number + " on file; 'inkturn facts list' lists the facts");
        ids.insert(id);
    }
    return ids;
}

std::set<FactId> ids_of_topic(const std::vector<Fact>& on_file, const std::string& topic) {
    std::set<FactId> ids;
    for (const Fact& fact : on_file)
        if (fact.topic == topic)
            ids.insert(fact.id);
    if (ids.empty())
        throw Error("no fact on topic '" + topic + "' on file; 'inkturn facts list' lists the topics");
    return ids;
}

void remove(const Context& context, const FactsRemoveOptions& options) {
    if (options.facts.empty() == options.topic.empty())
        throw UsageError("give either FACT numbers or --topic");
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    const std::vector<Fact> on_file = FactsOnFile::all(store);
    const std::set<FactId> ids =
        options.topic.empty() ? ids_named(on_file, options.facts) : ids_of_topic(on_file, options.topic);
    const std::set<FactId> logged = FactsOnFile::on_logged_sheets(store);
    const auto on_sheets = static_cast<std::size_t>(
        std::count_if(ids.begin(), ids.end(), [&](FactId id) { return logged.count(id) > 0; }));
    if (on_sheets > 0 && !options.yes &&
        !context.confirmed(
            "Remove " + count_text(ids.size(), "fact") + ", and " +
            (ids.size() == 1 ? "its results" : "the results of " + std::to_string(on_sheets) + " of them") +
            " on logged sheets?"))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    keep_days_passed(change, context.candidate_code(), context.date_today());
    FactsOnFile facts(change);
    for (const FactId id : ids)
        facts.remove(id);
    const std::string going = with_what_goes(ChangesOnFile::records(change), {"fact"});
    change.commit();
    context.out << text_line("Removed " + count_text(ids.size(), "fact") + going + ".")
                << context.next("facts list");
}

} // namespace

void add_facts_remove(Command& group) {
    auto options = std::make_shared<FactsRemoveOptions>();
    Command command = group.command("remove", "Remove facts, and their rows on sheets");
    command.argument("FACT", options->facts, "Their numbers in the list");
    command.option("--topic", options->topic, "T", "All facts on this topic");
    command.flag("--yes", options->yes, "Don't ask");
    command.closing("Example:\n  inkturn facts remove 3 4");
    command.runs(options, remove);
}

} // namespace inkturn
