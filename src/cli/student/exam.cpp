#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/exam.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct ExamOptions {
    std::string title;
    std::string on;
    std::string subject;
    std::string exam;
    bool mock = false;
};

void print(const Context& context, const std::vector<ExamOnFile>& exams) {
    if (exams.empty()) {
        context.out << "No exams on file. Next: inkturn exam add TITLE --on D\n";
        return;
    }
    const bool any_mock =
        std::any_of(exams.begin(), exams.end(), [](const ExamOnFile& one) { return one.exam.mock; });
    std::vector<Table::Column> columns{{"exam", Table::Align::right}, {"date"}};
    if (any_mock)
        columns.push_back({"mock"});
    columns.push_back({"subject", Table::Align::left_may_be_cut});
    columns.push_back({"title", Table::Align::left_may_be_cut});
    Table table(std::move(columns));
    for (const auto& [id, exam] : exams) {
        std::vector<std::string> row{std::to_string(static_cast<std::int64_t>(id)), day_text(exam.day)};
        if (any_mock)
            row.push_back(exam.mock ? "mock" : "");
        row.push_back(exam.subject.empty() ? "all" : exam.subject);
        row.push_back(exam.title);
        table.add_row(std::move(row));
    }
    context.out << table << "\nNext: inkturn plan\n";
}

void show_exams(const Context& context, const Store& store) {
    context.answer([&] { return json_of(store.exams()); }, [&] { print(context, store.exams()); });
}

void add(const Context& context, const ExamOptions& options) {
    const Exam exam{options.title, context.date_of(options.on), options.subject, options.mock};
    check_exam(exam, context.date_today());
    Store store = context.store_to_write();
    question_new_subject(context, store, exam.subject);
    Store::Change change(store);
    check_is_new(store.exams(), exam);
    keep_days_passed(change, context.candidate_code(), context.date_today());
    change.add_exam(exam);
    change.commit();
    show_exams(context, store);
}

ExamOnFile exam_on_file(const Store& store, const ExamOptions& options) {
    const ExamId id{parse_whole_number(options.exam, 1, 2'000'000'000, "exam")};
    for (ExamOnFile& exam : store.exams())
        if (exam.id == id)
            return std::move(exam);
    throw Error("no exam " + options.exam + " on file; 'inkturn exam list' lists the exams");
}

void move(const Context& context, const ExamOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    ExamOnFile exam = exam_on_file(store, options);
    const Day was = exam.exam.day;
    exam.exam.day = context.date_of(options.on);
    check_exam(exam.exam, context.date_today());
    keep_days_passed(change, context.candidate_code(), context.date_today());
    change.move_exam(exam.id, exam.exam.day);
    change.commit();
    if (!context.json)
        context.out << text_line("Moved " + visible(exam.exam.title) + ": " + day_text(was) + " -> " +
                                 day_text(exam.exam.day) + ".")
                    << '\n';
    show_exams(context, store);
}

void remove(const Context& context, const ExamOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    keep_days_passed(change, context.candidate_code(), context.date_today());
    const ExamOnFile exam = exam_on_file(store, options);
    change.remove_exam(exam.id);
    change.commit();
    if (!context.json)
        context.out << text_line("Removed " + visible(exam.exam.title) + " on " + day_text(exam.exam.day) +
                                 ".")
                    << '\n';
    show_exams(context, store);
}

} // namespace

void add_exam(Command& line) {
    auto options = std::make_shared<ExamOptions>();
    Command exam = line.group("exam", "Exams, which end their subject's retries: add, list, move, remove");
    exam.closing("Example:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure");

    Command add_one = exam.command("add", "Add an exam, for all candidates in this store");
    add_one.argument("TITLE", options->title, "Its title").required();
    add_one.option("--on", options->on, "D", "Its day").required();
    add_one.option("--subject", options->subject, "S", "Its subject (all)");
    add_one.flag("--mock", options->mock, "A mock, which ends no subject's retries");
    add_one.json();
    add_one.closing("Example:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure\n"
                    "  inkturn exam add 'Pure mock' --on 2027-01-13 --subject pure --mock");
    add_one.runs(options, add);

    Command list_all = exam.command("list", "List the exams on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn exam list");
    list_all.runs([](const Context& context) { show_exams(context, context.store_to_read()); });

    Command move_one = exam.command("move", "Move an exam to another day");
    move_one.argument("EXAM", options->exam, "Its number in the list").required();
    move_one.option("--on", options->on, "D", "Its new day").required();
    move_one.json();
    move_one.closing("Example:\n  inkturn exam move 2 --on 2027-06-09");
    move_one.runs(options, move);

    Command remove_one = exam.command("remove", "Remove an exam");
    remove_one.argument("EXAM", options->exam, "Its number in the list").required();
    remove_one.json();
    remove_one.closing("Example:\n  inkturn exam remove 2");
    remove_one.runs(options, remove);
}

} // namespace inkturn
