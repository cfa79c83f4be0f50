#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/sample_files.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/class/class_import.hpp"
#include "exchange/csv/boundaries.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/csv/paper.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/text.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>
#include <sstream>
#include <stdlib.h> // mkdtemp is POSIX's

namespace inkturn {
namespace {

constexpr const char* class_name = "evening";

std::string new_folder() {
    std::string folder = (std::filesystem::temp_directory_path() / "inkturn-sample-XXXXXX").string();
    if (!::mkdtemp(folder.data()))
        throw Error("making a folder for the sample failed: " + std::string(std::strerror(errno)));
    return folder;
}

CsvOptions with_commas() {
    CsvOptions options;
    options.delimiter = ',';
    return options;
}

Paper paper_from(const char* file, PaperHead head) {
    std::istringstream in(file);
    ProblemList problems;
    CsvReader rows(in, with_commas());
    return Paper(std::move(head), read_paper_rows(rows, problems));
}

void add_papers(Store::Change& change) {
    change.add_paper(paper_from(
        sample_files::paper, {"pure-a", "Pure, set A", "pure", std::chrono::minutes(90), RetryBy::question}));
    change.add_paper(paper_from(sample_files::second_paper, {"mechanics-a", "Mechanics, set A", "mechanics",
                                                             std::chrono::minutes(60), RetryBy::question}));
}

void add_class(Store::Change& change, Day today) {
    std::istringstream in(sample_files::class_marks);
    ClassImportOptions how;
    how.file.paper = "pure-a";
    how.file.date = today - Days{15};
    how.file.today = today;
    how.of_class = class_name;
    CsvReader rows(in, with_commas());
    import_class(change, rows, how);
}

void add_boundaries(Store::Change& change) {
    std::istringstream in(sample_files::boundaries);
    ProblemList problems;
    CsvReader rows(in, with_commas());
    for (const BoundarySet& set : read_boundaries_rows(rows, problems))
        BoundarySets(change).add(set);
}

void add_student(Store::Change& change, Day today) {
    const auto paper = change.store().find_paper("pure-a");
    const std::vector<Entry> entries{parse_entry("2b=1+1:slip"),        parse_entry("4b=3+0+2:recall"),
                                     parse_entry("6b=1+0+3:method"),    parse_entry("7b=4+2"),
                                     parse_entry("9bii=0+1+3:misread"), parse_entry("10b=-:unfinished")};
    change.add_sitting("me", *paper, {today - Days{16}, {}, marks_from_entries(*paper, entries, Rest::full)});
    StatedTimes times;
    times.week[5] = std::chrono::hours(2);
    change.set_times("me", times);
    change.add_exam({"Pure, paper 1", today + Days{70}, "pure"});
    keep_timetable(change, change.store().candidate("me"), today);
}

void print(const Context& context, const std::string& folder, const std::string& store) {
    context.out << context.heading("A store to play in")
                << ": Saltmarsh Evening College, its papers, its class and\n"
                << "a student, me. All of it is invented; your own store is left alone. In this\n"
                << "terminal, as typed:\n\n"
                << "  export INKTURN_STORE=" << shell_word(store) << "\n"
                << "  inkturn today\n"
                << "  inkturn retry 23q2 --full\n"
                << "  inkturn plan\n"
                << "  inkturn class standing --class " << class_name << "\n"
                << "  inkturn class retries --class " << class_name << "\n\n"
                << "To leave it:\n\n"
                << "  unset INKTURN_STORE\n"
                << "  rm -r " << shell_word(folder) << '\n';
}

void run_sample(const Context& context) {
    const std::string folder = new_folder();
    const std::string file = folder + "/store";
    const Day today = context.date_today();
    Context in_sample = context;
    in_sample.store = file;
    Store store = in_sample.store_to_write();
    Store::Change change(store);
    add_papers(change);
    add_class(change, today);
    add_boundaries(change);
    add_student(change, today);
    change.commit();
    print(context, folder, file);
}

} // namespace

void add_sample(Command& line) {
    Command sample = line.command("sample", "Make a throw-away store with an invented college to play in");
    sample.closing("Example:\n  inkturn sample");
    sample.runs(run_sample);
}

} // namespace inkturn
