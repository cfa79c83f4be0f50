#include "view/text/sittings.hpp"

#include "view/text/clock_face.hpp"
#include "view/text/marking.hpp"
#include "view/text/text.hpp"

#include "inkturn/paper/codes.hpp"

#include <algorithm>

namespace inkturn {
namespace {

using Align = Table::Align;

/// Why marks went, or why they don't count.
std::string reason_text(const PartMarks& marks) {
    if (!marks.is_set())
        return "not set";
    if (!marks.counts())
        return "not chosen";
    return marks.reason() ? std::string(name(*marks.reason())) : "";
}

/// The questions whose parts all hold, and beside them single parts.
template <typename Holds>
std::vector<std::string> labels_where(const Paper& paper, const Holds& holds) {
    std::vector<std::string> labels;
    for (const Question& question : paper.questions()) {
        if (std::all_of(question.parts.begin(), question.parts.end(), holds)) {
            labels.push_back(question.label);
            continue;
        }
        for (const std::size_t part : question.parts)
            if (holds(part))
                labels.push_back(paper.parts()[part].label);
    }
    return labels;
}

std::string list_of(const std::vector<std::string>& labels) {
    std::string text;
    for (std::size_t i = 0; i < labels.size(); ++i)
        text += (i == 0 ? "" : i + 1 == labels.size() ? " and " : ", ") + labels[i];
    return text;
}

} // namespace

std::string counted_text(const Paper& paper, const std::vector<PartMarks>& parts) {
    const auto not_set = labels_where(paper, [&](std::size_t part) { return !parts[part].is_set(); });
    const auto not_chosen =
        labels_where(paper, [&](std::size_t part) { return parts[part].is_set() && !parts[part].counts(); });
    std::string text;
    if (!not_set.empty())
        text += "Only " + counted_marks(totals(paper, parts).max) + " of " +
                std::to_string(paper.marks().count()) + " were set: " + list_of(not_set) +
                (not_set.size() == 1 ? " was" : " were") + " not set, and " +
                (not_set.size() == 1 ? "is" : "are") + " left out of every figure. ";
    if (!not_chosen.empty())
        text += "By the paper's choice " + list_of(not_chosen) +
                (not_chosen.size() == 1 ? " doesn't" : " don't") + " count. ";
    if (const Marks open = marks_left_open(paper, parts); open > Marks(0))
        text += "Too few questions of the choice were tried: " + counted_marks(open) +
                (open == Marks(1) ? " is" : " are") + " lost on no question, and make no retry. ";
    if (text.empty())
        return "";
    text.pop_back();
    return wrapped(text, text_width()) + '\n';
}

std::string extra_time_text(ExtraTime extra) {
    if (extra.percent() == 0)
        return "";
    return wrapped(std::to_string(extra.percent()) +
                       "% extra time is included, which only the centre and awarding body can grant.",
                   text_width()) +
           '\n';
}

std::string percent(Marks part, Marks whole) {
    if (whole == Marks(0))
        return "-";
    return std::to_string((200 * part.count() + whole.count()) / (2 * whole.count())) + "%";
}

Table totals_table(const Totals& sum) {
    Table table({{"", Align::left}, {"marks", Align::right}, {"of " + marks_number(sum.max), Align::right}});
    table.add_row({"in time", marks_number(sum.in_time), percent(sum.in_time, sum.max)});
    table.add_row({"overtime", marks_number(sum.overtime), percent(sum.overtime, sum.max)});
    table.add_row({"unaided", marks_number(sum.unaided()), percent(sum.unaided(), sum.max)});
    table.add_row({"corrected", marks_number(sum.corrected), percent(sum.corrected, sum.max)});
    table.add_row({"unearned", marks_number(sum.unearned()), percent(sum.unearned(), sum.max)});
    return table;
}

std::string time_text(const Paper& paper, const Sitting& sitting) {
    const auto clock = clock_of(paper, sitting);
    if (!clock)
        return text_line("When the ink changed, questions worth " +
                         percent(reach_of(paper, sitting.parts), totals(paper, sitting.parts).max) +
                         " of the marks had been tried.");
    const std::string slow = slow_text(*clock);
    return wrapped(clock_summary(*clock), text_width()) + '\n' + slow + (slow.empty() ? "" : "\n");
}

Table marks_table(const Paper& paper, const std::vector<PartMarks>& parts) {
    const bool coded =
        std::any_of(parts.begin(), parts.end(), [](const PartMarks& marks) { return marks.by_code(); });
    std::vector<Table::Column> columns{{"part"},
                                       {"max", Align::right},
                                       {"in time", Align::right},
                                       {"overtime", Align::right},
                                       {"corrected", Align::right},
                                       {"reason"}};
    if (coded)
        columns.push_back({"codes", Align::left_may_be_cut});
    columns.push_back({"topic", Align::left_may_be_cut});
    Table table(std::move(columns));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Part& part = paper.parts()[i];
        const PartMarks& marks = parts[i];
        const auto earned = [&](Marks phase) {
            return phase == Marks(0) ? std::string() : marks_number(phase);
        };
        std::vector<std::string> row{part.label,
                                     marks_number(part.max),
                                     marks.attempted() ? marks_number(marks.in_time())
                                     : marks.is_set()  ? "-"
                                                       : "",
                                     earned(marks.overtime()),
                                     earned(marks.corrected()),
                                     reason_text(marks)};
        if (coded)
            row.push_back(marks.by_code() ? codes_text(part, *marks.by_code()) : "");
        row.push_back(part.topic);
        table.add_row(std::move(row));
    }
    return table;
}

Table scripts_table(const std::vector<Script>& scripts) {
    Table table({{"script", Align::right},
                 {"paper", Align::left_may_be_cut},
                 {"question"},
                 {"started"},
                 {"parts marked"}});
    for (const Script& script : scripts) {
        const auto marked = std::count_if(script.marks.begin(), script.marks.end(),
                                          [](const auto& part) { return part && part->is_set(); });
        const auto left = std::count(script.marks.begin(), script.marks.end(), std::nullopt);
        table.add_row({to_text(script.id), script.paper->id(),
                       script.id.retry ? script.id.retry->question : "all", day_text(script.day),
                       script.is_handed_in() ? std::to_string(marked) + " of " + std::to_string(marked + left)
                                             : "clock running"});
    }
    return table;
}

Table sittings_table(const Candidate& candidate, const std::vector<Retry>& retries) {
    Table table({{"sitting", Align::right},
                 {"paper", Align::left_may_be_cut},
                 {"date"},
                 {"in time", Align::right},
                 {"unaided", Align::right},
                 {"corrected", Align::right},
                 {"of", Align::right},
                 {"to retry", Align::right}});
    for (const SittingRecord& record : candidate.sittings) {
        const Totals sum = totals(*record.paper, record.sitting.parts);
        const auto open = std::count_if(retries.begin(), retries.end(),
                                        [&](const Retry& retry) { return retry.id.sitting == record.id; });
        table.add_row({std::to_string(static_cast<std::int64_t>(record.id)), record.paper->id(),
                       day_text(record.sitting.day), marks_number(sum.in_time), marks_number(sum.unaided()),
                       marks_number(sum.corrected), marks_number(sum.max), std::to_string(open)});
    }
    return table;
}

} // namespace inkturn
