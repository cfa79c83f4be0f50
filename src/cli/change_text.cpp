#include "cli/change_text.hpp"

#include "cli/local_time.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <vector>

namespace inkturn {
namespace {

/// `1 sitting and 2 parts`; empty where there are none.
std::string counted_records(const ChangeOnFile& change, std::size_t RecordsChanged::*counted) {
    std::vector<std::string> counts;
    for (const RecordsChanged& records : change.records)
        if (const std::size_t count = records.*counted; count > 0)
            counts.push_back(std::to_string(count) + " " + (count == 1 ? records.kind : records.plural));
    return joined(counts, " and ");
}

/// Adds `added 1 sitting and 2 parts` where there are any.
void add_records(std::vector<std::string>& texts, const ChangeOnFile& change, const std::string& verb,
                 std::size_t RecordsChanged::*counted) {
    if (const std::string counts = counted_records(change, counted); !counts.empty())
        texts.push_back(verb + " " + counts);
}

/// Whether one of its words, blanks around it, is this.
bool has_word(const ChangeOnFile& change, const std::string& word) {
    return (" " + change.occasion.command + " ").find(" " + word + " ") != std::string::npos;
}

bool has_output(const ChangeOnFile& change) {
    return has_word(change, "-o") || change.occasion.command.find(" --output") != std::string::npos;
}

/// `It added 1 sitting; removed 2 parts; moved days of the plan.`
std::string what_it_did(const ChangeOnFile& change) {
    std::vector<std::string> texts;
    add_records(texts, change, "added", &RecordsChanged::added);
    add_records(texts, change, "changed", &RecordsChanged::changed);
    add_records(texts, change, "removed", &RecordsChanged::removed);
    if (change.moved_plan)
        texts.push_back("moved days of the plan");
    std::string text = "It ";
    for (const std::string& one : texts)
        text += (&one == &texts.front() ? "" : "; ") + one;
    return text + ".";
}

} // namespace

std::string command_text(const ChangeOnFile& change) {
    return change.occasion.command.empty() ? "(another program)" : change.occasion.command;
}

std::string what_came_in_text(const ChangeOnFile& change) {
    const std::string added = counted_records(change, &RecordsChanged::added);
    return has_word(change, "-") && !has_output(change) && !added.empty() ? ": " + added : "";
}

std::string time_text(const ChangeOnFile& change) {
    if (change.occasion.at == Moment{})
        return "at no stated time";
    const Moment at = change.occasion.at;
    return iso(local_day(at)) + " " + local_time_text(at).substr(0, 5);
}

std::string with_what_goes(const std::vector<RecordsChanged>& records, const std::set<std::string>& own_kinds,
                           std::vector<std::string> first) {
    const std::string candidate = "candidate";
    const auto count_of = [](const RecordsChanged& one) {
        return std::to_string(one.removed) + " " + (one.removed == 1 ? one.kind : one.plural);
    };
    std::vector<std::string> last;
    for (const RecordsChanged& one : records)
        if (one.removed > 0 && one.kind == candidate)
            last.push_back(count_of(one) + (one.removed == 1 ? " who has" : " who have") +
                           " nothing else on file");
        else if (one.removed > 0 && own_kinds.count(one.kind) == 0)
            first.push_back(count_of(one));
    first.insert(first.end(), last.begin(), last.end());
    return first.empty() ? "" : " with " + joined(first, " and ");
}

std::string amended_text(const std::vector<std::string>& differences) {
    std::string text;
    for (const std::string& line : differences)
        text += "  " + wrapped(visible(line), text_width() - 2, 4) + '\n';
    return differences.empty() ? "It was so already.\n" : text;
}

std::string change_text(const ChangeOnFile& change) {
    return time_text(change) + ":\n  " + wrapped(command_text(change), text_width() - 2, 4) + '\n' +
           text_line(what_it_did(change) + (has_output(change) && !has_word(change, "-") && !change.taken_back
                                                ? " The file that it wrote stays."
                                                : ""));
}

} // namespace inkturn
