#include "view/page/report.hpp"

#include "view/page/html.hpp"
#include "view/page/report_page.hpp"
#include "view/text/text.hpp"

namespace inkturn {
namespace {

std::string sittings(const Report& report) {
    if (report.sittings.empty())
        return paragraph("Nothing yet: no paper has been sat.");
    return to_html(ink_chart("sittings-chart", report.sittings, report.bands));
}

std::string pace(const Report& report) {
    if (!report.pace)
        return paragraph("Nothing yet: no sitting was timed by the clock.");
    return paragraph(report.pace->paper + ", " + day_text(report.pace->day)) +
           to_html(pace_chart("pace-chart", report.pace->pace));
}

std::string topics(const Report& report) {
    if (report.topics.empty())
        return paragraph("Nothing yet: no part that was sat states a topic.");
    return topic_figures(report.topics);
}

std::string standing(const Report& report) {
    if (report.standing.rows.empty())
        return paragraph("Nothing yet: no boundary set on file fits what was sat.");
    return to_html(report.standing) + grade_caution();
}

std::string turns(const Report& report) {
    if (report.turns.empty())
        return paragraph("Nothing yet: no retry has been done.");
    return to_html(turns_chart("turns-chart", report.turns));
}

std::string load(const Report::DayAhead& day) {
    const std::string asks = "asks " + length_text(day.planned);
    return day.available == Seconds(0) ? asks + " on a day off" : asks + " of " + length_text(day.available);
}

/// A report's two weeks need no year.
std::string weekday_and_day(Day day) {
    const std::string text = day_text(day);
    return text.substr(0, text.rfind(' '));
}

std::string day_ahead(const Report::DayAhead& day) {
    std::string html = "<div>\n<h3>" + escaped(weekday_and_day(day.day) + ": " + load(day)) + "</h3>\n<ul>\n";
    for (const std::string& item : day.items)
        html += "<li>" + escaped(item) + "</li>\n";
    return html + "</ul>\n</div>\n";
}

std::string days_ahead(const Report& report) {
    std::string html;
    for (const Report::DayAhead& day : report.days)
        if (!day.items.empty())
            html += day_ahead(day);
    if (html.empty())
        return paragraph("Nothing is due.");
    return "<div class=\"days\">\n" + html + "</div>\n" +
           paragraph("Days that are not named are free. Rest days and sleep come before a fuller plan.");
}

} // namespace

std::string to_html(const Report& report) {
    return report_page("Report for " + report.candidate, {day_text(report.day)},
                       {{"sittings", "Sittings", sittings(report)},
                        {"pace", "Pace of the last timed sitting", pace(report)},
                        {"topics", "Topics", topics(report)},
                        {"standing", "Standing against past boundaries", standing(report)},
                        {"turns", "Retries", turns(report)},
                        {"days", "The next two weeks", days_ahead(report)}});
}

} // namespace inkturn
