#include "cli/commands.hpp"
#include "cli/csv_options.hpp"
#include "cli/data/boundary_options.hpp"

#include "exchange/csv/boundaries.hpp"
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
    std::vector<std::string> given; ///< a FILE, or GRADE=MARK
    std::string set;
    std::string total;
    std::string subject;
    std::string top;
    std::string bottom;
    std::string rule;
    std::string grades;
    std::string id;
    CsvOptionTexts csv;
    bool yes = false;
    bool json = false;
};

std::string id_text(BoundarySetId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

void print(const Context& context, const std::vector<BoundarySetOnFile>& sets) {
    for (const auto& [id, set] : sets) {
        std::vector<std::string> grades;
        for (const GradeBoundary& boundary : set.grades)
            grades.push_back(visible(boundary.grade) + " " + std::to_string(boundary.mark.count()));
        const std::string title = "Set " + id_text(id) + ": " + visible(set.name) + ", " +
                                  (set.subject.empty() ? "all subjects" : visible(set.subject)) +
                                  ", out of " + std::to_string(set.total.count());
        context.out << wrapped(title, Table::full_width, 2) << "\n  "
                    << wrapped_list(grades, Table::full_width - 2, 2) << '\n';
    }
    if (sets.empty())
        context.out
            << "No boundary sets on file.\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
    else
        context.out << "\nNext: inkturn standing\n";
}

void show(const Context& context, const Options& options, Store store) {
    std::vector<BoundarySetOnFile> sets = BoundarySets(store).all();
    if (!options.subject.empty())
        sets.erase(std::remove_if(sets.begin(), sets.end(),
                                  [&](const BoundarySetOnFile& on_file) {
                                      return !on_file.set.subject.empty() &&
                                             on_file.set.subject != options.subject;
                                  }),
                   sets.end());
    if (options.json)
        context.out << json_of(sets).dump(2) << '\n';
    else
        print(context, sets);
}

BoundarySet set_of(const Options& options, std::vector<GradeBoundary> grades) {
    BoundarySet set{options.set, options.subject, parse_set_total(options.total, "--total"),
                    std::move(grades)};
    check_boundary_set(set);
    return set;
}

std::vector<BoundarySet> sets_of_file(const Context& context, const Options& options) {
    const InputFile file(options.given.front(), context.in);
    ProblemList problems;
    std::vector<BoundarySet> sets = read_boundaries_csv(file.stream(), options.csv.read(), problems);
    refuse_problems(context, file.name(), problems);
    return sets;
}

std::vector<BoundarySet> sets_given(const Context& context, const Options& options) {
    const bool inline_set = !options.set.empty() && !options.total.empty();
    const bool file = (options.set + options.total + options.subject).empty() && options.given.size() == 1;
    if (!inline_set && !file)
        throw UsageError("boundaries add: give either one FILE, or --set, --total and each GRADE=MARK. See "
                         "'inkturn boundaries add --help'");
    if (file)
        return sets_of_file(context, options);
    std::vector<GradeBoundary> grades;
    for (const std::string& one : options.given)
        grades.push_back(parse_boundary(one, "boundary"));
    return {set_of(options, std::move(grades))};
}

void add(const Context& context, const Options& options) {
    const std::vector<BoundarySet> sets = sets_given(context, options);
    Store store = context.store_to_write();
    Store::Change change(store);
    BoundarySets on_file(store);
    std::size_t added = 0;
    for (const BoundarySet& set : sets)
        if (on_file.add(set))
            ++added;
    change.commit();
    if (!options.json)
        context.out << counted(added, "boundary set") << " added, " << sets.size() - added
                    << " on file already.\n\n";
    Options all;
    all.json = options.json;
    show(context, all, std::move(store));
}

FillRule rule_of(const std::string& text) {
    const auto rule = fill_rule_named(text);
    if (!rule)
        throw Error("--rule '" + text + "': say quarters, thirds or halves");
    return *rule;
}

std::vector<GradeBoundary> filled(const Options& options) {
    std::optional<FillRule> rule;
    if (!options.rule.empty())
        rule = rule_of(options.rule);
    std::vector<std::string> grades;
    if (!options.grades.empty())
        grades = split_at_commas(options.grades);
    return fill(parse_boundary(options.top, "--top"), parse_boundary(options.bottom, "--bottom"), rule,
                std::move(grades));
}

/// What became of a filled set, in words.
std::string keep(const Context& context, const BoundarySet& set) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const bool is_new = BoundarySets(store).add(set);
    change.commit();
    return (is_new ? "Kept as boundary set " : "On file already as boundary set ") + visible(set_title(set)) +
           ", out of " + std::to_string(set.total.count()) + ".\nNext: inkturn standing\n";
}

void fill_in(const Context& context, const Options& options) {
    if (options.set.empty() != options.total.empty() || (options.set.empty() && !options.subject.empty()))
        throw UsageError("boundaries fill: to keep them say both --set and --total. See 'inkturn boundaries "
                         "fill --help'");
    const std::vector<GradeBoundary> grades = filled(options);
    std::string kept = "Next: the same with --set NAME --total N keeps them\n";
    if (!options.set.empty())
        kept = keep(context, set_of(options, grades));
    if (options.json) {
        context.out << json_of_grades(grades).dump(2) << '\n';
        return;
    }
    Table table({{"grade"}, {"mark", Table::Align::right}});
    for (const GradeBoundary& boundary : grades)
        table.add_row({boundary.grade, std::to_string(boundary.mark.count())});
    context.out << table << '\n' << kept;
}

void remove(const Context& context, const Options& options) {
    const BoundarySetId id{parse_whole_number(options.id, 1, 2'000'000'000, "boundary set")};
    Store store = context.store_to_write();
    const auto sets = BoundarySets(store).all();
    const auto found = std::find_if(sets.begin(), sets.end(),
                                    [&](const BoundarySetOnFile& on_file) { return on_file.id == id; });
    if (found == sets.end())
        throw Error("no boundary set " + options.id +
                    " on file; 'inkturn boundaries list' shows those that are");
    if (!options.yes && !context.confirmed("Remove boundary set " + visible(set_title(found->set)) + "?"))
        throw Error("nothing was removed");
    Store::Change change(store);
    BoundarySets(store).remove(id);
    change.commit();
    show(context, options, std::move(store));
}

void add_set_options(CLI::App& command, Options& options) {
    command.add_option("--set", options.set, "The series, such as 'June 2019'")->type_name("NAME");
    command.add_option("--total", options.total, "What its marks are out of")->type_name("N");
    command.add_option("--subject", options.subject, "The subject of the papers it concerns (all)")
        ->type_name("S");
}

CLI::App* add_add(CLI::App& group, Options& options) {
    CLI::App* add_some = group.add_subcommand("add", "Put boundary sets on file, from a CSV or one typed");
    add_some
        ->add_option("FILE|GRADE=MARK", options.given,
                     "CSV with the columns set,total, perhaps subject, and a column a grade; or the "
                     "grades of --set, from the top down")
        ->required();
    add_set_options(*add_some, options);
    options.csv.add_to(*add_some);
    add_some->add_flag("--json", options.json, "Print JSON");
    add_some->footer("Example:\n  inkturn boundaries add boundaries.csv\n"
                     "  inkturn boundaries add --set 'June 2019' --total 62 A=39 B=33 C=27");
    return add_some;
}

CLI::App* add_fill(CLI::App& group, Options& options) {
    CLI::App* fill_some = group.add_subcommand("fill", "Set the grades between two by arithmetic");
    fill_some->add_option("--top", options.top, "The top grade and its mark")
        ->type_name("GRADE=MARK")
        ->required();
    fill_some->add_option("--bottom", options.bottom, "The bottom grade and its mark")
        ->type_name("GRADE=MARK")
        ->required();
    fill_some->add_option("--rule", options.rule, "How (quarters, from A to E)")
        ->type_name("quarters|thirds|halves");
    fill_some
        ->add_option("--grades", options.grades, "All grades from the top down, where they are no letters")
        ->type_name("A,B,C");
    add_set_options(*fill_some, options);
    fill_some->add_flag("--json", options.json, "Print JSON");
    fill_some->footer("Example:\n  inkturn boundaries fill --top A=39 --bottom E=17\n"
                      "With --set and --total they are kept on file.");
    return fill_some;
}

CLI::App* add_list(CLI::App& group, Options& options) {
    CLI::App* list_all = group.add_subcommand("list", "List the boundary sets on file");
    list_all->add_option("--subject", options.subject, "Those that concern papers of this subject (all)")
        ->type_name("S");
    list_all->add_flag("--json", options.json, "Print JSON");
    list_all->footer("Example:\n  inkturn boundaries list");
    return list_all;
}

CLI::App* add_remove(CLI::App& group, Options& options) {
    CLI::App* remove_one = group.add_subcommand("remove", "Take a boundary set off file");
    remove_one->add_option("SET", options.id, "Its number in the list")->required();
    remove_one->add_flag("--yes", options.yes, "Don't ask");
    remove_one->add_flag("--json", options.json, "Print JSON");
    remove_one->footer("Example:\n  inkturn boundaries remove 2");
    return remove_one;
}

} // namespace

void add_boundaries(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* group = app.add_subcommand("boundaries", "Grade boundaries: add, fill, list, remove");
    group->require_subcommand(0, 1);
    group->footer("Example:\n  inkturn boundaries fill --top A=39 --bottom E=17");
    add_add(*group, *options)->callback([options, &context] {
        context.run = [options, &context] { add(context, *options); };
    });
    add_fill(*group, *options)->callback([options, &context] {
        context.run = [options, &context] { fill_in(context, *options); };
    });
    add_list(*group, *options)->callback([options, &context] {
        context.run = [options, &context] { show(context, *options, context.store_to_read()); };
    });
    add_remove(*group, *options)->callback([options, &context] {
        context.run = [options, &context] { remove(context, *options); };
    });
}

} // namespace inkturn
