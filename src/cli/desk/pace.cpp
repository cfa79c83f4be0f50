#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/pace.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/clock/allowance.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct PaceOptions {
    std::string paper;
    std::string start;
    std::string extra_time;
};

void print(const Context& context, const Paper& paper, ExtraTime extra, const std::string& start) {
    std::optional<Seconds> from;
    if (!start.empty())
        from = parse_time_of_day(start);
    const std::vector<Seconds> allowances = part_allowances(paper, extra);
    const std::vector<Seconds> times = checkpoints(paper, extra);

    context.out << context.heading("Pace for " + paper.id()) << ": " << paper.marks().count() << " marks in "
                << length_text(allowance(paper, extra));
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
    for (std::size_t i = 0; i < times.size(); ++i) {
        const Part& part = paper.parts()[i];
        std::vector<std::string> cells{part.label, std::to_string(part.max.count()),
                                       length_text(allowances[i]), length_text(times[i])};
        if (from)
            cells.push_back(time_of_day_text(*from + times[i]));
        table.add_row(cells);
    }
    context.out << table << "\nAt "
                << (from ? time_of_day_text(*from + times.back()) : length_text(times.back()))
                << " change ink and finish.\n";
    if (extra.percent() > 0)
        context.out << "Only the centre and the awarding body can grant extra time.\n";
    context.out << "Next, once it's marked: inkturn log " << paper.id() << " PART=MARKS... --rest full\n";
}

void run(const Context& context, const PaceOptions& options) {
    ExtraTime extra;
    if (!options.extra_time.empty())
        extra = ExtraTime(parse_whole_number(options.extra_time, 0, ExtraTime::max_percent, "--extra-time"));
    const auto paper = Context::paper_on_file(context.store_to_read(), options.paper);
    context.answer([&] { return json_of_pace(*paper, extra); },
                   [&] { print(context, *paper, extra, options.start); });
}

} // namespace

void add_pace(Command& line) {
    auto options = std::make_shared<PaceOptions>();
    Command pace = line.command("pace", "The time for each part of a paper, to keep beside you");
    pace.argument("PAPER", options->paper, "The paper's id").required();
    pace.option("--start", options->start, "09:00", "Show clock times too, starting at this time of day");
    pace.option("--extra-time", options->extra_time, "P", "Extra time granted, in percent");
    pace.json();
    pace.closing("Example:\n  inkturn pace pure-1 --start 09:00 --extra-time 25");
    pace.runs(options, run);
}

} // namespace inkturn
