#include "cli/csv_options.hpp"
#include "cli/student/facts.hpp"

#include "exchange/csv/facts.hpp"
#include "exchange/json/json.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "view/text/text.hpp"

#include <iostream>
#include <map>
#include <string_view>
#include <utility>

namespace inkturn {
namespace {

struct Options {
    std::string file;
    std::string subject;
    CsvOptionTexts csv;
    bool replace = false;
    bool json = false;
};

struct Added {
    std::size_t added = 0;
    std::size_t completed = 0;
    std::size_t replaced = 0;
    std::size_t unchanged = 0;
};

std::vector<Fact> read(const Context& context, const Options& options) {
    check_printable(options.subject, 200, "--subject");
    const InputFile file(options.file, context.in);
    const FactsMet met{options.subject, FactsOnFile::all(context.store_to_read()), options.replace};
    ProblemList problems;
    std::vector<Fact> facts = read_facts_csv(file.stream(), options.csv.read(), met, problems);
    refuse_problems(context, file.name(), problems);
    return facts;
}

void put(FactsOnFile& facts, const Fact* here, const Fact& fact, bool replace, Added& counts) {
    if (!here) {
        facts.add(fact);
        ++counts.added;
        return;
    }
    const Retold told = retold(*here, fact);
    if (told == Retold::unchanged) {
        ++counts.unchanged;
        return;
    }
    if (told == Retold::contradicted && !replace)
        throw Error("another program has just put the fact '" + fact.prompt +
                    "' on file; nothing was stored, so try again");
    facts.change(with_told(*here, fact));
    ++(told == Retold::completed ? counts.completed : counts.replaced);
}

Added put(FactsOnFile& facts, const std::vector<Fact>& read, bool replace) {
    const std::vector<Fact> on_file = facts.all();
    std::map<std::pair<std::string_view, std::string_view>, const Fact*> by_name;
    for (const Fact& fact : on_file)
        by_name[{fact.subject, fact.prompt}] = &fact;
    Added counts;
    for (const Fact& fact : read) {
        const auto here = by_name.find({fact.subject, fact.prompt});
        put(facts, here == by_name.end() ? nullptr : here->second, fact, replace, counts);
    }
    return counts;
}

void print(const Context& context, const Added& counts) {
    std::string text = counted(counts.added, "fact") + " added";
    if (counts.completed > 0)
        text += ", " + std::to_string(counts.completed) + " given a topic";
    if (counts.replaced > 0)
        text += ", " + std::to_string(counts.replaced) + " replaced";
    context.out << text << ", " << counts.unchanged << " on file already.\nNext: inkturn facts sheet\n";
}

void add(const Context& context, const Options& options) {
    const std::vector<Fact> facts = read(context, options);
    Store store = context.store_to_write();
    Store::Change change(store);
    FactsOnFile on_file(store);
    const Added counts = put(on_file, facts, options.replace);
    change.commit();
    if (options.json)
        context.out << Json{{"facts_added", counts.added},
                            {"facts_completed", counts.completed},
                            {"facts_replaced", counts.replaced},
                            {"facts_unchanged", counts.unchanged}}
                           .dump(2)
                    << '\n';
    else
        print(context, counts);
}

} // namespace

void add_facts_add(CLI::App& group, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* command = group.add_subcommand("add", "Put facts on file, from a CSV");
    command
        ->add_option("FILE", options->file,
                     "CSV with the columns prompt,answer and perhaps topic; - reads standard input")
        ->required();
    command->add_option("--subject", options->subject, "Ties them to exams, such as pure")->type_name("S");
    command->add_flag("--replace", options->replace, "Where a fact on file has another answer or topic");
    options->csv.add_to(*command);
    command->add_flag("--json", options->json, "Print JSON");
    command->footer("Example:\n  inkturn facts add derivatives.csv --subject pure");
    command->callback([options, &context] { context.run = [options, &context] { add(context, *options); }; });
}

} // namespace inkturn
