#include "view/page/phone.hpp"

#include "inkturn/base/time.hpp"
#include "inkturn/retry/returned_line.hpp"
#include "view/page/booklet_schemes.hpp"
#include "view/page/html.hpp"
#include "view/page/phone_marks.hpp"
#include "view/page/phone_script.hpp"
#include "view/page/retry_words.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <string_view>

namespace inkturn {
namespace {

constexpr std::string_view phone_style = R"(* { box-sizing: border-box; }
:root { color-scheme: light dark; --back: #fff; --text: #000; --line: #767676; --in-time: #1d3d6e; --overtime: #a3470d; --corrected: #0a7a66; }
@media (prefers-color-scheme: dark) {
:root { --back: #121212; --text: #f2f2f2; --line: #9a9a9a; --in-time: #9dbcf0; --overtime: #f0a878; --corrected: #5fd0ba; }
}
html { background: var(--back); color: var(--text); -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 44rem; margin: 0 auto; padding: 0.8rem; font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; margin: 0 0 0.4em; }
h1 { font-size: 1.4rem; }
h2 { font-size: 1.2rem; }
h3 { font-size: 1.05rem; }
h4 { font-size: 1rem; margin: 0.8rem 0 0.3rem; }
p, ul { margin: 0 0 0.7em; }
ul { padding-left: 1.2em; }
section { margin: 1.6rem 0 0; padding: 0.6rem 0 0; border-top: 2px solid var(--text); }
article { margin: 1rem 0 1.6rem; }
.picture { background: #fff; }
summary, button, input, select, textarea { font: inherit; min-height: 44px; }
summary { padding: 0.6rem 0; }
input, select, textarea { width: 100%; min-width: 44px; padding: 0.2rem 0.4rem; color: inherit; background: var(--back); border: 1px solid var(--line); border-radius: 0; }
button { padding: 0.2rem 1.2rem; margin: 0 0.6rem 0.6rem 0; color: var(--text); background: var(--back); border: 2px solid var(--text); border-radius: 0; }
button:disabled { border-style: dashed; }
textarea { display: block; margin: 0 0 0.6rem; }
label { display: block; }
.day-done { max-width: 14rem; margin: 0 0 0.6rem; }
.part { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 0.5rem; margin: 0 0 0.8rem; padding: 0.4rem 0.6rem 0.6rem; border: 1px solid var(--line); }
.part label:last-child { grid-column: 1 / -1; }
.in-time input { border-bottom: 4px solid var(--in-time); }
.overtime input { border-bottom: 4px dashed var(--overtime); }
.corrected input { border-bottom: 4px dotted var(--corrected); }
)";

const BookletItem* find_item(const PhonePage& page, const Retry& retry) {
    const auto found = std::find_if(page.items.begin(), page.items.end(), [&](const BookletItem& item) {
        return to_text(item.retry.id) == to_text(retry.id);
    });
    return found == page.items.end() ? nullptr : &*found;
}

std::string scheme_html(const BookletItem& item, PagePictures& pictures) {
    const std::string what = "Mark scheme for " + question_of_paper(item.retry);
    return folded("Mark scheme, for when you have finished",
                  item.scheme.empty() ? paragraph("No mark scheme on file: use the paper's.")
                                      : pictures_html(item.scheme, what, pictures));
}

std::string retry_html(const BookletItem& item, PagePictures& pictures) {
    const std::string name = question_heading(item.retry);
    return "<article class=\"retry\" data-start=\"" + escaped(start_of_retry(item.retry)) +
           "\" data-name=\"" + escaped(name) + "\">\n<h3>" + escaped(name) + "</h3>\n" + said_of(item.retry) +
           (item.question.empty() ? where_to_find(item.retry)
                                  : pictures_html(item.question, name, pictures)) +
           scheme_html(item, pictures) + phone_marks(item.retry) + "</article>\n";
}

bool is_empty(const PlannedDay& day, const std::vector<Exam>& exams) {
    return day.items.empty() && fixed_on(day, exams).empty();
}

/// All but the retries, which come after them with their questions.
std::string other_work(const PhonePage& page, const PlannedDay& day) {
    std::string html;
    for (const std::string& text : fixed_on(day, page.exams))
        html += "<li>" + escaped(text) + "</li>\n";
    for (const WorkItem& item : with_halves_joined(day.items))
        if (item.kind() != WorkKind::retry)
            html += "<li>" + escaped(long_text(item)) + "</li>\n";
    return html.empty() ? html : "<ul>\n" + html + "</ul>\n";
}

/// The drawn papers of a day.
std::string sets_of_day(const PhonePage& page, const PlannedDay& day, PagePictures& pictures) {
    std::string html;
    for (const WorkItem& item : day.items)
        if (const auto* const to_sit = std::get_if<PaperToSit>(&item.work); to_sit && to_sit->paper)
            for (const QuestionSet& set : page.sets)
                if (set.paper->id() == to_sit->paper->id())
                    html += folded_set(set, pictures);
    return html;
}

std::string day_html(const PhonePage& page, const PlannedDay& day, PagePictures& pictures) {
    const std::string id = iso(day.day);
    std::string html = "<section aria-labelledby=\"" + id + "\">\n<h2 id=\"" + id + "\">" +
                       escaped(day_text(day.day)) + "</h2>\n";
    if (!day.items.empty())
        html +=
            paragraph(length_text(day.planned) + " of the " + length_text(day.available) + " that you have.");
    html += other_work(page, day) + sets_of_day(page, day, pictures);
    for (const Retry& retry : day.retries())
        if (const BookletItem* const item = find_item(page, retry))
            html += retry_html(*item, pictures);
    return html + "</section>\n";
}

std::string days_without_work(const PhonePage& page) {
    std::vector<std::string> days;
    for (const PlannedDay& day : page.week.days)
        if (is_empty(day, page.exams))
            days.push_back(short_day_text(day.day));
    return days.empty() || days.size() == page.week.days.size()
               ? ""
               : paragraph("Nothing on " + joined(days, " and ") + ": keep " +
                           (days.size() == 1 ? "that day" : "those days") +
                           " free. Sleep and days off come before a fuller week.");
}

/// What to do, and how.
std::string opening(const PhonePage& page) {
    const auto first = std::find_if(page.week.days.begin(), page.week.days.end(),
                                    [](const PlannedDay& day) { return !day.items.empty(); });
    if (first == page.week.days.end())
        return paragraph("Nothing to do on these days.") + (page.said.empty() ? "" : paragraph(page.said));
    std::string html = paragraph(counted_work(page.week) + ". Begin on " + day_text(first->day) + ".");
    if (!page.said.empty())
        html += paragraph(page.said);
    if (!page.items.empty())
        html += paragraph(
            "Work each question on paper, without notes and within its allowance. When the time is up, "
            "change ink and carry on. Then unfold the mark scheme, mark your work, correct it in a third "
            "ink, and write the marks by ink into the boxes. Last of all copy the line at the end and send "
            "it back. Allowances include the extra time with which the paper was sat.");
    return html + days_without_work(page);
}

std::string line_html() {
    return "<section aria-labelledby=\"send\">\n<h2 id=\"send\">Send back</h2>\n"
           "<noscript><p>This browser runs no script: write the marks down, and send them by "
           "hand.</p></noscript>\n"
           "<p id=\"said\" role=\"status\"></p>\n<ul id=\"wrong\"></ul>\n"
           "<label for=\"line\">The line</label>\n<textarea id=\"line\" rows=\"4\" readonly></textarea>\n"
           "<button id=\"copy\" type=\"button\">Copy the line</button>"
           "<button id=\"clear\" type=\"button\">Clear all marks</button>\n"
           "<p id=\"copied\" role=\"status\"></p>\n<p id=\"kept\"></p>\n"
           "<p>It holds your code and your marks: send it to nobody else.</p>\n</section>\n";
}

} // namespace

std::string to_html(const PhonePage& page) {
    HtmlPage html;
    html.title = "Week for " + page.candidate + ", " + day_text(page.span);
    html.style = std::string(phone_style) + std::string(pictures_style());
    PagePictures pictures;
    const std::string start = escaped(start_of_line(page.candidate));
    std::string body = "<main data-start=\"" + start + "\" data-page=\"" + start + ";" +
                       iso(page.span.first) + "\">\n<h1>" + escaped(html.title) + "</h1>\n" + opening(page);
    for (const PlannedDay& day : page.week.days)
        if (!is_empty(day, page.exams))
            body += day_html(page, day, pictures);
    if (!page.items.empty()) {
        body += line_html();
        html.script = phone_script();
    }
    html.body = pictures.stored() + body + "</main>\n";
    return to_html(html);
}

} // namespace inkturn
