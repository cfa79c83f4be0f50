#include "cli/data/paper.hpp"

#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/csv_options.hpp"
#include "cli/student/paper_draw.hpp"
#include "cli/subjects.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/csv/paper.hpp"
#include "exchange/json/paper.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct PaperOptions {
    std::string file;
    std::string marks;
    PaperHeadTexts head;
    CsvOptionTexts csv;
    bool keep_unseen = false;
    bool with_sittings = false;
    bool yes = false;
};

/// `5,4,8`: one question per mark, numbered from 1.
std::vector<Part> parts_of_list(const std::string& list) {
    std::vector<Part> parts;
    for (std::size_t start = 0; start <= list.size();) {
        const std::size_t comma = std::min(list.find(',', start), list.size());
        const std::string number = std::to_string(parts.size() + 1);
        const int marks = parse_whole_number(std::string_view(list).substr(start, comma - start), 1,
                                             max_part_marks.count(), "--marks, question " + number);
        parts.push_back({number, Marks(marks), "", ""});
        start = comma + 1;
    }
    return parts;
}

std::vector<Part> parts_of_file(const Context& context, const PaperOptions& options) {
    const InputFile file(options.file, context);
    ProblemList problems;
    std::vector<Part> parts = read_paper_rows(*options.csv.rows_of(file), problems);
    refuse_problems(context, file.name(), problems);
    return parts;
}

Paper paper_of(const Context& context, const PaperOptions& options) {
    if (options.file.empty() == options.marks.empty())
        throw UsageError("give either a FILE or --marks");
    const PaperHead head = options.head.read();
    return Paper(head,
                 options.marks.empty() ? parts_of_file(context, options) : parts_of_list(options.marks));
}

/// What the shares got at mean; empty if none is stated.
std::string got_at_text(const Paper& paper, bool any_own) {
    if (!any_own && !paper.got_at())
        return "";
    const std::string share = any_own ? "the share under 'got at'" : to_text(*paper.got_at());
    return '\n' +
           wrapped("A part is missed only below " + share +
                       " of its marks, in time and overtime together: at that share it makes no retry, "
                       "and a retry has got it.",
                   text_width()) +
           '\n';
}

/// How many of which questions count; empty without a choice.
std::string choices_text(const Paper& paper) {
    std::string text;
    for (const ChoiceOfQuestions& choice : paper.choices()) {
        std::string questions;
        for (const Question& question : choice.questions)
            questions += (questions.empty() ? "" : ", ") + question.label;
        text += '\n' +
                wrapped("Choice " + visible(choice.choice.group) + ": any " +
                            std::to_string(choice.choice.count) + " of " + "questions " + questions +
                            ", of " + counted_marks(choice.questions.front().marks) +
                            " each. If more are tried, the best count; the others are treated as not set.",
                        text_width()) +
                '\n';
    }
    return text;
}

void print(const Context& context, const Paper& paper) {
    context.out << context.heading(visible(paper.id() + (paper.title().empty() ? "" : ": " + paper.title())))
                << '\n';
    std::string summary = count_text(static_cast<std::size_t>(paper.marks().count()), "mark") + " in " +
                          count_text(paper.parts().size(), "part") + ", " + length_text(allowance(paper)) +
                          (paper.duration() ? " as stated" : " at 1.2 minutes a mark");
    if (!paper.subject().empty())
        summary += ", subject " + visible(paper.subject());
    if (!paper.component().empty())
        summary += ", component " + visible(paper.component());
    summary += "; retried by " + std::string(name(paper.retry_by()));
    context.out << wrapped(summary, text_width()) << "\n\n";
    const bool any_own_got_at = std::any_of(paper.parts().begin(), paper.parts().end(),
                                            [](const Part& part) { return part.got_at.has_value(); });
    std::vector<Table::Column> columns{{"part"}, {"marks", Table::Align::right}};
    if (any_own_got_at)
        columns.push_back({"got at", Table::Align::right});
    if (!paper.choices().empty())
        columns.push_back({"choice"});
    columns.push_back({"topic", Table::Align::left_may_be_cut, true});
    columns.push_back({"codes", Table::Align::left_may_be_cut, true});
    Table table(std::move(columns));
    for (const Part& part : paper.parts()) {
        std::vector<std::string> row{part.label, std::to_string(part.max.count())};
        if (any_own_got_at)
            row.push_back(to_text(got_at(paper, part)));
        if (!paper.choices().empty())
            row.push_back(part.choice ? visible(part.choice->group) : "");
        row.push_back(part.topic);
        row.push_back(part.codes);
        table.add_row(std::move(row));
    }
    context.out << table << choices_text(paper) << got_at_text(paper, any_own_got_at);
}

void add(const Context& context, const PaperOptions& options) {
    const Paper typed = paper_of(context, options);
    Store store = context.store_to_write();
    question_new_subject(context, store, typed.subject());
    const Paper paper = with_listed_topics(context, store, typed);
    check_component_on_file(store, paper);
    context.question_duration(paper);
    Store::Change change(store);
    change.add_paper(paper);
    QuestionBank(change).set_added(paper.id(), context.date_today());
    if (options.keep_unseen)
        QuestionBank(change).set_kept_unseen(paper.id(), true);
    change.commit();
    context.answer([&] { return json_of(paper); },
                   [&] {
                       print(context, paper);
                       context.out << "\nNext: inkturn pace " << paper.id() << "\n";
                   });
}

void print_papers(const Context& context, const std::vector<PaperOnFile>& papers,
                  const std::set<std::string>& kept_unseen) {
    if (papers.empty()) {
        context.out << "No papers on file. Next: inkturn paper add FILE --id ID\n";
        return;
    }
    Table table({{"paper"},
                 {"marks", Table::Align::right},
                 {"time", Table::Align::right},
                 {"sittings", Table::Align::right},
                 {"subject", Table::Align::left_may_be_cut},
                 {"kept", Table::Align::left, true},
                 {"title", Table::Align::left_may_be_cut}});
    for (const auto& [paper, sittings] : papers)
        table.add_row({paper->id(), std::to_string(paper->marks().count()), length_text(allowance(*paper)),
                       std::to_string(sittings), paper->subject(),
                       kept_unseen.count(paper->id()) == 0 ? ""
                       : sittings == 0                     ? "unseen"
                                                           : "unseen, but sat",
                       paper->title()});
    context.out << table;
}

void list_papers(const Context& context) {
    const Store store = context.store_to_read();
    const auto papers = store.papers_and_sittings();
    const std::set<std::string> kept_unseen = QuestionBank::kept_unseen(store);
    context.answer([&] { return json_of(papers, kept_unseen); },
                   [&] { print_papers(context, papers, kept_unseen); });
}

/// What is kept of classes that were closed, a table each.
void print_closed(const Context& context, const std::vector<ClosedClassFigures>& closed) {
    for (const ClosedClassFigures& figures : closed) {
        context.out << '\n'
                    << context.heading("Class " + visible(figures.of_class) + ", closed on " +
                                       day_text(figures.day))
                    << '\n';
        Table table({{"part"},
                     {"marks", Table::Align::right},
                     {"candidates", Table::Align::right},
                     {"facility", Table::Align::right},
                     {"in time", Table::Align::right}});
        for (const PartFigures& part : figures.parts)
            table.add_row({part.part, std::to_string(part.max.count()), std::to_string(part.candidates),
                           decimal(part.facility(), 2),
                           decimal(static_cast<double>(part.in_time.count()) /
                                       (static_cast<double>(part.candidates) * part.max.count()),
                                   2)});
        context.out << table;
    }
    if (!closed.empty())
        context.out << text_line("Facility: the share of the marks earned unaided; in time: within the "
                                 "allowance. The candidates are no longer on file.");
}

void show(const Context& context, const PaperOptions& options) {
    const Store store = context.store_to_read();
    const auto paper = Context::paper_on_file(store, options.head.id);
    const bool is_kept = QuestionBank::kept_unseen(store).count(paper->id()) > 0;
    const std::vector<ClosedClassFigures> closed = ClosedClasses::of(store, paper->id());
    context.answer([&] { return json_of(*paper, closed, is_kept); },
                   [&] {
                       print(context, *paper);
                       if (is_kept)
                           context.out << '\n'
                                       << text_line("It is kept unseen, for a mock: nothing is drawn from "
                                                    "it, and no plan has it sat.");
                       print_closed(context, closed);
                   });
}

void remove(const Context& context, const PaperOptions& options) {
    const std::string& id = options.head.id;
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    Context::paper_by_whole_id(store, id);
    std::size_t sittings = 0;
    for (const auto& [paper, count] : store.papers_and_sittings())
        if (paper->id() == id)
            sittings = count;
    if (sittings > 0 && !options.with_sittings)
        throw Error("paper " + id + " has " + count_text(sittings, "sitting") +
                    " on file; use --with-sittings to remove them and their retries too");
    const std::string going = with_what_goes(
        records_if(store, [&](Store::Change& tried) { tried.remove_paper(id); }), {"paper", "part"});
    if (sittings > 0 && !options.yes &&
        !context.confirmed("Remove paper " + id + going + ", and all their retries?"))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    change.remove_paper(id);
    change.commit();
    context.out << text_line("Removed paper " + id + going + ".");
}

} // namespace

void check_component_on_file(const Store& store, const Paper& paper) {
    check_component(paper, AwardsOnFile::all(store));
}

void PaperHeadTexts::add_to(Command& command) {
    command.option("--title", title, "T", "The paper's title");
    command.option("--subject", subject, "S", "Its subject, such as pure, which links it to exams");
    command.option("--component", component, "NAME",
                   "The component of an award on file that it is a paper of");
    command.option("--minutes", minutes, "M", "The duration stated on the paper (else 1.2 minutes a mark)");
    command.option("--retry-by", retry_by, "question|part", "What a retry covers (question)");
    command.option("--got-at", got_at, "P%",
                   "The share of its marks from which a part is got, for papers marked by levels (100%)");
}

PaperHead PaperHeadTexts::read() const {
    PaperHead head{id, title, subject, std::nullopt, RetryBy::question, std::nullopt, component};
    if (!minutes.empty())
        head.duration = std::chrono::minutes{parse_whole_number(minutes, 1, 1440, "--minutes")};
    const auto by = retry_by_named(retry_by);
    if (!by)
        throw Error("--retry-by '" + retry_by + "': use question or part");
    head.retry_by = *by;
    if (!got_at.empty())
        head.got_at = parse_got_at(got_at);
    check_paper_id(head.id);
    return head;
}

void add_paper(Command& line) {
    auto options = std::make_shared<PaperOptions>();
    Command paper = line.group("paper", "Papers: add, read from a PDF, draw, list, show, amend, remove");
    paper.closing("Example:\n  inkturn paper add pure-1.csv --id pure-1 --subject pure --minutes 90");

    Command add_one = paper.command("add", "Add a paper, from a file of its parts or a list of marks");
    add_one.argument("FILE", options->file,
                     "CSV, .xlsx or .ods with the columns part,marks and optionally "
                     "topic,codes,got_at,choice; - reads standard input");
    add_one.option("--id", options->head.id, "ID", "The id to give it: lower-case letters, digits, . _ -")
        .required();
    add_one.option("--marks", options->marks, "5,4,8",
                   "The marks of questions 1, 2, 3 and so on, instead of a file");
    options->head.add_to(add_one);
    add_one.flag("--keep-unseen", options->keep_unseen,
                 "Keep it for a mock: draw nothing from it, and have no plan sit it");
    options->csv.add_to(add_one);
    add_one.json();
    add_one.closing("Examples:\n  inkturn paper add pure-1.csv --id pure-1 --subject pure --minutes 90\n"
                    "  inkturn paper add --id drill-3 --marks 5,4,8");
    add_one.runs(options, add);

    add_paper_read(paper);
    add_paper_draw(paper);

    Command list_all = paper.command("list", "List the papers on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn paper list");
    list_all.runs(list_papers);

    Command show_one = paper.command("show", "Show a paper's parts");
    show_one.argument("PAPER", options->head.id, "The paper's id").required();
    show_one.json();
    show_one.closing("Example:\n  inkturn paper show pure-1");
    show_one.runs(options, show);

    add_paper_amend(paper);

    Command remove_one = paper.command("remove", "Remove a paper");
    remove_one.argument("PAPER", options->head.id, "The paper's id").required();
    remove_one.flag("--with-sittings", options->with_sittings, "Remove its sittings and their retries too");
    remove_one.flag("--yes", options->yes, "Don't ask");
    remove_one.closing("Example:\n  inkturn paper remove pure-1");
    remove_one.runs(options, remove);
}

} // namespace inkturn
