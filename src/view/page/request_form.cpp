#include "view/page/request_form.hpp"

#include "view/page/html.hpp"
#include "view/page/sheet_size.hpp"

#include <string_view>

namespace inkturn {
namespace {

constexpr std::string_view form_style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 180mm; margin: 0 auto; padding: 1rem; font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; margin: 0 0 0.4em; break-after: avoid; }
h1 { font-size: 1.4rem; }
h2 { font-size: 1.15rem; }
h3 { font-size: 1rem; margin-top: 0.6em; }
p { margin: 0 0 0.5em; }
ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 0.3em 1.6em; }
li::before { content: ""; display: inline-block; width: 1em; height: 1em; margin-right: 0.5em; border: 1pt solid #000; vertical-align: -0.12em; }
.slip { border-top: 1pt dashed #000; padding: 5mm 0; break-inside: avoid; }
.line { border-bottom: 0.75pt solid #000; height: 8mm; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
h1 { font-size: 13pt; }
h2 { font-size: 11pt; }
h3 { font-size: 10pt; margin: 0.4em 0 0.2em; }
.slip { padding: 4mm 0 3mm; }
.line { height: 6mm; }
}
)";

std::string boxes(const std::vector<std::string>& texts) {
    std::string html = "<ul>\n";
    for (const std::string& text : texts)
        html += "<li>" + escaped(text) + "</li>\n";
    return html + "</ul>\n";
}

std::string slip(const RequestForm& form, const std::string& candidate) {
    std::vector<std::string> topics = form.topics;
    topics.emplace_back("any of these");
    std::vector<std::string> dates;
    for (const Day day : form.dates)
        dates.push_back(day_text(day));
    std::string html = "<section class=\"slip\">\n<h2>I'd like a place: " +
                       (candidate.empty() ? "my code is" : escaped(candidate)) + "</h2>\n";
    if (candidate.empty())
        html += "<div class=\"line\"></div>\n";
    html += "<h3>What I want to work on</h3>\n" + boxes(topics);
    if (!dates.empty())
        html += "<h3>I can come on</h3>\n" + boxes(dates);
    return html + "<h3>What you should know</h3>\n<div class=\"line\"></div>\n</section>\n";
}

} // namespace

std::string to_html(const RequestForm& form) {
    HtmlPage page;
    page.title = "Revision lesson" + (form.of_class.empty() ? "" : ", class " + form.of_class);
    page.style = std::string(form_style) + "@page { " + sheet_rule("15mm") + " }\n";
    page.body = "<main>\n<h1>" + escaped(page.title) + "</h1>\n" +
                paragraph("Tick what you want to work on" +
                          std::string(form.dates.empty() ? "" : ", and when you can come") +
                          ", and hand it back. Leave it blank if you don't want a place.");
    for (const std::string& candidate : form.candidates)
        page.body += slip(form, candidate);
    if (form.candidates.empty())
        page.body += slip(form, "");
    page.body += "</main>\n";
    return to_html(page);
}

} // namespace inkturn
