#include "cli/class/class.hpp"

#include "exchange/json/json.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string name;
    std::vector<std::string> codes;
    bool json = false;
};

void print_classes(const Context& context, const Store& store) {
    const std::vector<ClassOnFile> classes = store.classes();
    if (classes.empty()) {
        context.out << "No classes on file. Next: inkturn class add CLASS CODE...\n";
        return;
    }
    Table table({{"class", Table::Align::left_may_be_cut}, {"candidates", Table::Align::right}});
    for (const ClassOnFile& on_file : classes)
        table.add_row({on_file.name, std::to_string(on_file.members)});
    context.out << table << "\nNext: inkturn class members CLASS\n";
}

void list(const Context& context, const Options& options, const Store& store) {
    if (options.json)
        context.out << json_of(store.classes()).dump(2) << '\n';
    else
        print_classes(context, store);
}

void show(const Context& context, const Options& options, const Store& store) {
    std::vector<Candidate> members;
    for (const std::string& code : store.members(options.name))
        members.push_back(store.candidate(code));
    if (options.json) {
        context.out << json_of_members(options.name, members).dump(2) << '\n';
        return;
    }
    const std::string heading = context.heading("Class " + visible(options.name));
    if (members.empty()) {
        context.out << heading << ": nobody yet. Next: inkturn class add CLASS CODE...\n";
        return;
    }
    Table table(
        {{"candidate", Table::Align::left_may_be_cut}, {"sittings", Table::Align::right}, {"latest"}});
    for (const Candidate& member : members)
        table.add_row({member.code, std::to_string(member.sittings.size()),
                       member.sittings.empty() ? "-" : spoken(member.sittings.back().sitting.day)});
    context.out << heading << "\n\n" << table << "\nNext: inkturn class retries --class CLASS\n";
}

void add(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    if (options.codes.empty() || !store.has_class(options.name))
        store.add_class(options.name);
    for (const std::string& code : options.codes)
        store.add_member(options.name, code);
    change.commit();
    show(context, options, store);
}

void remove(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    for (const std::string& code : options.codes)
        store.remove_member(options.name, code);
    if (options.codes.empty())
        store.remove_class(options.name);
    change.commit();
    if (options.codes.empty())
        list(context, options, store);
    else
        show(context, options, store);
}

} // namespace

void add_class_members(CLI::App& group, Context& context) {
    auto options = std::make_shared<Options>();
    const auto add_json = [options](CLI::App& command) {
        command.add_flag("--json", options->json, "Print JSON");
    };

    CLI::App* add_one = group.add_subcommand("add", "Make a class, or put candidates in one");
    add_one->add_option("CLASS", options->name, "Its name")->required();
    add_one->add_option("CODE", options->codes, "Candidates to put in it");
    add_json(*add_one);
    add_one->footer("Example:\n  inkturn class add tuesday K01 K02 K03");
    add_one->callback([options, &context] { context.run = [options, &context] { add(context, *options); }; });

    CLI::App* list_all = group.add_subcommand("list", "List the classes on file");
    add_json(*list_all);
    list_all->footer("Example:\n  inkturn class list");
    list_all->callback([options, &context] {
        context.run = [options, &context] { list(context, *options, context.store_to_read()); };
    });

    CLI::App* members = group.add_subcommand("members", "Show who is in a class");
    members->add_option("CLASS", options->name, "Its name")->required();
    add_json(*members);
    members->footer("Example:\n  inkturn class members tuesday");
    members->callback([options, &context] {
        context.run = [options, &context] { show(context, *options, context.store_to_read()); };
    });

    CLI::App* remove_one =
        group.add_subcommand("remove", "Take candidates out of a class, or a class off file");
    remove_one->add_option("CLASS", options->name, "Its name")->required();
    remove_one->add_option("CODE", options->codes,
                           "Candidates; without any the class goes, its sittings stay");
    add_json(*remove_one);
    remove_one->footer("Example:\n  inkturn class remove tuesday K03");
    remove_one->callback(
        [options, &context] { context.run = [options, &context] { remove(context, *options); }; });
}

} // namespace inkturn
