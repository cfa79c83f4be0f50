#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/csv_options.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/subjects.hpp"

#include "exchange/csv/boundaries.hpp"
#include "exchange/json/boundaries.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct BoundariesOptions {
    std::vector<std::string> given; ///< a FILE, or GRADE=MARK
    std::string set;
    std::string total;
    std::string subject;
    std::string top;
    std::string bottom;
    std::string rule;
    std::string grades;
    std::string id;
    std::string award;
    std::string component;
    std::string uniform;
    std::string cap;
    std::string harder;
    std::string easier;
    CsvOptionTexts csv;
    bool yes = false;
};

std::string id_text(BoundarySetId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

std::string owner_of(const BoundarySet& set) {
    if (!set.award.empty())
        return visible((set.component.empty() ? "" : set.component + " of ") + set.award);
    return set.subject.empty() ? "all subjects" : visible(set.subject);
}

std::string remarks_of(const std::vector<BoundarySetOnFile>& sets) {
    const auto any = [&](auto has) { return std::any_of(sets.begin(), sets.end(), has); };
    std::string remarks;
    if (any([](const BoundarySetOnFile& one) { return one.set.filled.has_value(); }))
        remarks += text_line("Filled in: only the top and the bottom boundary were stated; the others are "
                             "arithmetic.");
    if (any([](const BoundarySetOnFile& one) { return one.set.is_guess; }))
        remarks += text_line("A guess: nobody set these boundaries. They are a past set and some marks.");
    if (any([](const BoundarySetOnFile& one) { return !one.set.uniform.empty(); }))
        remarks += text_line("In brackets: uniform marks.");
    return remarks;
}

void print(const Context& context, const std::vector<BoundarySetOnFile>& sets) {
    for (const auto& [id, set] : sets) {
        std::vector<std::string> grades;
        for (std::size_t i = 0; i < set.grades.size(); ++i)
            grades.push_back(
                visible(set.grades[i].grade) + " " + std::to_string(set.grades[i].mark.count()) +
                (set.uniform.empty() ? "" : " (" + std::to_string(set.uniform[i].count()) + ")"));
        const std::string title = "Set " + id_text(id) + ": " + visible(name_of(set)) + ", " + owner_of(set) +
                                  ", out of " + std::to_string(set.total.count()) +
                                  (set.cap ? ", capped at " + std::to_string(set.cap->count()) : "");
        context.out << wrapped(title, text_width(), 2) << "\n  " << wrapped_list(grades, text_width() - 2, 2)
                    << '\n';
    }
    context.out << remarks_of(sets);
    if (sets.empty())
        context.out
            << "No boundary sets on file.\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
    else
        context.out << "\nNext: inkturn standing\n";
}

void show(const Context& context, const BoundariesOptions& options, Store store) {
    std::vector<BoundarySetOnFile> sets = BoundarySets::all(store);
    if (!options.subject.empty())
        sets.erase(std::remove_if(sets.begin(), sets.end(),
                                  [&](const BoundarySetOnFile& on_file) {
                                      return !on_file.set.subject.empty() &&
                                             on_file.set.subject != options.subject;
                                  }),
                   sets.end());
    if (sets.empty())
        check_subject_filter(context, store, options.subject);
    context.answer([&] { return json_of(sets); }, [&] { print(context, sets); });
}

/// By its number in the list, or by its name where no other has that.
BoundarySetOnFile set_called(const Store& store, const std::string& text) {
    std::vector<BoundarySetOnFile> called;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store)) {
        const std::string number = std::to_string(static_cast<std::int64_t>(on_file.id));
        if (number == text)
            return std::move(on_file);
        if (on_file.set.name == text)
            called.push_back(std::move(on_file));
    }
    if (called.size() == 1)
        return std::move(called.front());
    if (called.empty())
        throw Error("no boundary set " + text + " on file; 'inkturn boundaries list' shows those that are");
    throw Error("several boundary sets are called " + text +
                ": give the number that 'inkturn boundaries list' shows");
}

/// A set of an award has the award's subject, which need not be typed.
void take_subjects_of_awards(const Store& store, std::vector<BoundarySet>& sets) {
    const std::vector<Award> awards = AwardsOnFile::all(store);
    for (BoundarySet& set : sets)
        if (const Award* award = AwardsOnFile::find(awards, set.award);
            award != nullptr && set.subject.empty())
            set.subject = award->subject;
}

BoundarySet set_of(const BoundariesOptions& options, std::vector<GradeBoundary> grades) {
    BoundarySet set{options.set, options.subject, parse_set_total(options.total, "--total"),
                    std::move(grades)};
    set.award = options.award;
    set.component = options.component;
    if (!options.uniform.empty())
        set.uniform = uniform_marks(set, options.uniform);
    if (!options.cap.empty())
        set.cap = parse_set_total(options.cap, "--cap");
    check_boundary_set(set);
    return set;
}

std::vector<BoundarySet> sets_of_file(const Context& context, const BoundariesOptions& options) {
    const InputFile file(options.given.front(), context);
    ProblemList problems;
    std::vector<BoundarySet> sets = read_boundaries_rows(*options.csv.rows_of(file), problems);
    refuse_problems(context, file.name(), problems);
    return sets;
}

std::vector<BoundarySet> sets_given(const Context& context, const BoundariesOptions& options) {
    const bool inline_set = !options.set.empty() && !options.total.empty();
    const bool file = (options.set + options.total + options.subject + options.award + options.component +
                       options.uniform + options.cap)
                          .empty() &&
                      options.given.size() == 1;
    if (!inline_set && !file)
        throw UsageError("give either one FILE, or --set, --total and each GRADE=MARK");
    if (!options.component.empty() && options.award.empty())
        throw UsageError("a component belongs to an award: name it with --award");
    if (file)
        return sets_of_file(context, options);
    std::vector<GradeBoundary> grades;
    for (const std::string& one : options.given)
        grades.push_back(parse_boundary(one, "boundary"));
    return {set_of(options, std::move(grades))};
}

/// A set of an award has the award's, or is refused.
void question_new_subjects(const Context& context, const Store& store, const std::vector<BoundarySet>& sets) {
    std::set<std::string> subjects;
    for (const BoundarySet& set : sets)
        if (set.award.empty() && subjects.insert(set.subject).second)
            question_new_subject(context, store, set.subject);
}

void add(const Context& context, const BoundariesOptions& options) {
    std::vector<BoundarySet> sets = sets_given(context, options);
    Store store = context.store_to_write();
    take_subjects_of_awards(store, sets);
    question_new_subjects(context, store, sets);
    Store::Change change(store);
    BoundarySets on_file(change);
    std::size_t added = 0;
    for (const BoundarySet& set : sets)
        if (on_file.add(set))
            ++added;
    change.commit();
    if (!context.json)
        context.out << count_text(added, "boundary set") << " added, " << sets.size() - added
                    << " already on file.\n\n";
    show(context, BoundariesOptions(), std::move(store));
}

/// Keeps a guess, and shows all that is on file.
void guess(const Context& context, const BoundariesOptions& options) {
    if (options.harder.empty() == options.easier.empty())
        throw UsageError("say by how many marks the boundaries move: give one of --harder and --easier");
    const bool is_harder = !options.harder.empty();
    const int marks = parse_whole_number(is_harder ? options.harder : options.easier, 1,
                                         max_set_marks.count(), is_harder ? "--harder" : "--easier");
    Store store = context.store_to_write();
    const BoundarySet past = set_called(store, options.id).set;
    const std::string name = options.set.empty()
                                 ? past.name + ", " + count_text(static_cast<std::size_t>(marks), "mark") +
                                       (is_harder ? " harder" : " easier")
                                 : options.set;
    Store::Change change(store);
    const bool is_new = BoundarySets(change).add(guess_from(past, is_harder ? marks : -marks, name));
    change.commit();
    if (!context.json)
        context.out << (is_new ? "Added the guess.\n\n" : "The guess was on file already.\n\n");
    show(context, BoundariesOptions(), std::move(store));
}

FillRule rule_of(const std::string& text) {
    const auto rule = fill_rule_named(text);
    if (!rule)
        throw Error("--rule '" + text + "': use quarters, thirds or halves");
    return *rule;
}

std::optional<FillRule> rule_typed(const BoundariesOptions& options) {
    return options.rule.empty() ? std::nullopt : std::optional(rule_of(options.rule));
}

std::vector<GradeBoundary> filled(const BoundariesOptions& options) {
    std::vector<std::string> grades;
    if (!options.grades.empty())
        grades = split_at_commas(options.grades);
    return fill(parse_boundary(options.top, "--top"), parse_boundary(options.bottom, "--bottom"),
                rule_typed(options), std::move(grades));
}

/// Stores a filled set, and words whether it is new.
std::string keep(const Context& context, BoundarySet set) {
    Store store = context.store_to_write();
    std::vector<BoundarySet> sets{std::move(set)};
    take_subjects_of_awards(store, sets);
    question_new_subjects(context, store, sets);
    set = std::move(sets.front());
    Store::Change change(store);
    const bool is_new = BoundarySets(change).add(set);
    change.commit();
    return (is_new ? "Saved as boundary set " : "Already on file as boundary set ") +
           visible(set_title(set)) + ", out of " + std::to_string(set.total.count()) +
           ".\nNext: inkturn standing\n";
}

void print_filled(const Context& context, const std::vector<GradeBoundary>& grades, const std::string& kept) {
    Table table({{"grade"}, {"mark", Table::Align::right}});
    for (const GradeBoundary& boundary : grades)
        table.add_row({boundary.grade, std::to_string(boundary.mark.count())});
    context.out << table << '\n' << kept;
}

void fill_in(const Context& context, const BoundariesOptions& options) {
    if (options.set.empty() != options.total.empty() ||
        (options.set.empty() && !(options.subject + options.award + options.component).empty()))
        throw UsageError("to save them, use both --set and --total");
    const std::vector<GradeBoundary> grades = filled(options);
    std::string kept = "Next: run it again with --set NAME --total N to save them\n";
    if (!options.set.empty()) {
        BoundarySet set = set_of(options, grades);
        set.filled = rule_typed(options).value_or(FillRule::quarters);
        kept = keep(context, std::move(set));
    }
    context.answer([&] { return json_of_grades(grades); }, [&] { print_filled(context, grades, kept); });
}

void remove(const Context& context, const BoundariesOptions& options) {
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    const BoundarySetOnFile on_file = set_called(store, options.id);
    if (!options.yes && !context.confirmed("Remove boundary set " + visible(set_title(on_file.set)) + "?"))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    BoundarySets(change).remove(on_file.id);
    change.commit();
    show(context, options, std::move(store));
}

void add_set_options(Command& command, BoundariesOptions& options) {
    command.option("--set", options.set, "NAME", "The series, such as 'Saltmarsh, spring'");
    command.option("--total", options.total, "N", "The total its marks are out of");
    command.option("--subject", options.subject, "S", "The subject of the papers it applies to (all)");
}

void add_award_options(Command& command, BoundariesOptions& options) {
    command.option("--award", options.award, "NAME", "The award on file whose boundaries these are");
    command.option("--component", options.component, "NAME", "The component of the award; its papers' marks");
}

void add_guess(Command& group, const std::shared_ptr<BoundariesOptions>& options) {
    Command guess_one = group.command("guess", "Guess the next set: a past one, some marks higher or lower");
    guess_one.argument("SET", options->id, "The past set's number in the list, or its name").required();
    guess_one.option("--harder", options->harder, "N", "Put every boundary so many marks higher");
    guess_one.option("--easier", options->easier, "N", "Put every boundary so many marks lower");
    guess_one.option("--set", options->set, "NAME", "What to call it (the past name and the marks)");
    guess_one.json();
    guess_one.closing("Example:\n  inkturn boundaries guess 2 --harder 3 --set 'next summer'\n"
                      "It is marked as a guess wherever it is shown: nobody set these boundaries.");
    guess_one.runs(options, guess);
}

void add_add(Command& group, const std::shared_ptr<BoundariesOptions>& options) {
    Command add_some = group.command("add", "Add boundary sets from a file, or one typed in");
    add_some
        .argument(
            "FILE|GRADE=MARK", options->given,
            "CSV, .xlsx or .ods with the columns set,total, optionally subject,award,component,cap, one "
            "column per grade and, for its uniform marks, one called uniform GRADE; or the grades of --set, "
            "from the top down")
        .required();
    add_set_options(add_some, *options);
    add_award_options(add_some, *options);
    add_some.option("--uniform", options->uniform, "A=80,B=70",
                    "With --component: the grades' uniform marks, where the award adds up those");
    add_some.option("--cap", options->cap, "N",
                    "With --uniform: everybody from this raw mark up gets the uniform maximum (the total)");
    options->csv.add_to(add_some);
    add_some.json();
    add_some.closing("Examples:\n  inkturn boundaries add boundaries.csv\n"
                     "  inkturn boundaries add --set 'Saltmarsh, spring' --total 80 A=61 B=52 C=43");
    add_some.runs(options, add);
}

void add_fill(Command& group, const std::shared_ptr<BoundariesOptions>& options) {
    Command fill_some = group.command("fill", "Fill in the grades between two by arithmetic");
    fill_some.option("--top", options->top, "GRADE=MARK", "The top grade and its mark").required();
    fill_some.option("--bottom", options->bottom, "GRADE=MARK", "The bottom grade and its mark").required();
    fill_some.option("--rule", options->rule, "quarters|thirds|halves",
                     "How to divide the gap (quarters, from A to E)");
    fill_some.option("--grades", options->grades, "A,B,C",
                     "All grades from the top down, if they aren't letters");
    add_set_options(fill_some, *options);
    add_award_options(fill_some, *options);
    fill_some.json();
    fill_some.closing("Example:\n  inkturn boundaries fill --top A=61 --bottom E=25\n"
                      "With --set and --total they are saved as a boundary set.");
    fill_some.runs(options, fill_in);
}

void add_list(Command& group, const std::shared_ptr<BoundariesOptions>& options) {
    Command list_all = group.command("list", "List the boundary sets on file");
    list_all.option("--subject", options->subject, "S",
                    "Only sets that apply to papers of this subject (all)");
    list_all.json();
    list_all.closing("Example:\n  inkturn boundaries list");
    list_all.runs([options](const Context& context) { show(context, *options, context.store_to_read()); });
}

void add_remove(Command& group, const std::shared_ptr<BoundariesOptions>& options) {
    Command remove_one = group.command("remove", "Remove a boundary set");
    remove_one.argument("SET", options->id, "Its number in the list, or its name").required();
    remove_one.flag("--yes", options->yes, "Don't ask");
    remove_one.json();
    remove_one.closing("Example:\n  inkturn boundaries remove 2");
    remove_one.runs(options, remove);
}

} // namespace

void add_boundaries(Command& line) {
    auto options = std::make_shared<BoundariesOptions>();
    Command group = line.group("boundaries", "Grade boundaries: add, fill, guess, list, remove");
    group.closing("Example:\n  inkturn boundaries fill --top A=61 --bottom E=25");
    add_add(group, options);
    add_fill(group, options);
    add_guess(group, options);
    add_list(group, options);
    add_remove(group, options);
}

} // namespace inkturn
