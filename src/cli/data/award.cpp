#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/award.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/award.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct AwardOptions {
    std::string name;
    std::string subject;
    std::vector<std::string> components;
    std::vector<std::string> choices;
    std::vector<std::string> uniform;
    bool yes = false;
};

/// What stands before and after the last `=`.
std::pair<std::string, std::string> sides_of(const std::string& text, const std::string& form) {
    const std::size_t equals = text.rfind('=');
    if (equals == std::string::npos || equals == 0)
        throw Error("'" + text + "': write " + form);
    return {text.substr(0, equals), text.substr(equals + 1)};
}

Component parse_component(const std::string& text) {
    const auto [name, value] = sides_of(text, "NAME=MARKS or NAME=MARKS*WEIGHT, such as 'Paper 1=80*1.25'");
    const std::size_t star = value.find('*');
    const std::string what = "--component " + name;
    Component component{
        name, Marks(parse_whole_number(value.substr(0, star), 1, max_set_marks.count(), what + ", marks"))};
    if (star != std::string::npos)
        component.weight = parse_weight(value.substr(star + 1), what + ", weight");
    return component;
}

std::size_t position_of(const Award& award, const std::string& name, const std::string& option) {
    const auto position = award.find_component(name);
    if (!position)
        throw Error(option + ": there is no --component '" + name + "'");
    return *position;
}

ComponentChoice parse_component_choice(const Award& award, const std::string& text) {
    const auto [names, count] = sides_of(text, "NAME,NAME,...=COUNT, such as 'Statistics,Mechanics=1'");
    ComponentChoice choice{{}, parse_whole_number(count, 1, max_set_marks.count(), "--choose " + names)};
    for (const std::string& name : split_at_commas(names))
        choice.components.push_back(position_of(award, name, "--choose"));
    std::sort(choice.components.begin(), choice.components.end());
    return choice;
}

Award award_typed(const AwardOptions& options) {
    Award award{options.name, options.subject, {}, {}};
    for (const std::string& component : options.components)
        award.components.push_back(parse_component(component));
    for (const std::string& choice : options.choices)
        award.choices.push_back(parse_component_choice(award, choice));
    for (const std::string& text : options.uniform) {
        const auto [name, marks] = sides_of(text, "NAME=MARKS, such as 'Unit 1=100'");
        award.components[position_of(award, name, "--uniform")].uniform =
            Marks(parse_whole_number(marks, 1, max_set_marks.count(), "--uniform " + name));
    }
    check_award(award);
    return award;
}

std::string papers_line(const Award& award, std::size_t component,
                        const std::vector<std::shared_ptr<const Paper>>& papers) {
    std::vector<std::string> ids;
    for (const auto& paper : papers_of(award, component, papers))
        ids.push_back(paper->id());
    return "  " +
           wrapped(visible(award.components[component].name) + ": " +
                       (ids.empty() ? "no paper yet" : joined(ids, ", ")),
                   text_width() - 2, 4) +
           '\n';
}

void print_awards(const Context& context, const Store& store, const std::vector<Award>& awards) {
    if (awards.empty()) {
        context.out << "No awards on file.\nNext: inkturn award add NAME --subject S --component 'Paper "
                       "1=100'\n";
        return;
    }
    const auto papers = store.papers();
    for (const Award& award : awards) {
        context.out << context.heading(wrapped(award_title(award), text_width(), 2)) << '\n'
                    << components_table(award) << "Papers:\n";
        for (std::size_t i = 0; i < award.components.size(); ++i)
            context.out << papers_line(award, i, papers);
        context.out << '\n';
    }
    context.out << award_caution() << "Next: inkturn paper amend PAPER --component NAME\n";
}

void list_awards(const Context& context, const Store& store) {
    const std::vector<Award> awards = AwardsOnFile::all(store);
    context.answer([&] { return json_of(awards, store.papers()); },
                   [&] { print_awards(context, store, awards); });
}

void add_award_typed(const Context& context, const AwardOptions& options) {
    const Award award = award_typed(options);
    Store store = context.store_to_write();
    question_new_subject(context, store, award.subject);
    Store::Change change(store);
    const bool is_new = AwardsOnFile(change).add(award);
    change.commit();
    if (!context.json)
        context.out << (is_new ? "Added the award.\n\n" : "The award was on file already.\n\n");
    list_awards(context, store);
}

void remove_award(const Context& context, const AwardOptions& options) {
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    AwardsOnFile::get(AwardsOnFile::all(store), options.name);
    const std::string going = with_what_goes(
        records_if(store, [&](Store::Change& tried) { AwardsOnFile(tried).remove(options.name); }),
        {"award", "component", "boundary"});
    if (!options.yes && !context.confirmed("Remove award " + visible(options.name) + going + "?"))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    AwardsOnFile(change).remove(options.name);
    change.commit();
    if (!context.json)
        context.out << text_line("Removed award " + visible(options.name) + going +
                                 ". Papers and sittings stay.")
                    << '\n';
    list_awards(context, store);
}

} // namespace

void add_award(Command& line) {
    auto options = std::make_shared<AwardOptions>();
    Command group =
        line.group("award", "A qualification and the components it is made of: add, list, remove");
    group.closing("Example:\n  inkturn award add 'A level' --subject maths --component 'Paper 1=100' \\\n"
                  "    --component 'Paper 2=100' --component 'Paper 3=100'");

    Command add_one = group.command("add", "Add an award: its components with marks, weights and options");
    add_one.argument("NAME", options->name, "The award's name").required();
    add_one.option("--subject", options->subject, "S", "The subject of its papers (any)");
    add_one
        .option("--component", options->components, "NAME=MARKS[*WEIGHT]",
                "A component: what its papers are out of, and what marks are multiplied by (1)")
        .required();
    add_one.option("--choose", options->choices, "NAME,NAME=COUNT",
                   "Only the best COUNT of these components count");
    add_one.option("--uniform", options->uniform, "NAME=MARKS",
                   "The uniform maximum of a component, for awards that add up uniform marks");
    add_one.json();
    add_one.closing("Example:\n"
                    "  inkturn award add 'Further maths' --subject further --component 'Core=150' \\\n"
                    "    --component 'Statistics=75' --component 'Mechanics=75' \\\n"
                    "    --component 'Decision=75' --choose 'Statistics,Mechanics,Decision=2'\n"
                    "A paper says which component it is of:\n"
                    "  inkturn paper amend PAPER --component NAME");
    add_one.runs(options, add_award_typed);

    Command list_all = group.command("list", "List the awards on file, with the papers of each component");
    list_all.json();
    list_all.closing("Example:\n  inkturn award list");
    list_all.runs([](const Context& context) { list_awards(context, context.store_to_read()); });

    Command remove_one = group.command("remove", "Remove an award and its boundary sets");
    remove_one.argument("NAME", options->name, "The award's name").required();
    remove_one.flag("--yes", options->yes, "Don't ask");
    remove_one.json();
    remove_one.closing("Example:\n  inkturn award remove 'Further maths'");
    remove_one.runs(options, remove_award);
}

} // namespace inkturn
