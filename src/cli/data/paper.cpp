#include "cli/data/paper.hpp"

#include "cli/commands.hpp"
#include "cli/csv_options.hpp"
#include "cli/student/paper_draw.hpp"

#include "exchange/csv/paper.hpp"
#include "exchange/json/json.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/clock/allowance.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string file;
    std::string marks;
    PaperHeadTexts head;
    CsvOptionTexts csv;
    bool with_sittings = false;
    bool yes = false;
    bool json = false;
};

/// `5,4,8`: a question each, numbered from 1.
std::vector<Part> parts_of_list(const std::string& list) {
    std::vector<Part> parts;
    for (std::size_t start = 0; start <= list.size();) {
        const std::size_t comma = std::min(list.find(',', start), list.size());
        const std::string number = std::to_string(parts.size() + 1);
        const int marks = parse_whole_number(std::string_view(list).substr(start, comma - start), 1,
                                             most_marks_of_a_part.count(), "--marks, question " + number);
        parts.push_back({number, Marks(marks), "", ""});
        start = comma + 1;
    }
    return parts;
}

std::vector<Part> parts_of_file(const Context& context, const Options& options) {
    const InputFile file(options.file, context.in);
    ProblemList problems;
    std::vector<Part> parts = read_paper_csv(file.stream(), options.csv.read(), problems);
    refuse_problems(context, file.name(), problems);
    return parts;
}

Paper paper_of(const Context& context, const Options& options) {
    if (options.file.empty() == options.marks.empty())
        throw UsageError("paper add: give either a FILE or --marks. See 'inkturn paper add --help'");
    const PaperHead head = options.head.read();
    return Paper(head,
                 options.marks.empty() ? parts_of_file(context, options) : parts_of_list(options.marks));
}

void print(const Context& context, const Paper& paper) {
    context.out << context.heading(visible(paper.id() + (paper.title().empty() ? "" : ": " + paper.title())))
                << '\n';
    std::string summary = std::to_string(paper.marks().count()) + " marks in " +
                          std::to_string(paper.parts().size()) + " parts, " + length_text(allowance(paper)) +
                          (paper.duration() ? " as stated" : " at 1.2 minutes a mark");
    if (!paper.subject().empty())
        summary += ", subject " + visible(paper.subject());
    summary += "; retried by " + std::string(name(paper.retry_by()));
    context.out << wrapped(summary, Table::full_width) << "\n\n";
    Table table({{"part"},
                 {"marks", Table::Align::right},
                 {"topic", Table::Align::left_may_be_cut},
                 {"codes", Table::Align::left_may_be_cut}});
    for (const Part& part : paper.parts())
        table.add_row({part.label, std::to_string(part.max.count()), part.topic, part.codes});
    context.out << table;
}

void add(const Context& context, const Options& options) {
    const Paper paper = paper_of(context, options);
    Store store = context.store_to_write();
    Store::Change change(store);
    store.add_paper(paper);
    change.commit();
    if (options.json) {
        context.out << json_of(paper).dump(2) << '\n';
        return;
    }
    print(context, paper);
    context.out << "\nNext: inkturn pace " << paper.id() << "\n";
}

void list(const Context& context, const Options& options) {
    const auto papers = context.store_to_read().papers();
    if (options.json) {
        context.out << json_of(papers).dump(2) << '\n';
        return;
    }
    if (papers.empty()) {
        context.out << "No papers on file. Next: inkturn paper add FILE --id ID\n";
        return;
    }
    Table table({{"paper"},
                 {"marks", Table::Align::right},
                 {"time", Table::Align::right},
                 {"sittings", Table::Align::right},
                 {"subject", Table::Align::left_may_be_cut},
                 {"title", Table::Align::left_may_be_cut}});
    for (const auto& [paper, sittings] : papers)
        table.add_row({paper->id(), std::to_string(paper->marks().count()), length_text(allowance(*paper)),
                       std::to_string(sittings), paper->subject(), paper->title()});
    context.out << table;
}

void show(const Context& context, const Options& options) {
    const auto paper = context.paper_on_file(context.store_to_read(), options.head.id);
    if (options.json)
        context.out << json_of(*paper).dump(2) << '\n';
    else
        print(context, *paper);
}

void remove(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    context.paper_on_file(store, options.head.id);
    std::size_t sittings = 0;
    for (const auto& [paper, count] : store.papers())
        if (paper->id() == options.head.id)
            sittings = count;
    const std::string hanging = std::to_string(sittings) + (sittings == 1 ? " sitting" : " sittings");
    if (sittings > 0 && !options.with_sittings)
        throw Error("paper " + options.head.id + " has " + hanging +
                    " on file; say --with-sittings to remove them and their retries with it");
    if (sittings > 0 && !options.yes &&
        !context.confirmed("Remove paper " + options.head.id + " with " + hanging +
                           " and all their retries?"))
        throw Error("nothing was removed");
    Store::Change change(store);
    store.remove_paper(options.head.id);
    change.commit();
    context.out << "Removed paper " << options.head.id << (sittings > 0 ? " with " + hanging : "") << ".\n";
}

} // namespace

void PaperHeadTexts::add_to(CLI::App& command) {
    command.add_option("--title", title, "A title for people")->type_name("T");
    command.add_option("--subject", subject, "Ties it to exams, such as pure")->type_name("S");
    command.add_option("--minutes", minutes, "The duration that the paper states (else 1.2 minutes a mark)")
        ->type_name("M");
    command.add_option("--retry-by", retry_by, "What a retry asks for (question)")
        ->type_name("question|part");
}

PaperHead PaperHeadTexts::read() const {
    PaperHead head{id, title, subject, std::nullopt, RetryBy::question};
    if (!minutes.empty())
        head.duration = std::chrono::minutes{parse_whole_number(minutes, 1, 1440, "--minutes")};
    const auto by = retry_by_named(retry_by);
    if (!by)
        throw Error("--retry-by '" + retry_by + "': say question or part");
    head.retry_by = *by;
    check_paper_id(head.id);
    return head;
}

void add_paper(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* paper = app.add_subcommand("paper", "Papers: add, read from a PDF, draw, list, show, remove");
    paper->require_subcommand(0, 1);
    paper->footer("Example:\n  inkturn paper add pure-1.csv --id pure-1 --subject pure --minutes 90");

    CLI::App* add_one =
        paper->add_subcommand("add", "Put a paper on file, from a CSV of its parts or a list of marks");
    add_one->add_option("FILE", options->file,
                        "CSV with the columns part,marks and perhaps topic,codes; - reads standard input");
    add_one->add_option("--id", options->head.id, "What to call it: lower-case letters, digits, . _ -")
        ->type_name("ID")
        ->required();
    add_one->add_option("--marks", options->marks, "Marks of questions 1, 2, 3 and on, instead of a file")
        ->type_name("5,4,8");
    options->head.add_to(*add_one);
    options->csv.add_to(*add_one);
    add_one->add_flag("--json", options->json, "Print JSON");
    add_one->footer("Example:\n  inkturn paper add pure-1.csv --id pure-1 --subject pure --minutes 90\n"
                    "  inkturn paper add --id drill-3 --marks 5,4,8");
    add_one->callback([options, &context] { context.run = [options, &context] { add(context, *options); }; });

    add_paper_read(*paper, context);
    add_paper_draw(*paper, context);

    CLI::App* list_all = paper->add_subcommand("list", "List the papers on file");
    list_all->add_flag("--json", options->json, "Print JSON");
    list_all->footer("Example:\n  inkturn paper list");
    list_all->callback(
        [options, &context] { context.run = [options, &context] { list(context, *options); }; });

    CLI::App* show_one = paper->add_subcommand("show", "Show a paper's parts");
    show_one->add_option("PAPER", options->head.id, "The paper's id")->required();
    show_one->add_flag("--json", options->json, "Print JSON");
    show_one->footer("Example:\n  inkturn paper show pure-1");
    show_one->callback(
        [options, &context] { context.run = [options, &context] { show(context, *options); }; });

    CLI::App* remove_one = paper->add_subcommand("remove", "Take a paper off file");
    remove_one->add_option("PAPER", options->head.id, "The paper's id")->required();
    remove_one->add_flag("--with-sittings", options->with_sittings, "Its sittings and their retries too");
    remove_one->add_flag("--yes", options->yes, "Don't ask");
    remove_one->footer("Example:\n  inkturn paper remove pure-1");
    remove_one->callback(
        [options, &context] { context.run = [options, &context] { remove(context, *options); }; });
}

} // namespace inkturn
