#include "view/page/class_report.hpp"
#include "view/page/html.hpp"

#include "view/page/report_page.hpp"

namespace inkturn {
namespace {

constexpr std::ptrdiff_t parts_a_sheet = 38;
constexpr const char* nobody = "Nothing yet: nobody has sat the paper.";

std::size_t candidates(const ClassReport& report) {
    return report.spread.totals.size();
}

std::string title(const ClassReport& report) {
    return "Report on " + report.paper + (report.of_class.empty() ? "" : ", class " + report.of_class);
}

std::vector<std::string> lead(const ClassReport& report) {
    std::vector<std::string> texts;
    if (!report.paper_title.empty())
        texts.push_back(report.paper_title);
    texts.push_back(day_text(report.day));
    texts.push_back("This page covers " +
                    std::string(report.of_class.empty() ? "all candidates on file" : "the class") +
                    " and names no candidate. Each one's latest sitting of the paper counts, by unaided "
                    "marks: those earned in time and in overtime.");
    return texts;
}

std::string whole_paper(const ClassReport& report) {
    if (candidates(report) == 0)
        return paragraph(nobody);
    std::string html = "<div class=\"pairs\">\n" + to_html(report.figures) + "</div>\n";
    for (const std::string& why : report.missing)
        html += why.empty() ? "" : paragraph(why);
    return html;
}

std::string parts(const ClassReport& report) {
    if (candidates(report) == 0)
        return paragraph(nobody);
    return figures_of(
        report.parts, parts_a_sheet, [&](const std::vector<PartEarned>& rows, std::ptrdiff_t position) {
            Chart chart = parts_chart("parts-chart-" + std::to_string(position), rows, candidates(report));
            if (position > 1)
                chart.title += ", from " + rows.front().part;
            return chart;
        });
}

std::string totals(const ClassReport& report) {
    if (candidates(report) == 0)
        return paragraph(nobody);
    return to_html(spread_chart("totals-chart", report.spread)) +
           (report.spread.bands.empty()
                ? paragraph("No boundary set on file has this paper's subject and total.")
                : grade_caution());
}

std::string topics(const ClassReport& report) {
    if (report.topics.shown.empty())
        return paragraph("Nothing yet: nobody has sat any part of a paper" +
                         (report.subject.empty() ? "." : " in the subject " + report.subject + "."));
    return paragraph("On average over the candidates, from all papers" +
                     (report.subject.empty() ? "" : " in the subject " + report.subject) + ".") +
           topic_figures(report.topics);
}

} // namespace

std::string to_html(const ClassReport& report) {
    return report_page(title(report), lead(report),
                       {{"paper", "The paper as a whole", whole_paper(report)},
                        {"parts", "Parts", parts(report)},
                        {"totals", "Totals", totals(report)},
                        {"topics", "Topics", topics(report)}});
}

} // namespace inkturn
