#include "cli/entries.hpp"

#include "inkturn/error.hpp"
#include "sheet/retries.hpp"
#include "sheet/sittings.hpp"
#include "sheet/text.hpp"

#include <ostream>

namespace inkturn {
namespace {

void print_retries(const Context& context, const std::vector<Retry>& retries) {
    Seconds asked{0};
    for (const Retry& retry : retries)
        asked += retry.allowance;
    context.out << '\n'
                << counted_retries(retries.size()) << ", " << length_text(asked) << " in all:\n\n"
                << retries_by_day(retries);
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
    throw Error("--rest '" + text + "': say full (all earned in time) or none (not attempted)");
}

void print_sitting(const Context& context, const SittingRecord& record, const Candidate& candidate,
                   const std::vector<Retry>& retries, bool with_parts) {
    const Paper& paper = *record.paper;
    const Totals sum = totals(paper, record.sitting.parts);
    context.out << context.heading("Sitting " + std::to_string(static_cast<std::int64_t>(record.id)) + ": " +
                                   paper.id() + " on " + spoken(record.sitting.day))
                << ", candidate " << visible(candidate.code) << "\n\n";
    if (with_parts)
        context.out << marks_table(paper, record.sitting.parts) << '\n';
    context.out << totals_table(sum) << "\nWhen the ink changed, questions worth "
                << percent(reached(paper, record.sitting.parts), sum.max)
                << " of the marks had been tried.\n";

    std::vector<Retry> own;
    for (const Retry& retry : retries)
        if (retry.id.sitting == record.id)
            own.push_back(retry);
    if (own.empty())
        context.out << "Nothing to retry.\n";
    else
        print_retries(context, own);
    context.out << "\nNext: inkturn " << (own.empty() ? "today" : "plan") << '\n';
}

} // namespace inkturn
