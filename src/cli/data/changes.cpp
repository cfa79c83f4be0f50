#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/changes.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

constexpr std::size_t changes_shown = 10;
constexpr std::string_view what_is_kept{
    "Today's changes are kept; so are yesterday's and the last 20, while all take no more than 16 MB."};

struct ChangesOptions {
    bool all = false;
};

std::string next_step(const std::vector<ChangeOnFile>& changes) {
    const auto last = std::find_if(changes.begin(), changes.end(),
                                   [](const ChangeOnFile& change) { return !change.taken_back; });
    std::string text = "Next: ";
    if (last != changes.end())
        text += "inkturn undo takes back change " + std::to_string(static_cast<std::int64_t>(last->id));
    if (last != changes.begin())
        text += std::string(last != changes.end() ? "; " : "") + "inkturn redo brings back change " +
                std::to_string(static_cast<std::int64_t>((last - 1)->id));
    return text + '\n';
}

void print_changes(const Context& context, const std::vector<ChangeOnFile>& changes, bool any_earlier) {
    if (changes.empty()) {
        context.out << text_line("No changes that could be taken back. " + std::string(what_is_kept) +
                                 " Erasing or renaming a candidate drops them all.");
        return;
    }
    std::vector<Table::Column> columns{{"change", Table::Align::right}, {"when"}};
    const bool any_taken_back = changes.front().taken_back; // those are the latest
    if (any_taken_back)
        columns.push_back({"taken back"});
    columns.push_back({"command", Table::Align::left_may_be_cut});
    Table table(std::move(columns));
    for (const ChangeOnFile& change : changes) {
        std::vector<std::string> row{std::to_string(static_cast<std::int64_t>(change.id)), time_text(change)};
        if (any_taken_back)
            row.push_back(change.taken_back ? "yes" : "");
        row.push_back(command_text(change) + what_came_in_text(change));
        table.add_row(std::move(row));
    }
    context.out << context.heading("Changes, the latest first") << "\n\n"
                << table << (any_earlier ? "and earlier ones: inkturn changes --all\n\n" : "\n")
                << next_step(changes);
}

void show_changes(const Context& context, const ChangesOptions& options) {
    auto changes = ChangesOnFile::list(context.store_to_read(),
                                       options.all ? std::nullopt : std::optional(changes_shown + 1));
    const bool any_earlier = !options.all && changes.size() > changes_shown;
    if (any_earlier)
        changes.pop_back();
    context.answer([&] { return json_of(changes); }, [&] { print_changes(context, changes, any_earlier); });
}

} // namespace

void add_changes(Command& line) {
    auto options = std::make_shared<ChangesOptions>();
    Command changes = line.command("changes", "List the changes that can be taken back");
    changes.flag("--all", options->all, "All that are kept, not only the last ten");
    changes.json();
    changes.closing("Example:\n  inkturn changes\n" + wrapped(what_is_kept, text_width()));
    changes.runs(options, show_changes);
}

} // namespace inkturn
