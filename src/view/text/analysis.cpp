#include "view/text/analysis.hpp"

#include "inkturn/statistics/findings.hpp"
#include "view/text/findings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
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

/// Why figures are missing: of the paper as a whole, and of parts for reasons of their own. `some` are those
/// of which a part's figures leave out others.
struct Lacking {
    std::set<NoFigure> whole;
    std::map<NoFigure, std::vector<std::string>> of_all;
    std::map<NoFigure, std::vector<std::string>> of_some;
};

void note(Lacking& lacking, const Figure& figure, const std::string& part, bool is_of_all) {
    if (figure.has_value() || lacking.whole.count(figure.why()) > 0)
        return;
    std::vector<std::string>& parts = (is_of_all ? lacking.of_all : lacking.of_some)[figure.why()];
    if (parts.empty() || parts.back() != part)
        parts.push_back(part);
}

Lacking lacking(const Paper& paper, const PaperAnalysis& analysis) {
    Lacking all;
    for (const Figure* figure :
         {&analysis.mean, &analysis.deviation, &analysis.alpha, &analysis.standard_error})
        if (!figure->has_value())
            all.whole.insert(figure->why());
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        const PartAnalysis& part = analysis.parts[i];
        const bool is_of_all = part.compared == analysis.candidates + analysis.others;
        for (const Figure* figure : {&part.rest_correlation, &part.alpha_without, &part.discrimination})
            note(all, *figure, paper.parts()[i].label, is_of_all);
        for (const Figure* figure : {&part.not_attempted, &part.overtime})
            note(all, *figure, paper.parts()[i].label, true);
    }
    return all;
}

std::string few_below() {
    return std::to_string(PaperAnalysis::min_candidates_to_correlate);
}

/// Of the paper as a whole.
std::string worded(NoFigure why, std::size_t others) {
    switch (why) {
    case NoFigure::one_candidate:
        return std::string("a standard deviation needs two candidates") +
               (others == 0 ? "" : " who were set the same parts");
    case NoFigure::few_candidates:
        return "at least " + few_below() + " candidates" +
               (others == 0 ? "" : " who were set the same parts") + " are needed";
    case NoFigure::one_question:
        return "only one question was set, and alpha needs two";
    case NoFigure::no_spread_in_total:
        return others == 0 ? "every candidate has the same total" : "all those compared have the same total";
    case NoFigure::choice:
        return "candidates chose between questions, so their parts differ";
    case NoFigure::alpha_below_zero:
        return "alpha is below 0 (who did well in one question did no better in the others), so there is no "
               "standard error";
    default:
        return "nobody has sat the paper";
    }
}

/// Of parts that counted for all.
std::string worded(NoFigure why, const std::vector<std::string>& parts) {
    switch (why) {
    case NoFigure::no_candidate:
        return joined(parts, " and ") + " counted for nobody";
    case NoFigure::one_part:
        return "only one part was set, so there is no rest";
    case NoFigure::two_questions:
        return "without " + joined(parts, " or ") + " only one question is left, and alpha needs two";
    case NoFigure::no_spread_in_part:
        return "every candidate has the same mark in " + joined(parts, " and in ");
    case NoFigure::no_spread_in_rest:
        return "every candidate has the same total without " + joined(parts, " and without ");
    case NoFigure::nothing_earned:
        return "nobody has earned a mark in " + joined(parts, " or ");
    default:
        return worded(why, std::size_t{0});
    }
}

/// Of parts that didn't count for all.
std::string worded_of_some(NoFigure why, const std::vector<std::string>& parts) {
    const std::string these = joined(parts, " and ");
    switch (why) {
    case NoFigure::no_candidate:
        return these + " counted for nobody whose total is compared";
    case NoFigure::few_candidates:
        return these + " counted for fewer than " + few_below() + " of those compared";
    case NoFigure::no_spread_in_part:
        return "all those compared for whom it counted have the same mark in " + joined(parts, " and in ");
    case NoFigure::no_spread_in_rest:
        return "all those compared for whom it counted have the same total without " +
               joined(parts, " and without ");
    case NoFigure::no_spread_in_total:
        return "all those compared for whom " + these + " counted have the same total";
    default:
        return worded(why, parts);
    }
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

bool is_few(std::size_t candidates) {
    return candidates < PaperAnalysis::min_candidates_to_rely_on;
}

std::string remarks_text(const PartAnalysis& part) {
    std::string text;
    for (const Remark remark : part.remarks)
        text += (text.empty() ? "" : "; ") + worded(remark, part);
    return text;
}

std::string reading(const Part& part, const PartAnalysis& analysis, std::size_t candidates) {
    std::string about = part.topic.empty() ? "" : short_topic(part.topic);
    if (analysis.compared != candidates && is_few(analysis.compared))
        about += (about.empty() ? "from " : "; from ") + counted_candidates(analysis.compared);
    std::string text = part.label + (about.empty() ? "" : " (" + about + ")");
    return analysis.remarks.empty() ? text : text + ": " + remarks_text(analysis);
}

/// Those that are marked, then the others in the paper's order, without those whose figures would give marks
/// away.
std::vector<std::size_t> marked_first(std::vector<std::size_t> order, const PaperAnalysis& analysis) {
    const std::size_t marked = order.size();
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (std::find(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(marked), i) ==
                order.begin() + static_cast<std::ptrdiff_t>(marked) &&
            !gives_marks_away(analysis.parts[i].candidates))
            order.push_back(i);
    return order;
}

/// Parts that too few were set for a remark.
std::string without_reading(const Paper& paper, const PaperAnalysis& analysis) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (analysis.parts[i].compared < PaperAnalysis::min_candidates_to_remark)
            parts.push_back(paper.parts()[i].label);
    return parts.empty()
               ? ""
               : text_line("Too few candidates to say what the figures of " + joined(parts, " and ") +
                           " mean: at least " + std::to_string(PaperAnalysis::min_candidates_to_remark) +
                           " are needed.");
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

HtmlTable parts_page_table(const Paper& paper, const PaperAnalysis& analysis) {
    HtmlTable table{"By unaided marks. Facility: the mean share earned. Discr.: the mean of the top 27% by "
                    "total minus that of the bottom 27%, as a share of the maximum. Overtime: how much of "
                    "what was earned came after the time.",
                    {{"part"},
                     {"max", true},
                     {"facility", true},
                     {"discr.", true},
                     {"not tried", true},
                     {"overtime", true}},
                    {}};
    const std::vector<std::size_t> marked = parts_to_look_at(analysis);
    for (const std::size_t i : marked_first(marked, analysis)) {
        const PartAnalysis& part = analysis.parts[i];
        const std::string& topic = paper.part(i).topic;
        table.rows.push_back({paper.part(i).label + (topic.empty() ? "" : ", " + topic),
                              std::to_string(part.max.count()), percent(part.facility),
                              decimal(part.discrimination), percent(part.not_attempted),
                              percent(part.overtime)});
        table.notes.push_back(table.notes.size() < marked.size() ? remarks_text(part) : "");
    }
    table.marked = marked.size();
    return table;
}

HtmlTable ran_out_page_table(const Paper& paper, const PaperAnalysis& analysis) {
    constexpr std::size_t max_rows = 8;
    HtmlTable table{"Where time ran out, to judge by the marks", {{"at part"}, {"candidates", true}}, {}};
    std::size_t others = 0;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        const std::size_t ran_out = analysis.parts[i].ran_out;
        if (ran_out > 0 && table.rows.size() < max_rows)
            table.rows.push_back({paper.part(i).label, std::to_string(ran_out)});
        else
            others += ran_out;
    }
    if (others > 0)
        table.rows.push_back({"later parts", std::to_string(others)});
    return table;
}

std::string totals_text(const PaperAnalysis& analysis) {
    std::string text = "Mean " + one_decimal(analysis.mean.value());
    if (analysis.deviation.has_value())
        text += ", standard deviation " + one_decimal(analysis.deviation.value());
    if (analysis.standard_error.has_value())
        return text + ", standard error of measurement " + one_decimal(analysis.standard_error.value()) + ".";
    return text + ". " + why_no_error(analysis);
}

std::string from_few(const PaperAnalysis& analysis) {
    return is_few(analysis.candidates) ? "All this comes from " + counted_candidates(analysis.candidates) +
                                             ", which is few: another class could well say otherwise."
                                       : "";
}

std::string why_no_error(const PaperAnalysis& analysis) {
    if (!analysis.alpha.has_value())
        return "No alpha, and so no standard error: " + worded(analysis.alpha.why(), analysis.others) + ".";
    if (!analysis.standard_error.has_value() && analysis.standard_error.why() == NoFigure::alpha_below_zero)
        return "No standard error, as alpha is below 0: who did well in one question did no better in the "
               "others.";
    if (!analysis.standard_error.has_value())
        return "No standard error: " + worded(analysis.standard_error.why(), analysis.others) + ".";
    return "";
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
        "rest r: correlation with the rest of the paper. rest alpha: alpha, over questions, without the "
        "part. discr.: mean of the top 27% by total minus the mean of the bottom 27%, as a share of the "
        "maximum.");
}

std::string reasons(const Paper& paper, const PaperAnalysis& analysis) {
    const Lacking all = lacking(paper, analysis);
    std::string lines;
    for (const NoFigure why : all.whole)
        lines += text_line("-: " + worded(why, analysis.others));
    for (const auto& [why, parts] : all.of_all)
        lines += text_line("-: " + worded(why, parts));
    for (const auto& [why, parts] : all.of_some)
        lines += text_line("-: " + worded_of_some(why, parts));
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
    const std::string went_back =
        analysis.went_back == 0 ? "" : " " + went_back_text(analysis.went_back, everyone) + ".";
    if (analysis.ran_out == 0)
        return text_line("To judge by the marks, nobody ran out of time." + went_back);
    std::vector<std::string> places;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (analysis.parts[i].ran_out > 0)
            places.push_back(std::to_string(analysis.parts[i].ran_out) + " at " + paper.parts()[i].label);
    return text_line("To judge by the marks, " + std::to_string(analysis.ran_out) + " of " +
                     counted_candidates(everyone) + " ran out of time: " + joined(places, ", ") + "." +
                     went_back);
}

std::string readings(const Paper& paper, const PaperAnalysis& analysis) {
    if (analysis.candidates < PaperAnalysis::min_candidates_to_remark)
        return text_line("Too few candidates to say what the figures mean: at least " +
                         std::to_string(PaperAnalysis::min_candidates_to_remark) + " are needed.");
    std::string lines;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (!analysis.parts[i].remarks.empty())
            lines += text_line(reading(paper.parts()[i], analysis.parts[i], analysis.candidates));
    if (const std::string few = from_few(analysis); !lines.empty() && !few.empty())
        lines += text_line(few);
    return lines + without_reading(paper, analysis);
}

std::string hardest_parts(const Paper& paper, const std::vector<std::optional<double>>& eases) {
    constexpr double stands_out = -0.05; // a share of the part's marks
    constexpr std::size_t most_named = 3;
    std::vector<std::size_t> hard;
    for (std::size_t i = 0; i < eases.size(); ++i)
        if (eases[i] && *eases[i] <= stands_out)
            hard.push_back(i);
    if (hard.empty())
        return "";
    std::stable_sort(hard.begin(), hard.end(),
                     [&](std::size_t a, std::size_t b) { return *eases[a] < *eases[b]; });
    hard.resize(std::min(hard.size(), most_named));
    std::string names;
    for (const std::size_t i : hard)
        names += (names.empty() ? "" : ", ") + paper.parts()[i].label + " by " +
                 std::to_string(std::lround(-100 * *eases[i]));
    return text_line(
        "Harder than others of its topic, in points of 100, with what these candidates can do allowed "
        "for: " +
        names + ". Of a topic with one part that can't tell the part from the topic.");
}

} // namespace inkturn
