#include "view/page/report_page.hpp"

#include "view/page/html.hpp"
#include "view/page/html_table.hpp"
#include "view/page/sheet_size.hpp"

namespace inkturn {
namespace {

constexpr std::string_view report_style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 68rem; margin: 0 auto; padding: 1rem; font: 1rem/1.4 sans-serif; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; margin: 0 0 0.5em; break-after: avoid; }
h1 { font-size: 1.6rem; }
h2 { font-size: 1.3rem; border-top: 1.5pt solid #000; padding-top: 0.6em; }
h3 { font-size: 1rem; margin: 0 0 0.2em; }
p, ul { margin: 0 0 0.8em; max-width: 42rem; }
ul, ol { padding-left: 1.3em; }
ol { margin: 0 0 0.8em; max-width: 42rem; }
section { margin: 0 0 1.8rem; break-inside: avoid; }
.wide { column-span: all; break-inside: auto; }
@media screen and (min-width: 47.5rem) {
main { columns: 2; column-gap: 2.5rem; }
}
.pairs table { width: min(100%, 24rem); }
.pairs th { width: auto; }
.days { columns: 19rem; column-gap: 2.5rem; margin: 0 0 0.8em; }
.days div { break-inside: avoid; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
main { columns: 2; column-gap: 6mm; }
section { margin: 0 0 4mm; }
h2 { font-size: 1.1rem; padding-top: 0.4em; }
p { margin-bottom: 0.5em; }
section th, section td { padding-top: 0.15em; padding-bottom: 0.15em; }
h2 + p { break-after: avoid; }
li { break-inside: avoid; }
p { orphans: 3; widows: 3; }
}
)";

std::string section_html(const ReportSection& section) {
    return "<section" + std::string(section.is_wide ? " class=\"wide\"" : "") + " aria-labelledby=\"" +
           section.id + "\">\n<h2 id=\"" + section.id + "\">" + escaped(section.title) + "</h2>\n" +
           section.content + "</section>\n";
}

} // namespace

std::string grade_caution() {
    return paragraph("Grades here are arithmetic on past series, not a promise. Boundaries move from year to "
                     "year; the next set may be harder than all of these. They are not predicted grades: "
                     "those are the teacher's judgement.");
}

std::string report_page(const std::string& title, const std::vector<std::string>& lead,
                        const std::vector<ReportSection>& sections) {
    HtmlPage page;
    page.title = title;
    page.style = std::string(report_style) + std::string(table_style()) + std::string(chart_style()) +
                 "@page {\n" + sheet_rule("18mm 15mm") + "\n@top-left { content: " + css_string(page.title) +
                 "; font: 9pt sans-serif; }\n@bottom-right { content: counter(page) \" of \" counter(pages); "
                 "font: 9pt sans-serif; }\n}\n";
    page.body = "<header>\n<h1>" + escaped(page.title) + "</h1>\n";
    for (const std::string& text : lead)
        page.body += paragraph(text);
    page.body += "</header>\n<main>\n";
    for (const ReportSection& section : sections)
        page.body += section_html(section);
    page.body += "</main>\n";
    return to_html(page);
}

} // namespace inkturn
