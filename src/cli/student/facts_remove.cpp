#include "cli/commands.hpp"
#include "cli/student/facts.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::vector<std::string> facts;
    std::string topic;
    bool yes = false;
};

std::set<FactId> facts_named(const std::vector<Fact>& on_file, const std::vector<std::string>& numbers) {
    std::set<FactId> ids;
    for (const std::string& number : numbers) {
        const FactId id{parse_whole_number(number, 1, 2'000'000'000, "fact")};
        if (!find_fact(on_file, id))
            throw Error("no fact " + number + " on file; 'inkturn facts list' shows those that are");
        ids.insert(id);
    }
    return ids;
}

std::set<FactId> facts_of_topic(const std::vector<Fact>& on_file, const std::string& topic) {
    std::set<FactId> ids;
    for (const Fact& fact : on_file)
        if (fact.topic == topic)
            ids.insert(fact.id);
    if (ids.empty())
        throw Error("no fact of topic '" + topic + "' on file; 'inkturn facts list' shows the topics");
    return ids;
}

void remove(const Context& context, const Options& options) {
    if (options.facts.empty() == options.topic.empty())
        throw UsageError("facts remove: give either each FACT or --topic. See 'inkturn facts remove --help'");
    Store store = context.store_to_write();
    FactsOnFile facts(store);
    const std::vector<Fact> on_file = facts.all();
    const std::set<FactId> ids =
        options.topic.empty() ? facts_named(on_file, options.facts) : facts_of_topic(on_file, options.topic);
    const std::set<FactId> logged = facts.on_logged_sheets();
    const auto asked = static_cast<std::size_t>(
        std::count_if(ids.begin(), ids.end(), [&](FactId id) { return logged.count(id) > 0; }));
    if (asked > 0 && !options.yes &&
        !context.confirmed("Remove " + counted(ids.size(), "fact") + ", " + std::to_string(asked) +
                           " with what logged sheets say of " + (asked == 1 ? "it?" : "them?")))
        throw Error("nothing was removed");
    Store::Change change(store);
    for (const FactId id : ids)
        facts.remove(id);
    change.commit();
    context.out << "Removed " << counted(ids.size(), "fact") << ".\nNext: inkturn facts list\n";
}

} // namespace

void add_facts_remove(CLI::App& group, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* command = group.add_subcommand("remove", "Take facts off file, and off their sheets");
    command->add_option("FACT", options->facts, "Their numbers in the list");
    command->add_option("--topic", options->topic, "All facts of this topic")->type_name("T");
    command->add_flag("--yes", options->yes, "Don't ask");
    command->footer("Example:\n  inkturn facts remove 3 4");
    command->callback(
        [options, &context] { context.run = [options, &context] { remove(context, *options); }; });
}

} // namespace inkturn
