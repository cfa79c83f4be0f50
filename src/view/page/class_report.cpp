#include "view/page/class_report.hpp"

#include "inkturn/grades/standing.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/findings.hpp"
#include "view/page/html.hpp"
#include "view/page/report_page.hpp"
#include "view/text/analysis.hpp"
#include "view/text/class_standing.hpp"
#include "view/text/findings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace inkturn {
namespace {

constexpr std::ptrdiff_t parts_a_sheet = 38;
constexpr const char* nobody = "Nothing yet: nobody has sat the paper.";
/// More sets take the page's width.
constexpr std::size_t max_sets_of_half_width = 3;

/// A report and what is worked out for more than one of its sections.
struct ClassFigures {
    const ClassReport& report;
    const Paper& paper;
    PaperAnalysis analysis;
    std::vector<std::size_t> to_look_at;
    std::optional<Findings> found;
};

std::string title(const ClassReport& report) {
    return "Report on " + report.side.paper->id() +
           (report.of_class.empty() ? "" : ", class " + report.of_class);
}

std::string sat_on(const std::vector<SittingOfPaper>& sittings) {
    std::set<Day> days;
    for (const SittingOfPaper& sitting : sittings)
        days.insert(sitting.day);
    if (days.size() == 1)
        return "Sat on " + day_text(*days.begin());
    return "Sat on " + std::to_string(days.size()) + " days from " + day_text(*days.begin()) + " to " +
           day_text(*days.rbegin());
}

std::string not_sat_text(const ClassReport::NotSat& not_sat) {
    if (not_sat.absent + not_sat.others == 0)
        return ", by all of the class";
    return (not_sat.absent == 0 ? "" : "; absent: " + std::to_string(not_sat.absent)) +
           (not_sat.others == 0 ? "" : "; no marks of it: " + std::to_string(not_sat.others));
}

std::vector<std::string> lead(const ClassReport& report) {
    const std::string& title = report.side.paper->title();
    const std::string begin = title.empty() ? "" : title + ". ";
    if (report.side.sittings.empty())
        return {begin + nobody};
    return {begin + sat_on(report.side.sittings) + ", by " +
            count_text(report.side.sittings.size(), "candidate") +
            (report.not_sat ? not_sat_text(*report.not_sat) : "") + "."};
}

std::string what_counts(const ClassReport& report) {
    return paragraph("This page names no candidate. " + report.counts +
                     " Unaided marks are those earned in time and in overtime. Made on " +
                     day_text(report.day) + ".");
}

ReportSection decisions(const ClassFigures& of) {
    std::string html;
    if (of.found) {
        html = "<ol class=\"findings\">\n";
        for (const FindingText& text : finding_texts(of.paper, of.analysis, *of.found))
            html +=
                "<li>" + escaped(text.finding) + " <strong>" + escaped(text.decision) + "</strong></li>\n";
        html += "</ol>\n";
        const std::string few = from_few(of.analysis);
        html += few.empty() ? "" : paragraph(few);
    }
    return {"decide", "What to decide", html + what_counts(of.report), true};
}

/// A sentence that names the parts left out, or nothing.
std::string parts_withheld(const ClassFigures& of) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < of.analysis.parts.size(); ++i)
        if (gives_marks_away(of.analysis.parts[i].candidates))
            labels.push_back(of.paper.part(i).label);
    return labels.empty()
               ? ""
               : paragraph("Not shown: " + joined(labels, " and ") + ", which counted for fewer than " +
                           std::to_string(PaperAnalysis::min_candidates_unnamed) +
                           " candidates, as figures would give their marks away.");
}

ReportSection parts(const ClassFigures& of) {
    return {"parts",
            of.to_look_at.empty() ? "No part stands out"
                                  : "Look first at " + labels_text(of.paper, of.to_look_at),
            to_html(parts_page_table(of.paper, of.analysis)) + parts_withheld(of), true};
}

std::vector<PartEarned> parts_earned(const ClassFigures& of) {
    std::vector<PartEarned> parts;
    for (std::size_t i = 0; i < of.analysis.parts.size(); ++i) {
        const PartAnalysis& part = of.analysis.parts[i];
        if (part.candidates == 0 || gives_marks_away(part.candidates))
            continue;
        const auto earned = std::lround(part.mean.value() * static_cast<double>(part.candidates));
        const bool is_marked =
            std::find(of.to_look_at.begin(), of.to_look_at.end(), i) != of.to_look_at.end();
        parts.push_back(
            {of.paper.part(i).label, part.max, Marks(static_cast<int>(earned)), part.candidates, is_marked});
    }
    return parts;
}

ReportSection bars(const ClassFigures& of) {
    const std::size_t everyone = of.report.side.sittings.size();
    const auto draw = [&](const std::vector<PartEarned>& rows, std::ptrdiff_t position) {
        Chart chart = parts_chart("parts-chart-" + std::to_string(position), rows, everyone);
        if (position > 1)
            chart.title += ", from " + rows.front().part;
        return chart;
    };
    return {"bars", "Parts in the paper\u2019s order", figures_of(parts_earned(of), parts_a_sheet, draw)};
}

ReportSection time(const ClassFigures& of) {
    const std::size_t ran_out = of.analysis.ran_out;
    const std::size_t went_back = of.analysis.went_back;
    const std::string others =
        went_back == 0 ? "" : paragraph(went_back_text(went_back, of.report.side.sittings.size()) + ".");
    if (ran_out == 0)
        return {"time", "Nobody ran out of time",
                others.empty() ? paragraph("To judge by the marks, every part was done in time.") : others};
    return {"time",
            std::to_string(ran_out) + " of " + std::to_string(of.report.side.sittings.size()) +
                " ran out of time",
            to_html(ran_out_page_table(of.paper, of.analysis)) + others};
}

TotalsSpread spread_of(const ClassFigures& of) {
    TotalsSpread spread{{}, of.analysis.max, {}};
    for (const SittingOfPaper& sitting : of.report.side.sittings)
        if (const Totals sum = totals(of.paper, sitting.parts); sum.max == of.analysis.max)
            spread.totals.push_back(sum.unaided());
    if (of.analysis.max == of.paper.marks())
        spread.bands = bands_for(of.paper, of.report.sets);
    return spread;
}

ReportSection totals_section(const ClassFigures& of) {
    const PaperAnalysis& analysis = of.analysis;
    return {"totals",
            "Half of the totals lie from " +
                marks_number(Marks(static_cast<int>(std::floor(analysis.lower_quartile.value())))) + " to " +
                marks_number(Marks(static_cast<int>(std::ceil(analysis.upper_quartile.value())))) + " of " +
                marks_number(analysis.max),
            paragraph(totals_text(analysis)) + to_html(spread_chart("totals-chart", spread_of(of))) +
                folded("More figures",
                       "<div class=\"pairs\">\n" + to_html(paper_page_table(analysis)) + "</div>\n")};
}

/// How many have the top grade of each set.
std::string top_grades(const std::vector<ClassUnder>& sets) {
    std::size_t least = sets.front().grades.front().reached.unaided;
    std::size_t most = least;
    for (const ClassUnder& under : sets) {
        least = std::min(least, under.grades.front().reached.unaided);
        most = std::max(most, under.grades.front().reached.unaided);
    }
    const std::string some = (least == most ? "" : std::to_string(least) + " to ") + std::to_string(most) +
                             " of " + std::to_string(sets.front().counted);
    return "The top grade would go to " + some +
           (sets.size() == 1 ? ", under one set" : ", under " + std::to_string(sets.size()) + " sets");
}

std::string tables_html(const std::vector<HtmlTable>& tables) {
    std::string html;
    for (const HtmlTable& table : tables)
        html += to_html(table);
    return html;
}

ReportSection grades(const ClassFigures& of) {
    const std::vector<ClassUnder> sets = paper_standing(of.report.side, of.report.sets);
    if (sets.empty())
        return {"grades", "No grades to show",
                paragraph("No boundary set on file has this paper's subject and total.")};
    if (gives_marks_away(sets.front().counted))
        return {"grades", "No grades to show",
                paragraph("Fewer than " + std::to_string(PaperAnalysis::min_candidates_unnamed) +
                          " candidates sat the whole paper: their grades would give their marks away.")};
    return {"grades", top_grades(sets),
            tables_html(grades_page_tables(sets, &ClassCount::unaided)) +
                folded("By marks in time, as an exam would count",
                       tables_html(grades_page_tables(sets, &ClassCount::in_time))) +
                grade_caution(),
            sets.size() > max_sets_of_half_width};
}

/// The topic that costs most over all papers, below the decision that stands above.
std::string topic_title(const Paper& paper, const std::optional<Findings>& found, const std::string& topic) {
    if (!found)
        return "Over all papers most is lost in " + topic;
    const std::string& first = found->cost.topic;
    switch (beside_paper(paper, found->cost, topic)) {
    case BesidePaper::same:
        return "Over all papers, too, most is lost in " + topic;
    case BesidePaper::less_in_paper:
        return "After " + first + " take up " + topic + ": it costs most over all papers, less in this one";
    case BesidePaper::not_in_paper:
        return "After " + first + " take up " + topic +
               ": it costs most over all papers, and is not in this one";
    case BesidePaper::instead:
        return "Take up " + topic + ": over all papers most is lost in it";
    }
    return "";
}

std::string no_topics(const ClassReport& report) {
    const std::string& subject = report.side.paper->subject();
    const std::string of_paper = " of a paper" + (subject.empty() ? "" : " in the subject " + subject);
    if (report.side.sittings.empty())
        return "Nothing yet: nobody has sat a part with a topic" + of_paper + ".";
    return "Nothing yet: no part that was sat" + of_paper + " has a topic. 'inkturn topics of " +
           report.side.paper->id() + "' gives parts their topics.";
}

ReportSection topics(const ClassReport& report, const std::optional<Findings>& found) {
    const std::string& subject = report.side.paper->subject();
    const std::string papers = "from all papers" + (subject.empty() ? "" : " in the subject " + subject);
    if (report.topics.shown.empty())
        return {"topics", "Topics", paragraph(no_topics(report))};
    return {"topics", topic_title(*report.side.paper, found, report.topics.shown.front().share.topic),
            paragraph("On average over the candidates, " + papers + ".") + topic_figures(report.topics)};
}

} // namespace

std::string to_html(const ClassReport& report) {
    if (report.side.sittings.empty())
        return report_page(title(report), lead(report), {topics(report, std::nullopt)});
    PaperAnalysis analysis = analyse(report.side);
    std::vector<std::size_t> to_look_at = parts_to_look_at(analysis);
    auto found = find_findings(*report.side.paper, analysis);
    const ClassFigures of{report, *report.side.paper, std::move(analysis), std::move(to_look_at),
                          std::move(found)};
    return report_page(title(report), lead(report),
                       {decisions(of), parts(of), bars(of), time(of), totals_section(of), grades(of),
                        topics(report, of.found)});
}

} // namespace inkturn
