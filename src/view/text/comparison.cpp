#include "view/text/comparison.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t max_name_width = 12;

std::string short_side(const std::string& name) {
    const std::string shown = visible(name);
    return columns(shown) > max_name_width ? fitted(shown, max_name_width) : shown;
}

std::string signed_decimal(double value, int places) {
    const std::string text = inkturn::decimal(value, places);
    return value > 0 && text != inkturn::decimal(0, places) ? "+" + text : text;
}

/// `-3.2 to +0.4`; `-` where there is none.
std::string interval_text(const Difference& difference, double times, int places) {
    if (!difference.interval)
        return "-";
    return signed_decimal(times * difference.interval->low, places) + " to " +
           signed_decimal(times * difference.interval->high, places);
}

std::string in_percent(const Sample& sample) {
    return std::to_string(std::lround(100 * sample.mean)) + "%";
}

std::string mean_text(const Sample& sample) {
    return sample.size == 0 ? "-" : inkturn::decimal(sample.mean, 2);
}

std::string deviation_text(const Sample& sample) {
    return sample.size < 2 ? "-" : inkturn::decimal(std::sqrt(sample.variance), 2);
}

std::string labels_beyond_chance(const Comparison& comparison, bool a_is_higher) {
    std::vector<std::string> labels;
    for (const PartCompared& part : comparison.parts)
        if (part.is_beyond_chance() && (part.difference.difference > 0) == a_is_higher)
            labels.push_back(part.label);
    return joined(labels, " and ");
}

std::string finding_on_totals(const Comparison& comparison, const SideNames& names) {
    const Difference& total = comparison.total;
    if (comparison.closed)
        return "No totals are kept of a closed class, so only the parts are compared.";
    if (!total.interval)
        return "Nothing can be said of the totals: each side needs five candidates who were set the same "
               "parts, and totals that vary.";
    const std::string higher = short_side(total.difference > 0 ? names.a : names.b);
    if (total.interval->low <= 0 && total.interval->high >= 0)
        return "Totals: no difference beyond chance.";
    return "Totals: " + higher + " is higher by " + inkturn::decimal(std::fabs(total.difference), 1) +
           " of " + counted_marks(comparison.max) + " on average, more than chance easily makes.";
}

std::string finding_on_parts(const Comparison& comparison, const SideNames& names) {
    const std::size_t tested = comparison.parts_tested();
    if (tested == 0)
        return comparison.parts.empty()
                   ? "No part could be compared."
                   : "Nothing can be said of the parts: each side needs five candidates, "
                     "and marks that vary.";
    const std::string a = labels_beyond_chance(comparison, true);
    const std::string b = labels_beyond_chance(comparison, false);
    const std::string looked = "the " + count_text(tested, "part") + " looked at";
    if (a.empty() && b.empty())
        return "Parts: none differs beyond chance, allowing for " + looked + ".";
    std::string text = "Parts beyond chance, allowing for " + looked + ": ";
    text += a.empty() ? "" : short_side(names.a) + " is higher in " + a;
    text += !a.empty() && !b.empty() ? "; " : "";
    return text + (b.empty() ? "" : short_side(names.b) + " is higher in " + b) + ".";
}

} // namespace

Table totals_table(const Comparison& comparison, const SideNames& names) {
    Table table({{"totals out of " + std::to_string(comparison.max.count())},
                 {short_side(names.a), Align::right},
                 {short_side(names.b), Align::right},
                 {"difference", Align::right},
                 {"95% interval"}});
    const Sample& a = comparison.a;
    const Sample& b = comparison.b;
    table.add_row({"candidates", std::to_string(a.size), std::to_string(b.size), "", ""});
    table.add_row({"mean", mean_text(a), mean_text(b),
                   a.size > 0 && b.size > 0 ? signed_decimal(comparison.total.difference, 2) : "-",
                   interval_text(comparison.total, 1, 2)});
    table.add_row({"standard deviation", deviation_text(a), deviation_text(b), "", ""});
    return table;
}

Table differing_parts_table(const Comparison& comparison, const SideNames& names) {
    Table table({{"part"},
                 {"topic", Align::left_may_be_cut, true},
                 {"max", Align::right},
                 {short_side(names.a), Align::right},
                 {short_side(names.b), Align::right},
                 {"points", Align::right},
                 {"95% interval"},
                 {"chance"}});
    for (std::size_t i = 0; i < std::min(Comparison::most, comparison.parts.size()); ++i) {
        const PartCompared& part = comparison.parts[i];
        table.add_row({part.label, part.topic, std::to_string(part.max.count()), in_percent(part.a),
                       in_percent(part.b), signed_decimal(100 * part.difference.difference, 0),
                       interval_text(part.difference, 100, 0),
                       !part.difference.interval ? "-"
                       : part.is_beyond_chance() ? "beyond"
                                                 : "within"});
    }
    return table;
}

std::string comparison_findings(const Comparison& comparison, const SideNames& names) {
    return text_line(finding_on_totals(comparison, names)) + text_line(finding_on_parts(comparison, names));
}

std::string comparison_notes(const Comparison& comparison) {
    std::string lines = text_line(
        "Differences are the first less the second, by unaided marks, with Welch's 95% interval. "
        "Beyond chance: if classes are alike, at most one such page in 20 names a part. It doesn't say "
        "why they differ.");
    if (comparison.closed)
        lines +=
            text_line("How much the closed class's marks varied was not kept. They are taken to vary as much "
                      "as they can, so what is beyond chance here is so however they varied.");
    const auto untested = comparison.parts.size() - comparison.parts_tested();
    if (untested > 0)
        lines +=
            text_line("-: a side has fewer than five candidates, or all of both sides have the same mark.");
    if (comparison.without_total > 0)
        lines += text_line(count_text(comparison.without_total, "candidate") +
                           (comparison.without_total == 1 ? " was" : " were") +
                           " not set all of it: not in the totals.");
    if (comparison.on_both > 0)
        lines += text_line(
            count_text(comparison.on_both, "candidate") + (comparison.on_both == 1 ? " is" : " are") +
            " on both sides; the intervals take the sides for different people, so they may be "
            "too wide.");
    if (!comparison.unlike.empty())
        lines += text_line("Parts that only one paper has, or that have other maxima, are left out: " +
                           joined(comparison.unlike, ", ") + ".");
    if (!comparison.other_topics.empty())
        lines += text_line("Parts that are about another topic in the other paper are left out: " +
                           joined(comparison.other_topics, ", ") + ".");
    return lines;
}

} // namespace inkturn
