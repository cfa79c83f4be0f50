#include "cli/class/class.hpp"
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
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct ExamOptions {
    std::string title;
    std::string on;
    std::string subject;
    std::string exam;
    std::string of_class;
    bool mock = false;
};

std::string number_of(ExamId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

/// A line for each exam of a class that counts for its members in place of one for everybody.
std::string stand_in_lines(const std::vector<ExamOnFile>& exams) {
    std::string lines;
    for (const auto& [id, exam] : exams)
        for (const auto& [other_id, other] : exams)
            if (stands_in_for(exam, other))
                lines += text_line("For class " + visible(exam.of_class) + ", exam " + number_of(id) +
                                   " stands in place of exam " + number_of(other_id) +
                                   ", which has the same title and subject.");
    return lines;
}

/// Before it changes: keeps the days passed of those whose retries it may move. Of one for everybody returns
/// what that changed of the reader's own.
std::vector<PlanChange> keep_days_before(Store::Change& change, const Context& context,
                                         const std::string& of_class) {
    const Day today = context.date_today();
    if (of_class.empty())
        return keep_days_passed(change, context.candidate_code(), today);
    keep_days_passed(change, change.store().members(of_class), today);
    return {};
}

void print(const Context& context, const std::vector<ExamOnFile>& exams,
           const std::vector<PlanChange>& moved) {
    if (exams.empty()) {
        context.out << changes_text(moved) << "No exams on file. " << context.next("exam add TITLE --on D");
        return;
    }
    const bool any_mock =
        std::any_of(exams.begin(), exams.end(), [](const ExamOnFile& one) { return one.exam.mock; });
    std::vector<Table::Column> columns{{"exam", Table::Align::right}, {"date"}};
    if (any_mock)
        columns.push_back({"mock"});
    columns.push_back({"subject", Table::Align::left_may_be_cut});
    columns.push_back({"class", Table::Align::left_may_be_cut, true});
    columns.push_back({"title", Table::Align::left_may_be_cut});
    Table table(std::move(columns));
    for (const auto& [id, exam] : exams) {
        std::vector<std::string> row{number_of(id), day_text(exam.day)};
        if (any_mock)
            row.push_back(exam.mock ? "mock" : "");
        row.push_back(exam.subject.empty() ? "all" : exam.subject);
        row.push_back(exam.of_class);
        row.push_back(exam.title);
        table.add_row(std::move(row));
    }
    context.out << table << '\n' << stand_in_lines(exams) << changes_text(moved) << context.next("plan");
}

void show_exams(const Context& context, const Store& store, const std::vector<PlanChange>& moved = {}) {
    context.answer([&] { return json_of(store.exams()); }, [&] { print(context, store.exams(), moved); });
}

void add(const Context& context, const ExamOptions& options) {
    const Exam exam{options.title, context.date_of_exam(options.on), options.subject, options.mock,
                    options.of_class};
    check_exam(exam, context.date_today());
    Store store = context.store_to_write();
    question_new_subject(context, store, exam.subject);
    Store::Change change(store);
    check_is_new(store.exams(), exam);
    const auto moved = keep_days_before(change, context, exam.of_class);
    change.add_exam(exam);
    change.commit();
    show_exams(context, store, moved);
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
    exam.exam.day = context.date_of_exam(options.on);
    check_exam(exam.exam, context.date_today());
    const auto moved = keep_days_before(change, context, exam.exam.of_class);
    change.move_exam(exam.id, exam.exam.day);
    change.commit();
    if (!context.json)
        context.out << text_line("Moved " + visible(exam.exam.title) + ": " + day_text(was) + " -> " +
                                 day_text(exam.exam.day) + ".")
                    << '\n';
    show_exams(context, store, moved);
}

void remove(const Context& context, const ExamOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const ExamOnFile exam = exam_on_file(store, options);
    const auto moved = keep_days_before(change, context, exam.exam.of_class);
    change.remove_exam(exam.id);
    change.commit();
    if (!context.json)
        context.out << text_line("Removed " + visible(exam.exam.title) + " on " + day_text(exam.exam.day) +
                                 ".")
                    << '\n';
    show_exams(context, store, moved);
}

} // namespace

void add_exam(Command& line) {
    auto options = std::make_shared<ExamOptions>();
    Command exam = line.group("exam", "Exams, which end their subject's retries: add, list, move, remove");
    exam.closing("Example:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure");

    Command add_one = exam.command("add", "Add an exam, for everybody or for a class");
    add_one.argument("TITLE", options->title, "Its title").required();
    add_one.option("--on", options->on, "D", "Its day").required();
    add_one.option("--subject", options->subject, "S", "Its subject (all)");
    add_class_option(add_one, options->of_class, "Only for the members of this class (everybody)");
    add_one.flag("--mock", options->mock, "A mock, which ends no subject's retries");
    add_one.json();
    add_one.closing("Examples:\n  inkturn exam add 'Pure, paper 1' --on 2027-06-02 --subject pure\n"
                    "  inkturn exam add 'Pure mock' --on 2027-01-13 --subject pure --mock\n"
                    "  inkturn exam add 'End of year' --on 2027-05-10 --subject pure --class 12A\n"
                    "An exam of a class touches no other candidate. For its members it stands in place of\n"
                    "one for everybody of the same title and subject within 90 days; all others count too.");
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
