#include "cli/class/class.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "exchange/document/member.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/collected.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/collected.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <set>

namespace inkturn {
namespace {

namespace fs = std::filesystem;

struct CollectOptions {
    std::string folder;
    std::string of_class;
    bool yes = false;
    bool replace = false;
    bool again = false;
    bool dry_run = false;
};

/// The exports in the folder by name, and what else lies there; hidden files don't count.
struct FilesInFolder {
    std::vector<fs::path> exports;
    std::vector<std::string> others;
};

FilesInFolder files_in(const std::string& folder) {
    std::error_code failure;
    if (!fs::is_directory(folder, failure))
        throw Error("'" + folder + "' is not a folder: name the one that holds the members' exports");
    FilesInFolder files;
    fs::directory_iterator next(folder, failure);
    for (const fs::directory_iterator end; !failure && next != end; next.increment(failure)) {
        const std::string name = next->path().filename().string();
        std::error_code unknown;
        if (name.front() == '.')
            continue;
        if (lower_case(next->path().extension().string()) == ".json" && next->is_regular_file(unknown))
            files.exports.push_back(next->path());
        else
            files.others.push_back(name);
    }
    if (failure)
        throw Error("'" + folder + "' can't be read: " + failure.message());
    std::sort(files.exports.begin(), files.exports.end());
    std::sort(files.others.begin(), files.others.end());
    return files;
}

/// Takes one export after the other, each whole or not at all.
class Collecting {
  public:
    Collecting(const Context& context, const CollectOptions& options, Store& store)
        : context_(context), options_(options), store_(store) {
        if (!options.of_class.empty())
            for (std::string& code : store.members(options.of_class))
                members_.insert(std::move(code));
    }

    CollectedFile take(const fs::path& path) {
        CollectedFile file;
        file.name = path.filename().string();
        try {
            Document document = read(path);
            file.candidate = document.candidates.front().candidate.code;
            file.is_new = !store_.has_candidate(file.candidate);
            file.drawn_ids = settle_drawn_ids(store_, std::nullopt, document);
            check_name(path, file.candidate);
            check_may_be_taken(file);
            const std::set<CollectedRecord> records = records_of(document);
            if (!options_.again)
                file.left_out = leave_out_removed(document, store_.candidate(file.candidate),
                                                  CollectedFiles::records(store_, file.candidate));
            merge_into(document, records, file);
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            file.why.push_back(worded(error));
        }
        return file;
    }

  private:
    Document read(const fs::path& path) const {
        const InputFile file(path.string(), context_);
        return of_member(read_document(file.stream(), context_.date_today()));
    }

    static void check_name(const fs::path& path, const std::string& code) {
        if (code == "me")
            throw Error("the candidate in it is 'me': on the member's computer give the code first, with "
                        "'inkturn candidate rename me CODE'");
        if (path.stem().string() != code)
            throw Error("the candidate in it is " + code + ": name the file " + code +
                        ".json, or have the member send their own");
    }

    void check_may_be_taken(const CollectedFile& file) const {
        if (!options_.of_class.empty() && !file.is_new && members_.count(file.candidate) == 0)
            throw Error("candidate " + file.candidate + " is not in class " + options_.of_class +
                        ": add them with 'inkturn class add " + shell_word(options_.of_class) + " " +
                        shell_word(file.candidate) + "', or collect without --class");
        if (file.is_new && !options_.yes && !is_confirmed(file.candidate))
            throw Error("candidate " + file.candidate +
                        " is not on file: if the code is right, run it again with --yes");
    }

    bool is_confirmed(const std::string& code) const {
        return stdin_is_terminal() && !options_.dry_run &&
               context_.confirmed("Candidate " + visible(code) + " is not on file. Is the code right?");
    }

    void merge_into(const Document& document, const std::set<CollectedRecord>& records, CollectedFile& file) {
        Store::Change change(store_);
        MergeOptions how;
        how.today = context_.date_today();
        how.replace = options_.replace;
        how.own_plan = true;
        const Merge merged = merge(change, document, how);
        for (const Error& conflict : merged.conflicts)
            file.why.push_back(worded(conflict));
        if (!file.why.empty())
            return;
        file.sittings = merged.sittings_added + merged.sittings_completed + merged.sittings_replaced;
        file.reattempts = merged.reattempts_added + merged.reattempts_completed + merged.reattempts_replaced;
        file.others = other_records(merged);
        if (file.is_new && !options_.of_class.empty())
            change.add_member(options_.of_class, file.candidate);
        if (file.brought())
            CollectedFiles(change).keep_day(file.candidate, how.today);
        CollectedFiles(change).keep_records(file.candidate, records);
        file.taken = true;
        if (!options_.dry_run)
            change.commit();
    }

    static std::size_t other_records(const Merge& merged) {
        return merged.scripts_added + merged.scripts_completed + merged.scripts_replaced +
               merged.scripts_finished + merged.availabilities_added + merged.availabilities_replaced +
               merged.relearned_topics_added + merged.plan_wishes_added + merged.plan_wishes_replaced +
               merged.turns_asked_added + merged.steered_added + merged.steered_replaced +
               merged.sheets_added + merged.sheets_completed + merged.sheets_replaced;
    }

    const Context& context_;
    const CollectOptions& options_;
    Store& store_;
    std::set<std::string> members_;
};

/// Of the class, or of all on file, those of whom nothing new came now.
std::vector<NothingNew> nothing_new(const Store& store, const CollectOptions& options,
                                    const std::vector<CollectedFile>& files) {
    std::set<std::string> sent;
    std::set<std::string> there;
    for (const CollectedFile& file : files) {
        there.insert(file.candidate); // one that was refused is there all the same
        if (file.taken && file.brought())
            sent.insert(file.candidate);
    }
    const std::map<std::string, Day> days = CollectedFiles::days(store);
    std::vector<NothingNew> nothing;
    for (const std::string& code : codes_of(store, options.of_class)) {
        if (sent.count(code) > 0)
            continue;
        const auto day = days.find(code);
        if (day == days.end() && there.count(code) > 0)
            continue; // an export that brought nothing is one all the same
        nothing.push_back({code, day == days.end() ? std::nullopt : std::optional(day->second)});
    }
    std::stable_sort(nothing.begin(), nothing.end(), [](const NothingNew& a, const NothingNew& b) {
        return a.since.value_or(earliest_day) < b.since.value_or(earliest_day);
    });
    return nothing;
}

std::string brought_text(const CollectedFile& file) {
    if (!file.taken)
        return "not taken";
    std::vector<std::string> brought;
    if (file.sittings > 0)
        brought.push_back(count_text(file.sittings, "sitting"));
    if (file.reattempts > 0)
        brought.push_back(count_text(file.reattempts, "re-attempt"));
    if (file.others > 0)
        brought.push_back(count_text(file.others, "other record"));
    return brought.empty() ? "nothing new" : joined(brought, ", ");
}

std::string last_text(const NothingNew& one, Day today) {
    return visible(one.candidate) +
           (*one.since == today ? " (last earlier today)" : " (last on " + day_text(*one.since) + ")");
}

/// Who to ask: those who never sent anything, and the others with the day on which something new last came.
std::string silent_lines(const std::vector<NothingNew>& nothing, Day today) {
    std::vector<std::string> never;
    std::vector<std::string> since;
    for (const NothingNew& one : nothing)
        if (one.since)
            since.push_back(last_text(one, today));
        else
            never.push_back(visible(one.candidate));
    std::string lines;
    if (!never.empty())
        lines += list_line("Ask for their first export:", never);
    if (!since.empty())
        lines += list_line("Nothing new from:", since);
    return lines;
}

std::string record_text(const CollectedRecord& record) {
    return (record.question.empty()
                ? ""
                : "question " + record.question + ", turn " + std::to_string(record.turn) + ", of ") +
           visible(record.paper) + " of " + day_text(record.day);
}

/// What was removed here since it was collected.
std::string left_out_lines(const CollectedFolder& folder) {
    std::string lines;
    for (const CollectedFile& file : folder.files) {
        std::vector<std::string> records;
        for (const CollectedRecord& record : file.left_out)
            records.push_back(record_text(record));
        if (!records.empty())
            lines +=
                text_line("Left out for " + visible(file.candidate) + ": " + joined(records, "; ") + ".");
    }
    if (!lines.empty())
        lines += text_line("That was collected before and has been undone or removed here since; --again "
                           "collects it again.");
    return lines;
}

std::string drawn_lines(const CollectedFolder& folder) {
    std::string lines;
    for (const CollectedFile& file : folder.files)
        for (const DrawnId& drawn : file.brought() ? file.drawn_ids : std::vector<DrawnId>())
            lines += text_line(visible(file.name) + "'s " + visible(drawn.in_file) + " is called " +
                               visible(drawn.here) + " here: " + visible(drawn.in_file) +
                               " is already another paper.");
    return lines;
}

void print(const Context& context, const CollectOptions& options, const CollectedFolder& folder) {
    const auto taken = static_cast<std::size_t>(std::count_if(
        folder.files.begin(), folder.files.end(), [](const CollectedFile& file) { return file.taken; }));
    context.out << context.heading(options.dry_run ? "Would collect" : "Collected") << ' ' << taken << " of "
                << count_text(folder.files.size(), "export") << '\n';
    context.out << silent_lines(folder.nothing, context.date_today()) << left_out_lines(folder)
                << drawn_lines(folder);
    if (!folder.files.empty()) {
        Table table({{"file", Table::Align::left_may_be_cut},
                     {"candidate", Table::Align::left_may_be_cut},
                     {"brought"}});
        for (const CollectedFile& file : folder.files)
            table.add_row({file.name,
                           file.candidate.empty() ? "-" : file.candidate + (file.is_new ? ", new" : ""),
                           brought_text(file)});
        context.out << '\n' << table << '\n';
    }
    if (!folder.ignored.empty()) {
        std::vector<std::string> ignored;
        for (const std::string& name : folder.ignored)
            ignored.push_back(visible(name));
        context.out << list_line("Ignored:", ignored);
    }
    if (options.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn class returned" << class_words(options.of_class) << '\n';
}

void refuse_files_left(const Context& context, const CollectedFolder& folder) {
    std::size_t left = 0;
    for (const CollectedFile& file : folder.files) {
        left += !file.taken;
        for (const std::string& why : file.why)
            context.err << visible(file.name) << ": " << visible(why) << '\n';
    }
    if (left > 0)
        throw Error(count_text(left, "export") + (left == 1 ? " was" : " were") + " not taken; " +
                    (left == folder.files.size() ? "nothing was stored" : "this doesn't affect the others"));
}

void run(const Context& context, const CollectOptions& options) {
    const FilesInFolder files = files_in(options.folder);
    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    codes_of(store, options.of_class);
    Collecting collecting(context, options, store);
    CollectedFolder folder;
    folder.ignored = files.others;
    for (const fs::path& path : files.exports)
        folder.files.push_back(collecting.take(path));
    folder.nothing = nothing_new(store, options, folder.files);
    context.answer([&] { return json_of(folder); }, [&] { print(context, options, folder); });
    refuse_files_left(context, folder);
}

} // namespace

void add_class_collect(Command& group) {
    auto options = std::make_shared<CollectOptions>();
    Command command =
        group.command("collect", "Take members' exports from a folder, and see who has sent none");
    command.argument("FOLDER", options->folder, "A folder of exports, each named CODE.json").required();
    add_class_option(command, options->of_class, "Only this class; new candidates join it (all on file)");
    command.flag("--yes", options->yes, "Take candidates who are not on file without asking");
    command.flag("--replace", options->replace, "Where they differ, use what the export says");
    command.flag("--again", options->again, "Also take what has been removed here since it was collected");
    command.flag("--dry-run", options->dry_run, "Only say what would be taken");
    command.json();
    command.closing("Example:\n  inkturn class collect /media/shared/tuesday --class tuesday\n"
                    "A member writes theirs with: inkturn candidate export K07 -o K07.json\n"
                    "Where the class sat the same paper, its own sitting counts in marks and reports.\n"
                    "Each export is taken whole or not at all. Exams, awards, boundaries, classes and\n"
                    "extra time stay as they are here.");
    command.runs(options, run);
}

} // namespace inkturn
