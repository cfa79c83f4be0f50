#include "view/page/report.hpp"

#include "view/page/html.hpp"
#include "view/page/report_page.hpp"
#include "view/text/text.hpp"

namespace inkturn {
namespace {

std::string sittings(const Report& report) {
    return to_html(ink_chart("sittings-chart", report.sittings, report.bands));
}

std::string pace(const Report& report) {
    return paragraph(report.pace->paper + ", " + day_text(report.pace->day)) +
           to_html(pace_chart("pace-chart", report.pace->pace));
}

std::string topics(const Report& report) {
    return topic_figures(report.topics);
}

std::string standing(const Report& report) {
    return (report.awards.rows.empty() ? "" : to_html(report.awards)) +
           (report.standing.rows.empty() ? "" : to_html(report.standing)) + grade_caution();
}

std::string turns(const Report& report) {
    return to_html(turns_chart("turns-chart", report.turns));
}

std::string load(const Report::DayAhead& day) {
    const std::string planned = length_text(day.planned) + " planned";
    return planned + (day.available == Seconds(0) ? " on a day off" : " of " + length_text(day.available));
}

/// A report's two weeks need no year.
std::string weekday_and_day(Day day) {
    const std::string text = day_text(day);
    return text.substr(0, text.rfind(' '));
}

std::string day_ahead(const Report::DayAhead& day) {
    std::string html =
        "<div>\n<h3>" +
        escaped(weekday_and_day(day.day) + (day.planned == Seconds(0) ? "" : ": " + load(day))) +
        "</h3>\n<ul>\n";
    for (const std::string& item : day.items)
        html += "<li>" + escaped(item) + "</li>\n";
    return html + "</ul>\n</div>\n";
}

std::string next(const Report& report) {
    std::string html;
    for (const std::string& text : report.next)
        html += paragraph(text);
    return html;
}

std::string days_ahead(const Report& report) {
    std::string html;
    for (const Report::DayAhead& day : report.days)
        if (!day.items.empty())
            html += day_ahead(day);
    if (html.empty())
        return paragraph("Nothing is due.");
    return "<div class=\"days\">\n" + html + "</div>\n" +
           paragraph("Days not listed are free up to " + day_text(report.days.back().day) +
                     ". Rest days and sleep come first.");
}

} // namespace

std::string to_html(const Report& report) {
    std::vector<ReportSection> sections{{"next", "What to do next", next(report) + days_ahead(report), true}};
    if (!report.sittings.empty())
        sections.push_back({"sittings", "The marks of each sitting, by ink", sittings(report)});
    if (!report.topics.shown.empty())
        sections.push_back({"topics", "Where the marks go", topics(report)});
    if (report.pace)
        sections.push_back({"pace", "Pace of the last timed sitting", pace(report)});
    if (!report.turns.empty())
        sections.push_back({"turns", "Retries got, by turn", turns(report)});
    if (!report.standing.rows.empty() || !report.awards.rows.empty())
        sections.push_back({"standing", "Standing against past boundaries", standing(report), true});
    const std::string name = report.name.empty() ? "" : report.name + ", ";
    return report_page("Report for " + name + report.candidate, {day_text(report.day)}, sections);
}

} // namespace inkturn
