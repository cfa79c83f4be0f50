#include "sheet/report.hpp"

#include "sheet/chart.hpp"
#include "sheet/html.hpp"
#include "sheet/text.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace inkturn {
namespace {

constexpr std::ptrdiff_t topics_a_sheet = 20;

constexpr std::string_view style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 68rem; margin: 0 auto; padding: 1rem; font: 1rem/1.4 sans-serif; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; margin: 0 0 0.5em; break-after: avoid; }
h1 { font-size: 1.6rem; }
h2 { font-size: 1.3rem; border-top: 1.5pt solid #000; padding-top: 0.6em; }
h3 { font-size: 1rem; margin: 0 0 0.2em; }
p, ul { margin: 0 0 0.8em; max-width: 42rem; }
ul { padding-left: 1.3em; }
section { margin: 1.8rem 0 0; }
.days { columns: 19rem; column-gap: 2.5rem; margin: 0 0 0.8em; }
.days div { break-inside: avoid; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
section { margin: 0 0 6mm; }
h2 + p { break-after: avoid; }
li { break-inside: avoid; }
p { orphans: 3; widows: 3; }
}
)";

std::string paragraph(std::string_view plain) {
    return "<p>" + escaped(plain) + "</p>\n";
}

/// The id is also that of its heading.
std::string section(const std::string& id, std::string_view title, const std::string& content) {
    return "<section aria-labelledby=\"" + id + "\">\n<h2 id=\"" + id + "\">" + escaped(title) + "</h2>\n" +
           content + "</section>\n";
}

std::string sittings(const Report& report) {
    if (report.sittings.empty())
        return paragraph("Nothing yet: no paper has been sat.");
    return to_html(ink_chart("sittings-chart", report.sittings, report.bands));
}

std::string pace(const Report& report) {
    if (!report.pace)
        return paragraph("Nothing yet: no sitting was timed by the clock.");
    return paragraph(report.pace->paper + ", " + spoken(report.pace->day)) +
           to_html(pace_chart("pace-chart", report.pace->pace));
}

/// With a column for the advice where there is any.
Chart chart_of(const std::string& id, const std::vector<Report::Topic>& topics) {
    std::vector<TopicShare> shares;
    for (const Report::Topic& topic : topics)
        shares.push_back(topic.share);
    Chart chart = topics_chart(id, shares);
    const bool has_advice = std::any_of(topics.begin(), topics.end(),
                                        [](const Report::Topic& topic) { return !topic.advice.empty(); });
    if (has_advice) {
        chart.table.columns.push_back({"advice"});
        for (std::size_t i = 0; i < topics.size(); ++i)
            chart.table.rows[i].push_back(topics[i].advice);
    }
    return chart;
}

/// As many figures as it takes to have each on a sheet in letters that can be read.
std::string topics(const Report& report) {
    if (report.topics.empty())
        return paragraph("Nothing yet: no part that was sat states a topic.");
    std::string html;
    for (auto first = report.topics.begin(); first != report.topics.end();) {
        const auto last = first + std::min(topics_a_sheet, report.topics.end() - first);
        const std::string position = std::to_string(first - report.topics.begin() + 1);
        Chart chart = chart_of("topics-chart-" + position, {first, last});
        if (first != report.topics.begin())
            chart.title += ", from number " + position;
        html += to_html(chart);
        first = last;
    }
    return html + paragraph("The fewer parts a share is drawn from, the wider its interval: a wide one says "
                            "that little is known yet.");
}

std::string standing(const Report& report) {
    if (report.standing.rows.empty())
        return paragraph("Nothing yet: no boundary set on file fits what was sat.");
    return to_html(report.standing) +
           paragraph("A grade outlook is arithmetic on past series, not a promise. Boundaries move from year "
                     "to year; the next set may be harder than all of these. It is no predicted grade: that "
                     "is the teacher's judgement.");
}

std::string turns(const Report& report) {
    if (report.turns.empty())
        return paragraph("Nothing yet: no retry has been done.");
    return to_html(turns_chart("turns-chart", report.turns));
}

std::string load(const Report::DayAhead& day) {
    const std::string asks = "asks " + length_text(day.asked);
    return day.available == Seconds(0) ? asks + " on a day off" : asks + " of " + length_text(day.available);
}

/// A report's two weeks need no year.
std::string weekday_and_day(Day day) {
    const std::string text = spoken(day);
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
    HtmlPage page;
    page.title = "Report for " + report.candidate;
    page.style = std::string(style) + std::string(table_style()) + std::string(chart_style()) +
                 "@page {\nsize: A4; margin: 18mm 15mm;\n@top-left { content: " + css_string(page.title) +
                 "; font: 9pt sans-serif; }\n@bottom-right { content: counter(page) \" of \" counter(pages); "
                 "font: 9pt sans-serif; }\n}\n";
    page.body = "<header>\n<h1>" + escaped(page.title) + "</h1>\n" + paragraph(spoken(report.day)) +
                "</header>\n<main>\n" + section("sittings", "Sittings", sittings(report)) +
                section("pace", "Pace of the last timed sitting", pace(report)) +
                section("topics", "Topics", topics(report)) +
                section("standing", "Standing against past boundaries", standing(report)) +
                section("turns", "Retries", turns(report)) +
                section("days", "The next two weeks", days_ahead(report)) + "</main>\n";
    return to_html(page);
}

} // namespace inkturn
