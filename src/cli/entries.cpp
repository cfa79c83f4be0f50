#include "cli/entries.hpp"

#include "cli/desk/at_desk.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "exchange/json/sitting.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "view/text/clock_face.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/steering.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <ostream>

namespace inkturn {
namespace {

void print_retries(const Context& context, const std::vector<Retry>& retries) {
    Seconds planned{0};
    for (const Retry& retry : retries)
        planned += retry.allowance;
    context.out << '\n'
                << counted_retries(retries.size()) << ", " << length_text(planned) << " in all:\n\n"
                << retries_by_day(retries, context.date_today());
}

void print_lost(const Context& context, const LostByReason& lost) {
    if (lost.all() == lost.unstated + lost.left_open)
        return;
    std::string text = "Lost:";
    for (const Reason reason : all_reasons)
        if (lost.of(reason) > Marks(0))
            text += " " + std::to_string(lost.of(reason).count()) + " to " + std::string(name(reason)) + ",";
    if (lost.left_open > Marks(0))
        text += " " + std::to_string(lost.left_open.count()) + " to questions not tried,";
    if (lost.unstated > Marks(0))
        text += " " + std::to_string(lost.unstated.count()) + " without a reason,";
    text.back() = '.';
    context.out << '\n' << text << '\n';
}

void print_sitting_for_people(const Context& context, const Candidate& candidate, const SittingRecord& record,
                              const KeptTimetable& kept, bool with_parts) {
    const Paper& paper = *record.paper;
    const Totals sum = totals(paper, record.sitting.parts);
    context.out << context.heading("Sitting " + std::to_string(static_cast<std::int64_t>(record.id)) + ": " +
                                   paper.id() + " on " + day_text(record.sitting.day))
                << ", candidate " << visible(candidate.code) << "\n\n";
    if (with_parts)
        context.out << marks_table(paper, record.sitting.parts) << '\n';
    context.out << totals_table(sum) << counted_text(paper, record.sitting.parts);
    print_lost(context, lost_by_reason(paper, record.sitting.parts));
    context.out << '\n';
    const auto clock = clock_of(paper, record.sitting);
    if (clock && with_parts)
        print_clock(context, *clock);
    else if (clock)
        context.out << wrapped(clock_summary(*clock), Table::full_width) << '\n';
    else
        context.out << "When the ink changed, questions worth "
                    << percent(reach_of(paper, record.sitting.parts), sum.max)
                    << " of the marks had been tried.\n";

    if (const std::string let_go = let_go_text(candidate, record); !let_go.empty())
        context.out << let_go;
    context.out << extra_time_text(record.sitting.extra_time) << rule_text(candidate.wishes.retries);
    print_retries_of(context, kept, record.id);
}

} // namespace

std::vector<Entry> parse_entries(const std::vector<std::string>& texts) {
    std::vector<Entry> entries;
    for (const std::string& text : texts)
        entries.push_back(parse_entry(text));
    return entries;
}

std::optional<Rest> parse_rest(const std::string& text) {
    if (text.empty())
        return std::nullopt;
    if (text == "full")
        return Rest::full;
    if (text == "none")
        return Rest::none;
    throw Error("--rest '" + text + "': use full (all earned in time) or none (not attempted)");
}

ExtraTime extra_time_of(const std::string& typed, const Candidate& candidate) {
    if (typed.empty())
        return candidate.extra_time.value_or(ExtraTime());
    return ExtraTime(parse_whole_number(typed, 0, ExtraTime::max_percent, "--extra-time"));
}

std::optional<std::vector<std::size_t>> parse_only(const Paper& paper, const std::string& text) {
    if (text.empty())
        return std::nullopt;
    try {
        return parts_set(paper, text);
    } catch (const Error& error) {
        throw error.within("--only ");
    }
}

void print_sitting(const Context& context, const Candidate& candidate, SittingId id,
                   const KeptTimetable& kept, bool with_parts) {
    const SittingRecord& record = get_sitting(candidate, id);
    context.answer([&] { return json_of(record, candidate, kept.retries); },
                   [&] { print_sitting_for_people(context, candidate, record, kept, with_parts); });
}

void print_retries_of(const Context& context, const KeptTimetable& kept, SittingId id) {
    std::vector<Retry> retries_of_sitting;
    for (const Retry& retry : kept.retries)
        if (retry.id.sitting == id)
            retries_of_sitting.push_back(retry);
    if (retries_of_sitting.empty())
        context.out << "Nothing to retry.\n";
    else
        print_retries(context, retries_of_sitting);
    std::vector<PlanChange> others; // the table above has the days of its own
    const std::string own = std::to_string(static_cast<std::int64_t>(id)) + "q";
    for (const PlanChange& moved : kept.moved)
        if (moved.kind != WorkKind::retry || moved.what.rfind(own, 0) != 0)
            others.push_back(moved);
    context.out << '\n'
                << changes_text(others) << "Next: inkturn " << (retries_of_sitting.empty() ? "today" : "plan")
                << '\n';
}

} // namespace inkturn
