#include "view/text/analysis.hpp"

#include "view/text/text.hpp"

#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t max_topic_width = 40;

std::string decimal(const Figure& figure) {
    return figure.has_value() ? inkturn::decimal(figure.value(), 2) : "-";
}

/// Rounded to the nearest whole number, halves up.
std::string percent(const Figure& share) {
    return share.has_value() ? std::to_string(std::lround(100 * share.value())) + "%" : "-";
}

std::string counted_candidates(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " candidate" : " candidates");
}

/// The parts without a figure, by reason; an empty label stands for the paper as a whole.
using Lacking = std::map<NoFigure, std::vector<std::string>>;

void note(Lacking& lacking, const Figure& figure, const std::string& part) {
    if (figure.has_value())
        return;
    std::vector<std::string>& parts = lacking[figure.why()];
    if (parts.empty() || parts.back() != part)
        parts.push_back(part);
}

Lacking lacking(const Paper& paper, const PaperAnalysis& analysis) {
    Lacking all;
    for (const Figure* figure : {&analysis.mean, &analysis.deviation, &analysis.alpha})
        note(all, *figure, "");
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        const PartAnalysis& part = analysis.parts[i];
        for (const Figure* figure : {&part.rest_correlation, &part.alpha_without, &part.discrimination,
                                     &part.not_attempted, &part.overtime})
            note(all, *figure, paper.parts()[i].label);
    }
    return all;
}

std::string worded(NoFigure why, const std::vector<std::string>& parts) {
    switch (why) {
    case NoFigure::no_candidate:
        return "nobody has sat the paper";
    case NoFigure::one_candidate:
        return "only one candidate has sat the paper, and the figure needs two";
    case NoFigure::one_part:
        return "the paper has one part, and the figure needs two";
    case NoFigure::two_parts:
        return "without a part only one is left, and alpha needs two";
    case NoFigure::no_spread_in_part:
        return "every candidate has the same mark in " + joined(parts, " and in ");
    case NoFigure::no_spread_in_rest:
        return "every candidate has the same total without " + joined(parts, " and without ");
    case NoFigure::no_spread_in_total:
        return "every candidate has the same total";
    case NoFigure::choice:
        return "candidates chose between questions, so their parts differ and there is no alpha";
    case NoFigure::nothing_earned:
        return "nobody has earned a mark in " + joined(parts, " or ");
    }
    return "";
}

std::string worded(Remark remark, const PartAnalysis& part) {
    switch (remark) {
    case Remark::check_marking:
        return "candidates who did well elsewhere did worse here: check the marking";
    case Remark::hard_for_the_strong:
        return "hard, even for the strong";
    case Remark::hard:
        return "hard";
    case Remark::time_trap:
        return "a time trap: " + percent(part.overtime) + " of its marks came in overtime";
    case Remark::often_left_out:
        return "often left out: not tried by " + percent(part.not_attempted);
    case Remark::easy:
        return "easy, so it says little";
    case Remark::tells_apart:
        return "separates the strong from the weak well";
    }
    return "";
}

/// A word longer than a line would make the line too wide.
std::string short_topic(const std::string& topic) {
    const std::string shown = visible(topic);
    return columns(shown) > max_topic_width ? fitted(shown, max_topic_width) : shown;
}

std::string reading(const Part& part, const PartAnalysis& analysis) {
    std::string text = part.label;
    if (!part.topic.empty())
        text += " (" + short_topic(part.topic) + ")";
    for (std::size_t i = 0; i < analysis.remarks.size(); ++i)
        text += (i == 0 ? ": " : "; ") + worded(analysis.remarks[i], analysis);
    return text;
}

} // namespace

Table paper_table(const PaperAnalysis& analysis) {
    Table table({{counted_candidates(analysis.candidates)},
                 {"of " + std::to_string(analysis.max.count()), Align::right}});
    table.add_row({"mean", decimal(analysis.mean)});
    table.add_row({"standard deviation", decimal(analysis.deviation)});
    table.add_row({"lower quartile", decimal(analysis.lower_quartile)});
    table.add_row({"median", decimal(analysis.median)});
    table.add_row({"upper quartile", decimal(analysis.upper_quartile)});
    table.add_row({"alpha", decimal(analysis.alpha)});
    table.add_row({"standard error of measurement", decimal(analysis.standard_error)});
    return table;
}

HtmlTable paper_page_table(const PaperAnalysis& analysis) {
    HtmlTable table{"Unaided marks for the whole paper, out of " + std::to_string(analysis.max.count()),
                    {{"figure"}, {"value", true}},
                    {{"candidates", std::to_string(analysis.candidates)}}};
    const std::pair<const char*, const Figure&> figures[] = {
        {"mean", analysis.mean},
        {"standard deviation", analysis.deviation},
        {"lower quartile", analysis.lower_quartile},
        {"median", analysis.median},
        {"upper quartile", analysis.upper_quartile},
        {"alpha", analysis.alpha},
        {"standard error of measurement", analysis.standard_error}};
    for (const auto& [name, figure] : figures)
        if (figure.has_value())
            table.rows.push_back({name, decimal(figure)});
    if (analysis.mean.has_value())
        table.rows.insert(table.rows.begin() + 2,
                          {"facility", percent(Figure(analysis.mean.value() / analysis.max.count()))});
    return table;
}

std::string why_no_alpha(const PaperAnalysis& analysis) {
    if (analysis.alpha.has_value())
        return "";
    return "No alpha, and so no standard error: " + worded(analysis.alpha.why(), {}) + ".";
}

Table parts_table(const Paper& paper, const PaperAnalysis& analysis) {
    // With the label cut as short as it goes, these titles take 80 columns; a real class's cells take no
    // more.
    Table table({{"part", Align::left_may_be_cut},
                 {"max", Align::right},
                 {"mean", Align::right},
                 {"facility", Align::right},
                 {"rest r", Align::right},
                 {"rest alpha", Align::right},
                 {"discr.", Align::right},
                 {"not tried", Align::right},
                 {"overtime", Align::right}});
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        const PartAnalysis& part = analysis.parts[i];
        table.add_row({paper.parts()[i].label, std::to_string(part.max.count()), decimal(part.mean),
                       decimal(part.facility), decimal(part.rest_correlation), decimal(part.alpha_without),
                       decimal(part.discrimination), percent(part.not_attempted), percent(part.overtime)});
    }
    return table;
}

std::string parts_key() {
    return text_line(
        "rest r: correlation with the rest of the paper. rest alpha: alpha without the part. discr.: mean "
        "of the top 27% by total minus the mean of the bottom 27%, as a share of the maximum.");
}

std::string reasons(const Paper& paper, const PaperAnalysis& analysis) {
    std::string lines;
    for (const auto& [why, parts] : lacking(paper, analysis))
        lines += text_line("-: " + worded(why, parts));
    return lines;
}

std::string counted_lines(const Paper& paper, const PaperAnalysis& analysis) {
    const std::size_t everyone = analysis.candidates + analysis.others;
    std::vector<std::string> fewer;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (analysis.parts[i].candidates < everyone)
            fewer.push_back(paper.parts()[i].label + " for " + std::to_string(analysis.parts[i].candidates));
    std::string lines;
    if (!fewer.empty())
        lines += text_line("Parts that did not count for all " + std::to_string(everyone) + ": " +
                           joined(fewer, ", ") + ". A part's figures are of those for whom it counted.");
    if (analysis.others > 0)
        lines += text_line(counted_candidates(analysis.others) + (analysis.others == 1 ? " was" : " were") +
                           " set other parts: totals, rest r, rest alpha and discr. are without " +
                           (analysis.others == 1 ? "that one." : "them."));
    return lines;
}

std::string ran_out_lines(const Paper& paper, const PaperAnalysis& analysis) {
    if (analysis.candidates == 0)
        return "";
    const std::size_t everyone = analysis.candidates + analysis.others;
    if (analysis.ran_out == 0)
        return text_line("To judge by the marks, nobody ran out of time.");
    std::vector<std::string> places;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (analysis.parts[i].ran_out > 0)
            places.push_back(std::to_string(analysis.parts[i].ran_out) + " at " + paper.parts()[i].label);
    return text_line("To judge by the marks, " + std::to_string(analysis.ran_out) + " of " +
                     counted_candidates(everyone) + " ran out of time: " + joined(places, ", ") + ".");
}

std::string readings(const Paper& paper, const PaperAnalysis& analysis) {
    if (analysis.candidates < PaperAnalysis::min_candidates_to_remark)
        return text_line("Too few candidates to say what the figures mean: at least " +
                         std::to_string(PaperAnalysis::min_candidates_to_remark) + " are needed.");
    std::string lines;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (!analysis.parts[i].remarks.empty())
            lines += text_line(reading(paper.parts()[i], analysis.parts[i]));
    return lines;
}

} // namespace inkturn
