#include "cli/class/class.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/output_file.hpp"

#include "exchange/csv/mark_book.hpp"
#include "exchange/json/mark_book.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/reading.hpp"
#include "view/text/mark_book.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>
#include <sstream>

namespace inkturn {
namespace {

constexpr std::size_t rows_at_first = 32; ///< a class
constexpr std::size_t papers_at_first = 4;

struct ClassMarksOptions {
    std::vector<std::string> papers;
    std::string of_class;
    std::string set;
    std::string by;
    OutputOptions output;
    bool csv = false;
    bool all = false;
};

BookOrder order_of(const ClassMarksOptions& options) {
    if (options.by.empty() || options.by == "code")
        return BookOrder::code;
    if (options.by == "mark")
        return BookOrder::mark;
    throw Error("--by '" + options.by + "': use code or mark");
}

PaperInBook in_book(const Store& store, std::shared_ptr<const Paper> paper, const std::string& of_class) {
    auto sittings = one_each(*paper, store.sittings_of(*paper, class_named(of_class)), WhichSitting::latest);
    return {std::move(paper), std::move(sittings)};
}

/// Those named, or all of the class's; without a class all that somebody sat.
std::vector<PaperInBook> papers_of(const Store& store, const ClassMarksOptions& options) {
    std::vector<PaperInBook> papers;
    std::set<std::string> ids;
    for (const std::string& id : options.papers) {
        auto paper = Context::paper_on_file(store, id);
        if (!ids.insert(paper->id()).second)
            throw Error("paper " + paper->id() + " is named twice");
        papers.push_back(in_book(store, std::move(paper), options.of_class));
    }
    if (!papers.empty())
        return papers;
    const PaperIds of_its_papers =
        options.of_class.empty() ? PaperIds{} : PapersOnFile::of_class(store, options.of_class);
    for (auto& paper : store.papers())
        if (!options.of_class.empty() && of_its_papers.count(paper->id()) == 0)
            continue;
        else if (PaperInBook one = in_book(store, std::move(paper), options.of_class); !one.sittings.empty())
            papers.push_back(std::move(one));
    return papers;
}

/// The members of the class; without one, those who sat any of the papers.
std::vector<std::string> rows_of(const Store& store, const ClassMarksOptions& options,
                                 const std::vector<PaperInBook>& papers) {
    if (!options.of_class.empty())
        return store.members(options.of_class);
    std::set<std::string> codes;
    for (const PaperInBook& paper : papers)
        for (const SittingOfPaper& sitting : paper.sittings)
            codes.insert(sitting.candidate);
    return {codes.begin(), codes.end()};
}

/// The set of this name that fits most of the papers.
std::optional<BoundarySet> set_for(Store& store, const std::string& name,
                                   const std::vector<PaperInBook>& papers) {
    if (name.empty())
        return std::nullopt;
    std::vector<BoundarySet> named;
    for (BoundarySet& set : sets_on_file(store))
        if (set.name == name)
            named.push_back(std::move(set));
    if (named.empty())
        throw Error("no boundary set '" + name + "' on file; 'inkturn boundaries list' shows those that are");
    const auto fitted = [&](const BoundarySet& set) {
        return std::count_if(papers.begin(), papers.end(), [&](const PaperInBook& one) {
            return one.paper->marks() == set.total &&
                   (set.subject.empty() || set.subject == one.paper->subject());
        });
    };
    return *std::max_element(named.begin(), named.end(), [&](const BoundarySet& a, const BoundarySet& b) {
        return fitted(a) < fitted(b);
    });
}

/// Papers that members sat though they are not the class's; empty if there are none.
std::string others_line(const Store& store, const ClassMarksOptions& options) {
    if (options.of_class.empty() || !options.papers.empty())
        return "";
    const PaperIds own = PapersOnFile::of_class(store, options.of_class);
    std::vector<std::string> others;
    for (const PaperInClass& paper : PapersOnFile::in_class(store, options.of_class))
        if (own.count(paper.id) == 0)
            others.push_back(visible(paper.id) + " (" + std::to_string(paper.sat) + ")");
    if (others.empty())
        return "";
    return text_line("Some also sat papers of their own or of other classes, which don't count here: " +
                     joined(others, ", ") +
                     ". Name one to see it, or import it again with --class if it was set to this class.");
}

void print_book_tables(const Context& context, const std::vector<Table>& tables) {
    for (const Table& table : tables)
        context.out << table << '\n';
}

void print_left_out(const Context& context, const MarkBook& all, const MarkBook& shown, std::size_t rows) {
    std::vector<std::string> out;
    if (rows < all.rows.size())
        out.push_back(count_text(all.rows.size() - rows, "more candidate"));
    if (shown.papers.size() < all.papers.size())
        out.push_back(count_text(all.papers.size() - shown.papers.size(), "more paper"));
    if (!out.empty())
        context.out << text_line(joined(out, " and ") + ": --all shows them.");
}

void print(const Context& context, const Store& store, const ClassMarksOptions& options, const MarkBook& all,
           const std::optional<BoundarySet>& set) {
    context.out << context.heading("Marks: " + class_title(options.of_class)) << "\n\n";
    if (all.rows.empty() || all.papers.empty()) {
        context.out << "No marks on file.\n"
                    << others_line(store, options) << "Next: inkturn class import FILE --paper ID"
                    << class_words(options.of_class) << '\n';
        return;
    }
    const bool is_whole = options.all || !options.papers.empty();
    const MarkBook shown = is_whole ? all : last_papers(all, papers_at_first);
    const std::size_t rows = options.all ? shown.rows.size() : std::min(shown.rows.size(), rows_at_first);
    context.out << mark_book_findings(shown) << "\nUnaided marks"
                << (set ? ", with grades under " + visible(name_of(*set)) : "") << ":\n\n";
    print_book_tables(context, unaided_tables(shown, set, rows));
    context.out << "Marks in time:\n\n";
    print_book_tables(context, in_time_tables(shown, set, rows));
    print_left_out(context, all, shown, rows);
    context.out << compared_line(all) << others_line(store, options) << change_key(shown);
    if (set)
        context.out << unfit_papers_line(shown, *set) << standing_caution();
    context.out << text_line("Each candidate's latest sitting counts, of the whole paper if there is one.")
                << (options.of_class.empty() ? "" : text_line(counted_for_class(options.of_class)))
                << "Next: inkturn class analyse "
                << shell_argument(shown.papers[shown.compared.empty() ? 0 : shown.compared.back()]->id())
                << (options.of_class.empty() ? "" : " --class " + shell_word(options.of_class)) << '\n';
}

void run(const Context& context, const ClassMarksOptions& options) {
    if (!options.csv && !options.output.file.empty())
        throw UsageError("-o is for --csv: add it");
    const BookOrder order = order_of(options);
    Store store = context.store_to_read();
    const Reading whole(store);
    std::vector<PaperInBook> papers = papers_of(store, options);
    const std::vector<std::string> codes = rows_of(store, options, papers);
    const std::optional<BoundarySet> set = set_for(store, options.set, papers);
    const MarkBook book = mark_book(std::move(papers), codes, set, order);
    if (options.csv) {
        std::ostringstream csv;
        write_mark_book(csv, book, set);
        OutputOptions output = options.output;
        if (output.file.empty())
            output.file = "-";
        write_output(context, output, csv.str());
        return;
    }
    context.answer([&] { return json_of(book, class_named(options.of_class), set); },
                   [&] { print(context, store, options, book, set); });
}

} // namespace

void add_class_marks(Command& group) {
    auto options = std::make_shared<ClassMarksOptions>();
    Command marks = group.command("marks", "The mark book: candidates by papers, grades, who fell most");
    marks.argument("PAPER", options->papers, "Only these papers (all that were sat)");
    add_class_looked_at(marks, options->of_class, "Only this class (all who sat one of the papers)");
    marks.option("--set", options->set, "NAME", "With grades under this boundary set");
    marks.option("--by", options->by, "code|mark", "Sort by code, or by the last paper's marks (code)");
    marks.flag("--all", options->all, "All candidates, and all papers");
    const Option csv = marks.flag("--csv", options->csv, "Print CSV, a row for each candidate");
    options->output.add_to(marks, "With --csv: write it to this file, which only you may read");
    marks.json().excludes(csv);
    marks.closing("Examples:\n  inkturn class marks --class tuesday\n"
                  "  inkturn class marks pure-1 pure-2 --class tuesday --set 'Saltmarsh, spring' --by mark\n"
                  "  inkturn class marks --class tuesday --csv -o marks.csv");
    marks.runs(options, run);
}

} // namespace inkturn
