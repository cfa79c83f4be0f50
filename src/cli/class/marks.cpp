#include "cli/class/class.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/output_file.hpp"

#include "exchange/csv/mark_book.hpp"
#include "exchange/json/mark_book.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/awards.hpp"
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
    std::set<std::string> absent = PapersOnFile::absent(store, class_named(of_class), *paper);
    return {std::move(paper), std::move(sittings), std::move(absent)};
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

/// The members of the class; without one, those who sat any of the papers or were absent.
std::vector<std::string> rows_of(const Store& store, const ClassMarksOptions& options,
                                 const std::vector<PaperInBook>& papers) {
    if (!options.of_class.empty())
        return store.members(options.of_class);
    std::set<std::string> codes;
    for (const PaperInBook& paper : papers) {
        codes.insert(paper.absent.begin(), paper.absent.end());
        for (const SittingOfPaper& sitting : paper.sittings)
            codes.insert(sitting.candidate);
    }
    return {codes.begin(), codes.end()};
}

std::vector<BoundarySet> sets_named(const Store& store, const std::string& name) {
    std::vector<BoundarySet> named;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store))
        if (on_file.set.name == name)
            named.push_back(std::move(on_file.set));
    if (named.empty())
        throw Error("no boundary set '" + name + "' on file; 'inkturn boundaries list' shows those that are");
    if (std::none_of(named.begin(), named.end(),
                     [](const BoundarySet& set) { return set.award.empty() || !set.component.empty(); }))
        throw Error("the boundary set '" + name +
                    "' is of a whole award, not of a paper: 'inkturn class standing' holds marks against it");
    return named;
}

/// Gives each paper the set of this name that is for it.
void give_sets(const Store& store, const std::string& name, std::vector<PaperInBook>& papers) {
    if (name.empty())
        return;
    const std::vector<BoundarySet> named = sets_named(store, name);
    const std::vector<Award> awards = AwardsOnFile::all(store);
    for (PaperInBook& one : papers)
        one.set = set_for_paper(*one.paper, named, awards);
}

/// `guess: Saltmarsh, spring` where any of the papers' sets is one.
std::string shown_set(const MarkBook& book, const std::string& name) {
    const bool any_guess =
        std::any_of(book.sets.begin(), book.sets.end(), [](const auto& set) { return set && set->is_guess; });
    return (any_guess ? "guess: " : "") + visible(name);
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

std::string elsewhere_line(const Store& store, const MarkBook& book, const std::string& of_class) {
    std::vector<std::string> sittings;
    for (const auto& paper : book.papers)
        for (const SittingOfPaper& sitting : sat_elsewhere(store, *paper, of_class))
            sittings.push_back(short_name(sitting.candidate) + " (" + visible(paper->id()) + ", " +
                               marks_number(totals(*paper, sitting.parts).unaided()) + " on " +
                               day_text(sitting.day) + ")");
    constexpr std::size_t max_named = 5;
    if (sittings.size() > max_named) {
        const std::size_t more = sittings.size() - max_named;
        sittings.resize(max_named);
        sittings.push_back(std::to_string(more) + " more");
    }
    return sittings.empty() ? ""
                            : text_line("Sat at home or for another class too, which doesn't count here: " +
                                        joined(sittings, ", ") + ".");
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

void print(const Context& context, const Store& store, const ClassMarksOptions& options,
           const MarkBook& all) {
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
                << (options.set.empty() ? "" : ", with grades under " + shown_set(shown, options.set))
                << ":\n\n";
    print_book_tables(context, unaided_tables(shown, rows));
    context.out << "Marks in time:\n\n";
    print_book_tables(context, in_time_tables(shown, rows));
    print_left_out(context, all, shown, rows);
    context.out << compared_line(all) << others_line(store, options)
                << elsewhere_line(store, shown, options.of_class) << change_key(shown);
    if (!options.set.empty())
        context.out << unfit_papers_line(shown) << standing_caution();
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
    give_sets(store, options.set, papers);
    const MarkBook book = mark_book(std::move(papers), codes, order);
    if (options.csv) {
        std::ostringstream csv;
        write_mark_book(csv, book, !options.set.empty());
        OutputOptions output = options.output;
        if (output.file.empty())
            output.file = "-";
        write_output(context, output, csv.str());
        return;
    }
    const std::optional<std::string> set = options.set.empty() ? std::nullopt : std::optional(options.set);
    context.answer([&] { return json_of(book, class_named(options.of_class), set); },
                   [&] { print(context, store, options, book); });
}

} // namespace

void add_class_marks(Command& group) {
    auto options = std::make_shared<ClassMarksOptions>();
    Command marks = group.command("marks", "The mark book: candidates by papers, grades, who fell most");
    marks.argument("PAPER", options->papers, "Only these papers (all that were sat)");
    add_class_looked_at(marks, options->of_class, "Only this class (all who sat one of the papers)");
    marks.option("--set", options->set, "NAME",
                 "Add grades under this boundary set, of papers or components");
    marks.option("--by", options->by, "code|mark", "Sort by code, or by the last paper's marks (code)");
    marks.flag("--all", options->all, "All candidates, and all papers");
    const Option csv = marks.flag("--csv", options->csv, "Print CSV, a row for each candidate");
    options->output.add_to(marks, "With --csv: write it to this file, which only you may read");
    marks.json().excludes(csv);
    marks.closing("Examples:\n  inkturn class marks --class tuesday\n"
                  "  inkturn class marks pure-1 --class tuesday --set 'Saltmarsh, spring'\n"
                  "  inkturn class marks --class tuesday --csv -o marks.csv");
    marks.runs(options, run);
}

} // namespace inkturn
