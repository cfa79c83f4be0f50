#include "view/text/class_standing.hpp"

#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <map>

namespace inkturn {
namespace {

using Align = Table::Align;

std::string tenths(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.1f", value);
    return text.data();
}

std::string why_none(NoFigure why) {
    switch (why) {
    case NoFigure::one_candidate:
        return "only one candidate has sat the paper";
    case NoFigure::one_part:
        return "the paper has one part";
    case NoFigure::no_spread_in_total:
        return "every candidate has the same total";
    default:
        return "nobody has sat the paper";
    }
}

std::string error_text(const SharedBasis& basis) {
    if (basis.standard_error.has_value())
        return "standard error " + tenths(basis.standard_error.value()) + " marks";
    return "no standard error: " +
           (basis.papers.size() == 1 ? why_none(basis.standard_error.why()) : "one of the papers has none");
}

std::string basis_line(const SharedBasis& basis) {
    std::string papers;
    for (const auto& paper : basis.papers)
        papers += (papers.empty() ? "" : ", ") + paper->id();
    return text_line("Based on " + papers + ", sat by " + count_text(basis.candidates, "candidate") + "; " +
                     error_text(basis) + ".");
}

bool has_standard_error(const SharedBasis& basis) {
    return basis.standard_error.has_value();
}

} // namespace

Table grades_table(const ClassUnder& under) {
    Table table({{"grade", Align::left_may_be_cut},
                 {"from", Align::right},
                 {"unaided", Align::right},
                 {"or better", Align::right},
                 {"in time", Align::right},
                 {"or better", Align::right}});
    for (std::size_t i = 0; i < under.grades.size(); ++i) {
        const GradeBoundary& boundary = under.set.grades[i];
        const GradeCount& count = under.grades[i];
        table.add_row({boundary.grade, std::to_string(boundary.mark.count()),
                       std::to_string(count.reached.unaided), std::to_string(count.or_better.unaided),
                       std::to_string(count.reached.in_time), std::to_string(count.or_better.in_time)});
    }
    table.add_row(
        {"none", "", std::to_string(under.below.unaided), "", std::to_string(under.below.in_time), ""});
    return table;
}

std::optional<Table> near_table(const ClassUnder& under) {
    if (under.near.empty())
        return std::nullopt;
    Table table({{"candidate", Align::left_may_be_cut},
                 {"unaided", Align::right},
                 {"grade", Align::left_may_be_cut},
                 {"from", Align::right},
                 {"by", Align::right},
                 {"error", Align::right}});
    for (const NearBoundary& near : under.near) {
        const GradeBoundary& boundary = under.set.grades[near.boundary];
        table.add_row({near.candidate, std::to_string(near.unaided.count()), boundary.grade,
                       std::to_string(boundary.mark.count()), with_sign(near.above),
                       tenths(under.bases[near.basis].standard_error.value())});
    }
    return table;
}

std::string counted_line(const ClassUnder& under) {
    if (under.counted == 0)
        return text_line("Nobody counted: no marks fit the set's total.");
    return text_line(count_text(under.counted, "candidate") + " counted" +
                     (under.not_counted == 0 ? "."
                                             : "; " + std::to_string(under.not_counted) +
                                                   " not, as their marks don't fit the set's total."));
}

std::string basis_lines(const ClassUnder& under) {
    std::string lines;
    for (const SharedBasis& basis : under.bases)
        lines += basis_line(basis);
    return lines;
}

std::string near_line(const ClassUnder& under) {
    if (std::none_of(under.bases.begin(), under.bases.end(), has_standard_error))
        return "";
    if (under.near.empty())
        return text_line("Nobody is within the standard error of a boundary.");
    return text_line(std::to_string(under.near.size()) + " of " + std::to_string(under.counted) +
                     " within the standard error of the nearest boundary, by unaided marks:");
}

std::string one_set_lines(const std::vector<ClassUnder>& all) {
    std::map<std::string, std::size_t> sets; // that fit, by subject
    for (const ClassUnder& under : all)
        if (under.counted > 0)
            ++sets[under.set.subject];
    std::string lines;
    for (const auto& [subject, count] : sets)
        if (count == 1)
            lines +=
                text_line("There is only one set" + (subject.empty() ? "" : " for " + short_name(subject)) +
                          ", so no range: boundaries move. Add more series with 'inkturn boundaries add'.");
    return lines;
}

std::string class_standing_caution() {
    return standing_caution() +
           wrapped("The standard error (of measurement) is how far totals typically lie from what the same "
                   "candidates would average on papers like these: near a boundary the grade could easily "
                   "have been the next one.",
                   text_width()) +
           '\n';
}

} // namespace inkturn
