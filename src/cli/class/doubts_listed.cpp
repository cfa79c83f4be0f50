#include "cli/class/doubts_listed.hpp"

#include "cli/csv_options.hpp"
#include "cli/terminal.hpp"
#include "exchange/class/code_check.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <ostream>
#include <vector>

namespace inkturn {

namespace {

/// The answers stand below each other, where the terminal is wide enough.
std::string answer_line(const DoubtAnswer& answer) {
    constexpr std::size_t indent = 28;
    constexpr std::size_t min_beside = 60;
    if (stderr_is_terminal() && text_columns() < min_beside)
        return "  " +
               wrapped("--accept " + std::string(answer.name) + ": " + answer.does, text_columns() - 4, 4) +
               '\n';
    const std::string does =
        stderr_is_terminal() ? wrapped(answer.does, text_columns() - indent, indent) : answer.does;
    return "  --accept " + fitted(answer.name, indent - 13) + "  " + does + '\n';
}

} // namespace

std::size_t list_doubts(const Context& context, const std::string& file, const FileDoubts& doubts) {
    constexpr std::size_t max_listed = 5;
    const std::vector<FileDoubt> open = doubts.open();
    std::vector<DoubtKind> kinds;
    std::size_t count = 0;
    for (std::size_t i = 0; i < open.size(); ++i) {
        const bool is_first = kinds.empty() || kinds.back() != open[i].kind;
        if (is_first) {
            kinds.push_back(open[i].kind);
            count = 0;
        }
        if (++count <= max_listed)
            context.err << message_line((file.empty() ? "" : visible(file) + place_text(open[i].at) + ": ") +
                                        visible(open[i].at.message));
        const bool is_last = i + 1 == open.size() || open[i + 1].kind != open[i].kind;
        if (is_last && doubts.count(open[i].kind) > max_listed)
            context.err << "and " << doubts.count(open[i].kind) - max_listed << " more like it\n";
    }
    context.err << message_line(file.empty() ? "Correct what was typed, or say what to do:"
                                             : "Correct the file, or say what to do:");
    for (const DoubtKind kind : kinds)
        for (const DoubtAnswer& answer : {answers_to(kind).as_read, answers_to(kind).otherwise})
            if (answer.name != nullptr)
                context.err << answer_line(answer);
    std::size_t all = 0;
    for (const DoubtKind kind : kinds)
        all += doubts.count(kind);
    return all;
}

void refuse_open_doubts(const Context& context, const FileDoubts& doubts) {
    if (doubts.empty())
        return;
    const std::size_t count = list_doubts(context, "", doubts);
    throw Error(count_text(count, "doubt") + " about what was typed; nothing was stored");
}

std::vector<std::string> settled_codes(const Context& context, const Store& store,
                                       std::vector<std::string> codes,
                                       const std::vector<std::string>& accepted, const std::string& besides) {
    FileDoubts doubts(accepted);
    std::vector<std::string> on_file;
    for (const std::string& code : store.candidates())
        if (code != besides)
            on_file.push_back(code);
    for (std::string& code : codes)
        if (!store.has_candidate(code))
            code = settled_code(code, on_file, doubts);
    refuse_open_doubts(context, doubts);
    return codes;
}

void note_unknown(const Context& context, const Store& store, const std::vector<std::string>& codes) {
    const std::vector<std::string> known = store.candidates();
    for (const std::string& code : codes) {
        if (std::find(known.begin(), known.end(), code) != known.end())
            continue;
        const auto nearest = nearest_name(code, known);
        context.err << "inkturn: " << visible(code)
                    << " was not on file: added as a candidate with no marks yet"
                    << (nearest ? "; if " + visible(*nearest) + " is meant, 'inkturn undo' takes it back"
                                : "")
                    << '\n';
    }
}

void add_accept_option(Command& command, std::vector<std::string>& accepted) {
    command.option("--accept", accepted, "ANSWER", "Settle a doubt that is listed; may be repeated");
}

std::optional<DateOrder> date_order_named(const std::string& name) {
    if (name.empty())
        return std::nullopt;
    if (name == "dmy")
        return DateOrder::day_month_year;
    if (name == "mdy")
        return DateOrder::month_day_year;
    if (name == "ymd")
        return DateOrder::year_month_day;
    throw Error("--date-order '" + name + "': use dmy, mdy or ymd");
}

} // namespace inkturn
