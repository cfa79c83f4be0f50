#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/entries.hpp"

#include "exchange/json/pace.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/pace.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct PaceOptions {
    std::string paper;
    std::string start;
    std::string extra_time;
    std::string only;
};

void print(const Context& context, const Pace& pace, const std::string& start) {
    const auto& [paper, extra, parts, marks, length, has_choice] = pace;
    std::optional<Seconds> from;
    if (!start.empty())
        from = parse_time_of_day(start);
    context.out << context.heading("Pace for " + paper.id()) << ": " << marks.count() << " marks in "
                << length_text(length);
    if (extra.percent() > 0)
        context.out << ", " << extra.percent() << "% extra time included";
    context.out << "\n\n";

    std::vector<Table::Column> columns{{"part"},
                                       {"marks", Table::Align::right},
                                       {"time", Table::Align::right},
                                       {"done by", Table::Align::right}};
    if (from)
        columns.push_back({"clock", Table::Align::right});
    Table table(columns);
    for (const Pace::PacedPart& one : parts) {
        const Part& part = paper.parts()[one.position];
        std::vector<std::string> cells{part.label, std::to_string(part.max.count()),
                                       length_text(one.allowance), one.by ? length_text(*one.by) : "-"};
        if (from)
            cells.push_back(one.by ? time_of_day_text(*from + *one.by) : "-");
        table.add_row(cells);
    }
    context.out << table << "\nAt " << (from ? time_of_day_text(*from + length) : length_text(length))
                << " change ink and finish.\n";
    if (has_choice)
        context.out << wrapped("Not every question of a choice counts, so the times from there on depend on "
                               "which are tried: --only shows them for those you choose.",
                               text_width())
                    << '\n';
    if (extra.percent() > 0)
        context.out << "Only the centre and the awarding body can grant extra time.\n";
    context.out << "Next, once it's marked: inkturn log " << paper.id() << " PART=MARKS... --rest full\n";
}

void run(const Context& context, const PaceOptions& options) {
    const Store store = context.store_to_read();
    const auto paper = Context::paper_on_file(store, options.paper);
    const Pace pace =
        pace_of(*paper, extra_time_of(context, options.extra_time, store.candidate(context.candidate_code())),
                parse_only(*paper, options.only));
    context.answer([&] { return json_of(pace); }, [&] { print(context, pace, options.start); });
}

} // namespace

void add_pace(Command& line) {
    auto options = std::make_shared<PaceOptions>();
    Command pace = line.command("pace", "The time for each part of a paper, to keep beside you");
    pace.argument("PAPER", options->paper, "The paper's id").required();
    pace.option("--start", options->start, "09:00", "Show clock times too, starting at this time of day");
    pace.option("--only", options->only, "1-3,7", "Only these parts and questions (all)");
    pace.option("--extra-time", options->extra_time, "P",
                "Extra time granted, in percent (the candidate's own)");
    pace.json();
    pace.closing("Example:\n  inkturn pace pure-1 --start 09:00 --extra-time 25");
    pace.runs(options, run);
}

} // namespace inkturn
