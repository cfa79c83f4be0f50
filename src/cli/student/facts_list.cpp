#include "cli/student/facts.hpp"

#include "exchange/json/facts.hpp"
#include "inkturn/plan/timetable.hpp"
#include "view/page/fact_sheet.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct FactsListOptions {
    std::string topic;
};

std::vector<Fact> facts_listed(const Store& store, const std::string& topic) {
    std::vector<Fact> facts = FactsOnFile::all(store);
    if (!topic.empty())
        facts.erase(
            std::remove_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.topic != topic; }),
            facts.end());
    return facts;
}

void print_open(const Context& context, const std::vector<Sheet>& sheets) {
    std::vector<std::string> open;
    for (const Sheet& sheet : sheets)
        if (!sheet.log)
            open.push_back((open.empty() ? "Sheets not logged yet: " : "") + to_text(sheet.id) + " of " +
                           day_text(sheet.day));
    if (!open.empty())
        context.out << '\n' << wrapped_list(open, text_width(), 2) << '\n';
}

void print_none_listed(const Context& context, const std::string& topic) {
    context.out << "No facts on file" << (topic.empty() ? "" : " for topic " + visible(topic))
                << ".\nNext: inkturn facts add FILE.csv\n";
}

void list(const Context& context, const FactsListOptions& options) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const Day today = context.date_today();
    const std::vector<Fact> facts = facts_listed(store, options.topic);
    const std::vector<Sheet> sheets = FactsOnFile::sheets(store, candidate.code);
    const std::vector<DueFact> due = facts_due(facts, sheets, candidate.exams, today);
    const auto print = [&] {
        if (facts.empty()) {
            print_none_listed(context, options.topic);
            return;
        }
        context.out << facts_table(facts, sheets, due, today, fact_days(candidate.planned));
        print_open(context, sheets);
        const FactDays planned = fact_days(candidate.planned);
        if (!options.topic.empty())
            context.out << '\n' << context.next("facts sheet --topic " + shell_word(options.topic));
        else if (facts_for_sheet(facts, due, today, planned).empty())
            context.out << '\n' << next_sheet_text(due, planned, today) << context.next("plan");
        else
            context.out << '\n' << context.next("facts sheet");
    };
    context.answer([&] { return json_of_facts(candidate.code, facts, sheets, due); }, print);
}

} // namespace

void add_facts_list(Command& group) {
    auto options = std::make_shared<FactsListOptions>();
    Command command = group.command("list", "List the facts, and when each is due");
    command.option("--topic", options->topic, "T", "Only this topic (all)");
    command.json();
    command.closing("Example:\n  inkturn facts list --topic indices");
    command.runs(options, list);
}

} // namespace inkturn
