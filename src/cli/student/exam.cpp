#include "cli/commands.hpp"

#include "exchange/json/json.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string title;
    std::string on;
    std::string subject;
    std::string exam;
    bool json = false;
};

void print(const Context& context, const std::vector<ExamOnFile>& exams) {
    if (exams.empty()) {
        context.out << "No exams on file. Next: inkturn exam add TITLE --on D\n";
        return;
    }
    Table table({{"exam", Table::Align::right},
                 {"date"},
                 {"subject", Table::Align::left_may_be_cut},
                 {"title", Table::Align::left_may_be_cut}});
    for (const auto& [id, exam] : exams)
        table.add_row({std::to_string(static_cast<std::int64_t>(id)), spoken(exam.day),
                       exam.subject.empty() ? "all" : exam.subject, exam.title});
    context.out << table << "\nNext: inkturn plan\n";
}

void show(const Context& context, const Options& options, const Store& store) {
    if (options.json)
        context.out << json_of(store.exams()).dump(2) << '\n';
    else
        print(context, store.exams());
}

void add(const Context& context, const Options& options) {
    const Exam exam{options.title, context.date_of(options.on), options.subject};
    check_exam(exam, context.date_today());
    Store store = context.store_to_write();
    Store::Change change(store);
    check_is_new(store.exams(), exam);
    store.add_exam(exam);
    change.commit();
    show(context, options, store);
}

ExamOnFile exam_on_file(const Store& store, const Options& options) {
    const ExamId id{parse_whole_number(options.exam, 1, 2'000'000'000, "exam")};
    for (ExamOnFile& exam : store.exams())
        if (exam.id == id)
            return std::move(exam);
    throw Error("no exam " + options.exam + " on file; 'inkturn exam list' shows those that are");
}

void move(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    ExamOnFile exam = exam_on_file(store, options);
    exam.exam.day = context.date_of(options.on);
    check_exam(exam.exam, context.date_today());
    store.move_exam(exam.id, exam.exam.day);
    change.commit();
    show(context, options, store);
}

void remove(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    store.remove_exam(exam_on_file(store, options).id);
    change.commit();
    show(context, options, store);
}

} // namespace

void add_exam(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* exam =
        app.add_subcommand("exam", "Exams, which end the retries of their subject: add, list, move, remove");
    exam->require_subcommand(0, 1);
    exam->footer("Example:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure");

    CLI::App* add_one = exam->add_subcommand("add", "Put an exam on file, for all candidates of this store");
    add_one->add_option("TITLE", options->title, "What it is")->required();
    add_one->add_option("--on", options->on, "Its day")->type_name("D")->required();
    add_one->add_option("--subject", options->subject, "The subject of the papers it concerns (all)")
        ->type_name("S");
    add_one->add_flag("--json", options->json, "Print JSON");
    add_one->footer("Example:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure");
    add_one->callback([options, &context] { context.run = [options, &context] { add(context, *options); }; });

    CLI::App* list_all = exam->add_subcommand("list", "List the exams on file");
    list_all->add_flag("--json", options->json, "Print JSON");
    list_all->footer("Example:\n  inkturn exam list");
    list_all->callback([options, &context] {
        context.run = [options, &context] { show(context, *options, context.store_to_read()); };
    });

    CLI::App* move_one = exam->add_subcommand("move", "Give an exam on file another day");
    move_one->add_option("EXAM", options->exam, "Its number in the list")->required();
    move_one->add_option("--on", options->on, "Its new day")->type_name("D")->required();
    move_one->add_flag("--json", options->json, "Print JSON");
    move_one->footer("Example:\n  inkturn exam move 2 --on 2027-06-09");
    move_one->callback(
        [options, &context] { context.run = [options, &context] { move(context, *options); }; });

    CLI::App* remove_one = exam->add_subcommand("remove", "Take an exam off file");
    remove_one->add_option("EXAM", options->exam, "Its number in the list")->required();
    remove_one->add_flag("--json", options->json, "Print JSON");
    remove_one->footer("Example:\n  inkturn exam remove 2");
    remove_one->callback(
        [options, &context] { context.run = [options, &context] { remove(context, *options); }; });
}

} // namespace inkturn
