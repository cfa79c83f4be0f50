#include "cli/change_text.hpp"
#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/class/code_check.hpp"
#include "exchange/json/members.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <iterator>

namespace inkturn {
namespace {

struct MembersOptions {
    std::string name;
    std::vector<std::string> codes;
    std::vector<std::string> accepted;
    bool yes = false;
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

void list_classes(const Context& context, const Store& store) {
    context.answer([&] { return json_of(store.classes()); }, [&] { print_classes(context, store); });
}

void print_members(const Context& context, const std::string& of_class,
                   const std::vector<CandidateOnFile>& members) {
    const std::string heading = context.heading("Class " + visible(of_class));
    if (members.empty()) {
        context.out << heading << ": nobody yet. Next: inkturn class add " << shell_argument(of_class)
                    << " CODE...\n";
        return;
    }
    Table table(
        {{"candidate", Table::Align::left_may_be_cut}, {"sittings", Table::Align::right}, {"latest"}});
    for (const CandidateOnFile& member : members)
        table.add_row(
            {member.code, std::to_string(member.sittings), member.latest ? day_text(*member.latest) : "-"});
    context.out << heading << "\n\n"
                << table << "\nNext: inkturn class retries" << class_words(of_class) << '\n';
}

void show(const Context& context, const MembersOptions& options, const Store& store) {
    const std::vector<CandidateOnFile> members = store.listed_candidates(options.name);
    context.answer([&] { return json_of_members(options.name, members); },
                   [&] { print_members(context, options.name, members); });
}

/// That the class is new, beside those there were.
void note_new_class(const Context& context, const std::string& name, const std::vector<ClassOnFile>& known) {
    std::vector<std::string> names;
    for (const ClassOnFile& one : known)
        names.push_back(visible(one.name));
    if (!names.empty())
        context.out << text_line("A new class, " + visible(name) +
                                 "; on file already: " + joined(names, ", ") + ".")
                    << '\n';
}

/// Those of the codes that are on file only now.
void note_new_codes(const Context& context, const std::vector<std::string>& fresh) {
    if (!fresh.empty())
        context.out << text_line("New on file: " + visible(joined(fresh, " and ")) + ".") << '\n';
}

void add(const Context& context, const MembersOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    FileDoubts doubts(options.accepted);
    doubt_new_class(store, options.name, doubts);
    const std::vector<std::string> codes = settled_members(store, options.name, options.codes, doubts);
    refuse_open_doubts(context, doubts);
    const std::vector<ClassOnFile> known = store.classes();
    const bool is_new = !store.has_class(options.name);
    if (codes.empty() || is_new)
        change.add_class(options.name);
    std::vector<std::string> fresh;
    std::copy_if(codes.begin(), codes.end(), std::back_inserter(fresh),
                 [&](const std::string& code) { return !store.has_candidate(code); });
    keep_days_passed(change, codes, context.date_today());
    for (const std::string& code : codes)
        change.add_member(options.name, code);
    change.commit();
    if (is_new && !context.json)
        note_new_class(context, options.name, known);
    if (!context.json)
        note_new_codes(context, fresh);
    show(context, options, store);
}

/// `class 12A with its list of 3 candidates and 1 exam`.
std::string class_with_all(const Store& store, const std::string& name,
                           const std::vector<RecordsChanged>& records) {
    std::vector<std::string> first;
    if (const std::size_t members = store.members(name).size(); members > 0)
        first.push_back("its list of " + count_text(members, "candidate"));
    return "class " + visible(name) + with_what_goes(records, {"class", "member of a class"}, first);
}

void take_out(const MembersOptions& options, const std::vector<std::string>& members, Day today,
              Store::Change& change) {
    keep_days_passed(change, members, today);
    for (const std::string& code : options.codes)
        change.remove_member(options.name, code);
    if (options.codes.empty())
        change.remove_class(options.name);
}

void remove_from(const Context& context, const MembersOptions& options, Store& store) {
    Store::Change change(store);
    take_out(options, options.codes, context.date_today(), change);
    const std::string going = with_what_goes(ChangesOnFile::records(change), {"member of a class"});
    change.commit();
    if (!context.json)
        context.out << text_line("Removed from class " + visible(options.name) + ": " +
                                 visible(joined(options.codes, " and ")) + (going.empty() ? "" : ",") +
                                 going + ". Sittings stay on file.")
                    << '\n';
    show(context, options, store);
}

void remove(const Context& context, const MembersOptions& options) {
    Store store = context.store_to_write();
    if (!options.codes.empty())
        return remove_from(context, options, store);
    const Store::Seen seen = store.seen();
    const std::vector<std::string> members = store.members(options.name);
    const Day today = context.date_today();
    const std::string what = class_with_all(store, options.name, records_if(store, [&](Store::Change& tried) {
                                                take_out(options, members, today, tried);
                                            }));
    if (!options.yes && !context.confirmed("Remove " + what + "? Sittings stay on file."))
        throw Error("nothing was removed");
    Store::Change change(store, seen);
    take_out(options, members, today, change);
    change.commit();
    if (!context.json)
        context.out << text_line("Removed " + what + ". Sittings stay on file.") << '\n';
    list_classes(context, store);
}

} // namespace

void add_class_members(Command& group) {
    auto options = std::make_shared<MembersOptions>();

    Command add_one = group.command("add", "Create a class, or add candidates to one");
    add_one.argument("CLASS", options->name, "The class's name").required();
    add_one.argument("CODE", options->codes, "Candidates to add to it");
    add_accept_option(add_one, options->accepted);
    add_one.json();
    add_one.closing("Example:\n  inkturn class add tuesday K01 K02 K03");
    add_one.runs(options, add);

    Command list_all = group.command("list", "List the classes on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn class list");
    list_all.runs([](const Context& context) { list_classes(context, context.store_to_read()); });

    Command members = group.command("members", "Show who is in a class");
    members.argument("CLASS", options->name, "The class's name").required();
    members.json();
    members.closing("Example:\n  inkturn class members tuesday");
    members.runs([options](const Context& context) { show(context, *options, context.store_to_read()); });

    Command remove_one = group.command("remove", "Remove candidates from a class, or a whole class");
    remove_one.argument("CLASS", options->name, "The class's name").required();
    remove_one.argument("CODE", options->codes,
                        "Candidates to remove; if none is given, the class goes but sittings stay");
    remove_one.flag("--yes", options->yes, "Don't ask before a whole class goes");
    remove_one.json();
    remove_one.closing("Example:\n  inkturn class remove tuesday K03");
    remove_one.runs(options, remove);
}

} // namespace inkturn
