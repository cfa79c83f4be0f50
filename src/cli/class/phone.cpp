#include "cli/student/phone.hpp"
#include "cli/class/class.hpp"
#include "cli/output_folder.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/error.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ClassPhoneOptions {
    std::string of_class;
    std::string from;
    std::string folder;
    bool force = false;
};

/// What was written for one candidate.
struct PageWritten {
    std::string code;
    std::size_t retries;
    std::size_t bytes;
};

std::vector<PageWritten> write_weeks(const Context& context, const ClassPhoneOptions& options,
                                     const Store& store, const std::vector<std::string>& codes,
                                     DaySpan week) {
    const PageFolder folder(context, options.folder, options.force, codes);
    PicturesOnFile pictures(store);
    std::vector<PageWritten> written;
    ProgressLine progress(context.err, "inkturn: pages", std::nullopt, context.quiet);
    for (const std::string& code : codes) {
        progress.show_piece("candidate", written.size() + 1, codes.size());
        const PhonePage page = phone_page(store, pictures, store.candidate(code), week, context.date_today());
        const std::string html = to_html(page);
        folder.write(code, html);
        written.push_back({code, page.items.size(), html.size()});
    }
    return written;
}

void run(const Context& context, const ClassPhoneOptions& options) {
    const Store store = context.store_to_read();
    const DaySpan week = phone_week(context, options.from);
    const std::vector<std::string> codes = codes_of(store, options.of_class);
    if (codes.empty())
        throw Error("no candidates on file: there is nobody to write a page for");
    const std::vector<PageWritten> pages = write_weeks(context, options, store, codes, week);
    context.out << context.heading("Wrote " + count_text(pages.size(), "page") + ", " + day_text(week))
                << "\n\n";
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"retries", Table::Align::right},
                 {"size", Table::Align::right},
                 {"file"}});
    for (const PageWritten& page : pages)
        table.add_row(
            {page.code, std::to_string(page.retries), size_text(page.bytes), page_file_name(page.code)});
    context.out << table << '\n'
                << text_line("Send each candidate their own page and no other, then delete the folder: "
                             "pupils' marks are personal data.")
                << "Next, when their lines come back: inkturn class retried FILE"
                << class_words(options.of_class) << '\n';
}

} // namespace

void add_class_phone(Command& group) {
    auto options = std::make_shared<ClassPhoneOptions>();
    Command phone = group.command("phone", "Each candidate's week as a page for a phone, in a folder");
    add_class_option(phone, options->of_class, "Only this class (all on file)");
    phone.option("--from", options->from, "D", "First of the seven days (today)");
    phone.option("-o,--output", options->folder, "FOLDER", "The folder to write the pages to").required();
    phone.flag("--force", options->force, "Overwrite files that were changed since");
    phone.closing("Examples:\n  inkturn class phone --class tuesday -o pages\n"
                  "  inkturn class retried lines.txt --class tuesday\n"
                  "A file of lines may hold the words of a message around them.");
    phone.runs(options, run);
}

} // namespace inkturn
