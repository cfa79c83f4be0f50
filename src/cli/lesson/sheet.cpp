#include "cli/lesson/lesson.hpp"

#include "cli/output_file.hpp"
#include "cli/student/papers_to_sit.hpp"
#include "exchange/json/lesson.hpp"
#include "inkturn/lesson/run_sheet.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/question_bank.hpp"
#include "inkturn/store/reading.hpp"
#include "view/page/run_sheet.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/lesson.hpp"
#include "view/text/run_sheet.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct SheetOptions {
    std::string id;
    OutputOptions output;
};

RunSheet sheet_on_file(const Context& context, const Store& store, const Lesson& lesson) {
    const Reading whole(store);
    const Day today = context.date_today();
    const PapersOfPlans plans(store);
    std::vector<WhoComes> come;
    for (const std::string& code : on_run_sheet(lesson)) {
        Candidate candidate = store.candidate(code);
        std::set<std::string> to_sit = plans.to_sit(candidate, today);
        come.push_back({std::move(candidate), Desk::scripts(store, code), std::move(to_sit)});
    }
    return run_sheet(lesson, come, store.papers(), DrawnPapers::copies(store),
                     QuestionBank::kept_unseen(store), today);
}

void run(const Context& context, const SheetOptions& options) {
    const Store store = context.store_to_read();
    const Lesson lesson = lesson_on_file(store, options.id);
    const RunSheet sheet = sheet_on_file(context, store, lesson);
    if (!options.output.file.empty()) {
        use_paper_size(context);
        write_output(context, options.output, to_html(sheet), OwnMark::html);
        if (options.output.file != "-")
            context.out << "Wrote the run sheet of lesson " << lesson.id
                        << ".\nNext: open the file in a browser and print it on " << sheet_size_text()
                        << '\n';
        return;
    }
    context.answer([&] { return json_of(sheet); },
                   [&] {
                       context.out << context.heading("Lesson " + lesson.id) << ": "
                                   << wrapped(what_and_when(lesson), text_width() - 9 - lesson.id.size(), 2)
                                   << '\n'
                                   << screen_text(sheet) << "\nNext: inkturn lesson sheet " << lesson.id
                                   << " -o sheet.html\n";
                   });
}

} // namespace

void add_lesson_sheet(Command& group) {
    auto options = std::make_shared<SheetOptions>();
    Command sheet = group.command("sheet", "What to do in a lesson, and what each should bring");
    sheet.argument("ID", options->id, "The lesson").required();
    options->output.add_to(sheet, "Write a page to print");
    sheet.json();
    sheet.closing("Example:\n  inkturn lesson sheet vectors-1 -o sheet.html");
    sheet.runs(options, run);
}

} // namespace inkturn
