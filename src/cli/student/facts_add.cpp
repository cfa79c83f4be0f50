#include "cli/csv_options.hpp"
#include "cli/student/facts.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/subjects.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/csv/facts.hpp"
#include "exchange/json/facts_added.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <map>
#include <string_view>
#include <utility>

namespace inkturn {
namespace {

struct FactsAddOptions {
    std::string file; ///< or the prompt, if an answer is given
    std::string answer;
    std::string topic;
    std::string subject;
    CsvOptionTexts csv;
    bool replace = false;
};

/// Typed on the command line.
std::vector<Fact> one_fact(const Context& context, const Store& store, const FactsAddOptions& options) {
    Fact fact{FactId{}, options.file, options.answer, options.topic, options.subject};
    check_fact(fact);
    const std::vector<Fact> on_file = FactsOnFile::all(store);
    fact = with_listed_topics(context, store, {fact}, on_file).front();
    const auto here = std::find_if(on_file.begin(), on_file.end(), [&](const Fact& one) {
        return one.subject == fact.subject && one.prompt == fact.prompt;
    });
    if (here != on_file.end() && match_fact(*here, fact) == FactMatch::contradicted && !options.replace)
        throw Error("the fact '" + fact.prompt + "' is on file with another answer or topic: '" +
                    here->answer + "'; use --replace to change it");
    return {fact};
}

std::vector<Fact> read(const Context& context, const FactsAddOptions& options) {
    check_printable(options.subject, 200, "--subject");
    if (!options.answer.empty())
        return one_fact(context, context.store_to_read(), options);
    if (!options.topic.empty())
        throw UsageError("--topic goes with a PROMPT and its ANSWER; a file has a column for it");
    const InputFile file(options.file, context);
    const Store store = context.store_to_read();
    const FactsContext met{options.subject, FactsOnFile::all(store), options.replace};
    ProblemList problems;
    std::vector<Fact> facts = read_facts_rows(*options.csv.rows_of(file), met, problems);
    refuse_problems(context, file.name(), problems);
    return with_listed_topics(context, store, std::move(facts), met.on_file);
}

void put(FactsOnFile& facts, const Fact* here, const Fact& fact, bool replace, FactsAdded& counts) {
    if (!here) {
        facts.add(fact);
        ++counts.added;
        return;
    }
    const FactMatch told = match_fact(*here, fact);
    if (told == FactMatch::unchanged) {
        ++counts.unchanged;
        return;
    }
    if (told == FactMatch::contradicted && !replace)
        throw Error("another program has just added the fact '" + fact.prompt +
                    "'; nothing was stored, so try again");
    facts.change(updated_fact(*here, fact));
    ++(told == FactMatch::completed ? counts.completed : counts.replaced);
}

FactsAdded put(Store::Change& change, const std::vector<Fact>& read, bool replace) {
    FactsOnFile facts(change);
    const std::vector<Fact> on_file = FactsOnFile::all(change.store());
    std::map<std::pair<std::string_view, std::string_view>, const Fact*> by_name;
    for (const Fact& fact : on_file)
        by_name[{fact.subject, fact.prompt}] = &fact;
    FactsAdded counts;
    for (const Fact& fact : read) {
        const auto here = by_name.find({fact.subject, fact.prompt});
        put(facts, here == by_name.end() ? nullptr : here->second, fact, replace, counts);
    }
    return counts;
}

void print(const Context& context, const FactsAdded& counts, const std::vector<PlanChange>& moved) {
    std::string text = count_text(counts.added, "fact") + " added";
    if (counts.completed > 0)
        text += ", " + std::to_string(counts.completed) + " given a topic";
    if (counts.replaced > 0)
        text += ", " + std::to_string(counts.replaced) + " replaced";
    context.out << text << ", " << counts.unchanged << " already on file.\n"
                << changes_text(moved) << context.next("facts sheet");
}

void add(const Context& context, const FactsAddOptions& options) {
    const std::vector<Fact> facts = read(context, options);
    Store store = context.store_to_write();
    question_new_subject(context, store, options.subject);
    Store::Change change(store);
    const auto moved = keep_days_passed(change, context.candidate_code(), context.date_today());
    const FactsAdded counts = put(change, facts, options.replace);
    change.commit();
    context.answer([&] { return json_of(counts); }, [&] { print(context, counts, moved); });
}

} // namespace

void add_facts_add(Command& group) {
    auto options = std::make_shared<FactsAddOptions>();
    Command command = group.command("add", "Add a fact, or a file of them");
    command
        .argument("FILE", options->file,
                  "CSV, .xlsx or .ods with the columns prompt,answer and optionally topic; - reads standard "
                  "input. Or the prompt of one fact")
        .required();
    command.argument("ANSWER", options->answer, "The answer to that prompt");
    command.option("--topic", options->topic, "T", "With an ANSWER: the fact's topic");
    command.option("--subject", options->subject, "S",
                   "Their subject, such as pure, which links them to exams");
    command.flag("--replace", options->replace, "Replace facts on file that have another answer or topic");
    options->csv.add_to(command);
    command.json();
    command.closing("Examples:\n  inkturn facts add 'a^0, a not 0' 1 --subject pure\n"
                    "  inkturn facts add indices.csv --subject pure");
    command.runs(options, add);
}

} // namespace inkturn
