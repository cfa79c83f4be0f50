#include "cli/class/class.hpp"
#include "cli/class/class_work.hpp"

#include "exchange/json/returned.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/retry/returned.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

constexpr Days returned_span{14};

struct ReturnedOptions {
    std::string of_class;
    std::string from;
    std::string to;
};

/// The two weeks up to today if nothing was typed.
DaySpan span_of(const Context& context, const ReturnedOptions& options) {
    const Day last = context.date_passed(options.to);
    const Day first =
        options.from.empty() ? last - returned_span + Days{1} : context.date_passed(options.from);
    return parse_day_span(iso(first) + ".." + iso(last), context.date_today());
}

std::vector<ReturnedWork> work_of(const Context& context, const ReturnedOptions& options, const Store& store,
                                  DaySpan span) {
    std::vector<ReturnedWork> work;
    each_of_class(context, store, options.of_class,
                  [&](const Candidate& candidate, const std::vector<Retry>& open) {
                      work.push_back(returned_work(candidate, open, span, context.date_today()));
                  });
    return work;
}

/// `K05 (3 late, by up to 12 days)`.
std::string asked_text(const ReturnedWork& one) {
    return visible(one.candidate) + " (" + std::to_string(one.to_ask_for()) + " late, by " +
           (one.to_ask_for() > 1 ? "up to " : "") +
           count_text(static_cast<std::size_t>(one.longest_late.count()), "day") + ")";
}

/// Who to ask, or that there is nobody to.
std::string who_to_ask(const std::vector<ReturnedWork>& work, std::size_t due, std::size_t recorded,
                       std::size_t rested) {
    constexpr std::size_t max_asked = 5;
    const std::vector<ReturnedWork> late = those_to_ask(work);
    if (late.empty())
        return text_line(due == 0
                             ? "Nothing was due: there is nobody to ask."
                             : "By the windows there is nobody to ask: " + std::to_string(recorded) + " of " +
                                   counted_retries(due) + " due are recorded, and " +
                                   (rested > 0        ? "the exam of the others has passed."
                                    : recorded == due ? "none is missing."
                                                      : "no window has closed. If a letter asked for them "
                                                        "sooner, go by its day."));
    std::vector<std::string> asked;
    for (std::size_t i = 0; i < late.size() && i < max_asked; ++i)
        asked.push_back(asked_text(late[i]));
    const std::size_t others = late.size() - asked.size();
    if (others > 0)
        asked.push_back(std::to_string(others) + (others == 1 ? " other" : " others"));
    return text_line("Ask " + joined(asked, " and ") +
                     ": these are not recorded, and their windows have closed.");
}

Table returned_table(const std::vector<ReturnedWork>& work) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"due", Table::Align::right},
                 {"recorded", Table::Align::right},
                 {"planned", Table::Align::right},
                 {"late", Table::Align::right},
                 {"longest late", Table::Align::right, true},
                 {"last recorded"}});
    for (const ReturnedWork& one : work)
        table.add_row({one.candidate, std::to_string(one.due), std::to_string(one.recorded),
                       std::to_string(one.planned), std::to_string(one.late),
                       one.to_ask_for() > 0
                           ? count_text(static_cast<std::size_t>(one.longest_late.count()), "day")
                           : "",
                       one.last_recorded ? day_text(*one.last_recorded) : "never"});
    return table;
}

void print(const Context& context, const ReturnedOptions& options, const std::vector<ReturnedWork>& work,
           DaySpan span) {
    std::size_t due = 0;
    std::size_t recorded = 0;
    std::size_t not_placed = 0;
    std::size_t rested = 0;
    for (const ReturnedWork& one : work) {
        rested += one.rested;
        due += one.due;
        recorded += one.recorded;
        not_placed += one.not_placed;
    }
    context.out << context.heading("Retries back, " + day_text(span)) << ": " << recorded << " of " << due
                << '\n'
                << who_to_ask(work, due, recorded, rested);
    if (due > 0)
        context.out << '\n'
                    << returned_table(work) << '\n'
                    << text_line("due: their windows opened by " + date_text(span.last) +
                                 ", and they were not done before " + date_text(span.first) +
                                 "; planned: on a day still to come.");
    if (rested > 0)
        context.out << text_line(counted_retries(rested) + (rested == 1 ? " was" : " were") +
                                 " never recorded before the exam, so " +
                                 (rested == 1 ? "it is" : "they are") +
                                 " counted as late; after the last exam of a subject retries rest.");
    if (not_placed > 0)
        context.out << counted_retries(not_placed) << " of those due " << (not_placed == 1 ? "has" : "have")
                    << " no day with room.\n";
    context.out << "Next: inkturn class retries" << class_words(options.of_class) << '\n';
}

void run(const Context& context, const ReturnedOptions& options) {
    const DaySpan span = span_of(context, options);
    const Store store = context.store_to_read();
    const std::vector<ReturnedWork> work = work_of(context, options, store, span);
    context.answer([&] { return json_of(span, work); }, [&] { print(context, options, work, span); });
}

} // namespace

void add_class_returned(Command& group) {
    auto options = std::make_shared<ReturnedOptions>();
    Command command =
        group.command("returned", "Whom to ask: which retries were due, are recorded, or are late");
    add_class_looked_at(command, options->of_class, "Only this class (all on file)");
    command.option("--from", options->from, "D", "First day (13 days before the last)");
    command.option("--to", options->to, "D", "Last day (today)");
    command.json();
    command.closing("Example:\n  inkturn class returned --class tuesday --from 2026-11-16 --to 2026-11-29");
    command.runs(options, run);
}

} // namespace inkturn
