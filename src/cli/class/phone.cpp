#include "cli/student/phone.hpp"
#include "cli/class/class.hpp"
#include "cli/output_file.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/retry/returned_line.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>

namespace inkturn {
namespace {

struct ClassPhoneOptions {
    std::string of_class;
    std::string from;
    std::string folder;
    bool force = false;
};

/// Names of files for codes, whatever they hold, and on systems that don't tell capitals apart.
class FileNames {
  public:
    std::string of(const std::string& code) {
        constexpr std::size_t max_length = 180;
        std::string name = "week-" + start_of_line(code).substr(line_begins.size(), max_length);
        if (const int count = ++counts_[lower_case(name)]; count > 1)
            name += "-" + std::to_string(count);
        return name + ".html";
    }

  private:
    std::map<std::string, int> counts_;
};

/// Makes it if it isn't there; only its owner may look into it then.
void make_folder(const std::string& folder) {
    namespace fs = std::filesystem;
    std::error_code failure;
    if (fs::is_directory(folder, failure))
        return;
    if (fs::exists(folder, failure))
        throw Error("'" + folder + "' is no folder: name one for the pages");
    if (!fs::create_directory(folder, failure))
        throw Error("the folder '" + folder + "' can't be made: " + failure.message());
    fs::permissions(folder, fs::perms::owner_all, failure);
}

/// What was written for one candidate.
struct PageWritten {
    std::string code;
    std::size_t retries;
    std::size_t bytes;
    std::string name;
};

std::vector<PageWritten> write_pages(const Context& context, const ClassPhoneOptions& options,
                                     const Store& store, const std::vector<std::string>& codes,
                                     DaySpan week) {
    PicturesOnFile pictures(store);
    FileNames names;
    std::vector<PageWritten> written;
    ProgressLine progress(context.err, "inkturn: pages", std::nullopt, context.quiet);
    for (const std::string& code : codes) {
        progress.show_piece("candidate", written.size() + 1, codes.size());
        const PhonePage page = phone_page(store, pictures, store.candidate(code), week, context.date_today());
        const std::string html = to_html(page);
        const std::string name = names.of(code);
        write_output(context, {options.folder + "/" + name, options.force}, html, OwnMark::html);
        written.push_back({code, page.items.size(), html.size(), name});
    }
    return written;
}

void run(const Context& context, const ClassPhoneOptions& options) {
    const Store store = context.store_to_read();
    const DaySpan week = phone_week(context, options.from);
    const std::vector<std::string> codes = codes_of(store, options.of_class);
    if (codes.empty())
        throw Error("no candidates on file: there is nobody to write a page for");
    make_folder(options.folder);
    const std::vector<PageWritten> pages = write_pages(context, options, store, codes, week);
    context.out << context.heading("Wrote " + count_text(pages.size(), "page") + ", " + day_text(week))
                << "\n\n";
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"retries", Table::Align::right},
                 {"size", Table::Align::right},
                 {"file"}});
    for (const PageWritten& page : pages)
        table.add_row({page.code, std::to_string(page.retries), megabytes_text(page.bytes), page.name});
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
    phone.closing("Example:\n  inkturn class phone --class tuesday -o pages\n"
                  "  inkturn class retried lines.txt --class tuesday\n"
                  "A file of lines may hold the words of a message around them.");
    phone.runs(options, run);
}

} // namespace inkturn
