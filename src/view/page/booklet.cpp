#include "view/page/booklet.hpp"

#include "inkturn/base/time.hpp"
#include "view/page/base64.hpp"
#include "view/page/html.hpp"
#include "view/text/history.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace inkturn {
namespace {

constexpr int lines_per_mark = 2;
constexpr int min_lines = 4;
constexpr int max_lines = 16;            ///< fill a sheet
constexpr int rows_beside_max_lines = 3; ///< of boxes for marks
constexpr int lines_of_opening = 4;      ///< taken by what stands above a candidate's first question
constexpr int worth_fitting = 8;

constexpr std::string_view booklet_style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 180mm; margin: 0 auto; padding: 1rem; font: 1rem/1.4 serif; overflow-wrap: anywhere; }
h1, h2, h3, h4 { line-height: 1.2; margin: 0 0 0.4em; break-after: avoid; }
h1 { font-size: 1.7rem; }
h2 { font-size: 1.4rem; }
h3 { font-size: 1.15rem; }
h4 { font-size: 1.05rem; }
p, dl { margin: 0 0 0.6em; }
.candidate, .schemes { margin-top: 2rem; padding-top: 0.6rem; border-top: 2pt solid #000; }
.how { font-size: 0.9rem; }
.head { display: flex; flex-wrap: wrap; gap: 0.4em 1.4em; justify-content: space-between; align-items: flex-start; margin: 0 0 0.6em; }
.head > div { flex: 1 1 18rem; }
.day > h3 { margin-top: 1em; border-bottom: 0.75pt solid #000; padding-bottom: 0.2em; }
.question, .scheme { margin: 0 0 1.6rem; }
.facts { display: flex; flex-wrap: wrap; gap: 0.1em 1.4em; }
.facts div { display: flex; gap: 0.4em; }
.facts dt { font-style: italic; white-space: nowrap; }
.facts dd { margin: 0; }
.find { font-size: 1.25rem; padding: 0.6em 0; }
img { display: block; width: auto; height: auto; max-width: 100%; max-height: 20cm; margin: 0 0 0.6em; }
.change { float: right; width: 2.6cm; margin: 0; line-height: 1.3; }
.change span { display: block; height: 0.9cm; border-bottom: 0.75pt solid #000; }
.lines { margin: 0 2.9cm 0.8em 0; border-right: 1.5pt solid #000; }
.lines div { height: 1cm; border-bottom: 0.5pt solid #888; }
table { border-collapse: collapse; }
caption { text-align: left; font-style: italic; white-space: nowrap; }
th, td { border: 0.75pt solid #000; padding: 0.2em 0.6em; text-align: left; font-weight: normal; }
tbody td { height: 8mm; }
.count { text-align: right; }
@media screen and (max-width: 30em) {
.lines div:nth-child(n+5) { display: none; }
th, td { padding: 0.2em 0.4em; }
}
@media print {
body { max-width: none; padding: 0; font-size: 11pt; }
h1 { font-size: 13pt; }
h2 { font-size: 12pt; }
.how { font-size: 9pt; }
.candidate { margin-top: 0; padding-top: 0; border-top: none; }
.schemes { margin-top: 0; break-before: page; }
.candidate + .candidate { break-before: page; }
.question, .scheme, .head, .find, .lines, img, table { break-inside: avoid; }
.day:nth-of-type(1) .question:nth-of-type(1) { break-inside: auto; }
.day:nth-of-type(1) .question:nth-of-type(1) img { max-height: 14cm; }
.how, .head, .find, .change { break-after: avoid; }
}
@page {
size: A4; margin: 20mm 15mm 18mm;
@bottom-right { content: counter(page) " of " counter(pages); font: 9pt serif; }
}
)";

/// In whole centimetres, rounded up: 96 pixels per inch as in the style, at most 18 cm wide and 20 cm high.
int printed_height(const std::vector<Picture>& pictures) {
    double sum = 0;
    for (const Picture& picture : pictures) {
        const double width = picture.width * 2.54 / 96;
        const double height = picture.height * 2.54 / 96;
        sum += std::min({height, width > 18 ? height * 18 / width : height, 20.0});
    }
    return static_cast<int>(std::ceil(sum));
}

/// The candidates with retries due.
using Parts = std::vector<const BookletOfCandidate*>;

std::string text(Marks marks) {
    return count_text(static_cast<std::size_t>(marks.count()), "mark");
}

std::string heading(int level, std::string_view plain) {
    const std::string tag = "h" + std::to_string(level) + ">";
    return "<" + tag + escaped(plain) + "</" + tag + "\n";
}

/// `question 7 of pure-1`
std::string name_of(const Retry& retry) {
    return "question " + retry.paper_question().label + " of " + retry.paper->id();
}

std::string with_capital(std::string text) {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string pictures(const std::vector<Picture>& shown, const std::string& of_what) {
    std::string html;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const Picture& picture = shown[i];
        html +=
            "<img alt=\"" +
            escaped(of_what + ", picture " + std::to_string(i + 1) + " of " + std::to_string(shown.size())) +
            "\" width=\"" + std::to_string(picture.width) + "\" height=\"" + std::to_string(picture.height) +
            "\" src=\"" + data_uri(picture);
        html += "\">\n";
    }
    return html;
}

/// For a question without a picture: the paper as its cover names it, and the parts.
std::string where_to_find(const Retry& retry) {
    const Paper& paper = *retry.paper;
    const Question& question = retry.paper_question();
    std::string where = paper.title().empty() ? paper.id() : paper.title() + " (" + paper.id() + ")";
    where += ": question " + question.label;
    if (question.parts.size() > 1)
        where += ", parts " + parts_asked(retry);
    return "<p class=\"find\">Find it in the paper. " + escaped(where) + "</p>\n";
}

/// Everything unusual about a retry, in words; empty if nothing is.
std::string remarks(const Retry& retry) {
    std::vector<std::string> all;
    if (!retry.day)
        all.push_back(retry.window ? "not placed: no day has room for it"
                                   : "no day is left for it before the exam");
    if (retry.outside_window)
        all.push_back("outside its window, whose days have no room");
    if (retry.late)
        all.push_back("late: its window has closed");
    if (retry.window && retry.window->squeezed)
        all.push_back("squeezed: its window was moved earlier because the exam comes first");
    std::string joined;
    for (const std::string& one : all)
        joined += (joined.empty() ? "" : "; ") + one;
    return joined;
}

std::string fact(std::string_view term, std::string_view what) {
    return "<div><dt>" + escaped(term) + "</dt><dd>" + escaped(what) + "</dd></div>\n";
}

std::string facts(const Retry& retry) {
    std::string html = "<dl class=\"facts\">\n";
    html += fact("retry", to_text(retry.id));
    html += fact("turn", std::to_string(retry.id.turn));
    html += fact("marks", std::to_string(retry.paper_question().marks.count()));
    html += fact("allowance", length_text(retry.allowance));
    html += fact("missed", missed_text(retry) + " on " + day_text(retry.dropped_on));
    html +=
        fact("window", retry.window ? day_text(DaySpan{retry.window->opens, retry.window->closes}) : "none");
    if (const std::string note = remarks(retry); !note.empty())
        html += fact("note", note);
    return html + "</dl>\n";
}

std::string space_for_working(int lines) {
    std::string html = "<p class=\"change\">ink changed here:<span></span></p>\n"
                       "<div class=\"lines\" aria-hidden=\"true\">";
    for (int line = 0; line < lines; ++line)
        html += "<div></div>";
    return html + "</div>\n";
}

/// One row per part, with a box for each ink.
std::string boxes_for_marks(const Retry& retry) {
    std::string html = "<table class=\"marks\">\n<caption>marks by ink</caption>\n"
                       "<thead><tr><th scope=\"col\">part</th><th scope=\"col\">of</th>"
                       "<th scope=\"col\">in time</th><th scope=\"col\">overtime</th>"
                       "<th scope=\"col\">corrected</th></tr></thead>\n<tbody>\n";
    for (const std::size_t position : retry.paper_question().parts) {
        const Part& part = retry.paper->parts()[position];
        html += "<tr><th scope=\"row\">" + escaped(part.label) + "</th><td class=\"count\">" +
                std::to_string(part.max.count()) + "</td><td></td><td></td><td></td></tr>\n";
    }
    return html + "</tbody>\n</table>\n";
}

std::string question(const BookletItem& item, bool opens) {
    const std::string name = with_capital(name_of(item.retry));
    std::string html = "<article class=\"question\">\n<div class=\"head\">\n<div>\n" + heading(4, name) +
                       facts(item.retry) + "</div>\n" + boxes_for_marks(item.retry) + "</div>\n";
    html += item.question.empty() ? where_to_find(item.retry) : pictures(item.question, name);
    return html +
           space_for_working(opens ? std::min(working_lines(item), max_lines - lines_of_opening)
                                   : working_lines(item)) +
           "</article>\n";
}

std::string sum_text(const BookletItem* first, const BookletItem* last) {
    Seconds sum{0};
    for (const BookletItem* item = first; item != last; ++item)
        sum += item->retry.allowance;
    return counted_retries(static_cast<std::size_t>(last - first)) + ", " + length_text(sum);
}

/// `opens`: it is the first of the candidate's days.
std::string part_of_day(const BookletItem* first, const BookletItem* last, bool opens) {
    const std::optional<Day> day = first->retry.day;
    std::string html = "<section class=\"day\">\n";
    html += heading(3, (day ? day_text(*day) : "No day left") + ": " + sum_text(first, last));
    for (const BookletItem* item = first; item != last; ++item)
        html += question(*item, opens && item == first);
    return html + "</section>\n";
}

/// The name of a candidate's sheets, and the id of the candidate's part.
std::string sheet_name(std::size_t position) {
    return "candidate-" + std::to_string(position + 1);
}

std::string part_of_candidate(const BookletOfCandidate& part, std::size_t position, DaySpan span) {
    const std::string id = sheet_name(position);
    std::string html =
        "<section class=\"candidate\" style=\"page: " + id + "\" aria-labelledby=\"" + id + "\">\n";
    html += "<h2 id=\"" + id + "\">Candidate " + escaped(part.candidate) + "</h2>\n";
    const BookletItem* const end = part.items.data() + part.items.size();
    html +=
        "<p class=\"how\">" + escaped(day_text(span) + ": " + sum_text(part.items.data(), end) + ". ") +
        escaped("Work each question without notes and within its allowance. When the time is up, mark the "
                "place on the line beside your working, note the time, change ink and carry on. Then mark "
                "it, correct it in a third ink and enter the marks by ink. Allowances include any extra "
                "time that the centre has granted.") +
        "</p>\n";
    for (const BookletItem* first = part.items.data(); first != end;) {
        const BookletItem* const last = std::find_if(
            first, end, [&](const BookletItem& item) { return item.retry.day != first->retry.day; });
        html += part_of_day(first, last, first == part.items.data());
        first = last;
    }
    return html + "</section>\n";
}

/// A question's mark scheme, and the retries it is for.
struct Scheme {
    const BookletItem* item;
    std::string retries;
    std::string before; ///< what came of them so far, paragraphs
};

bool are_same(const Picture& a, const Picture& b) {
    return a.kind == b.kind && a.bytes == b.bytes;
}

bool have_same_scheme(const BookletItem& a, const BookletItem& b) {
    return a.retry.paper->id() == b.retry.paper->id() &&
           a.retry.paper_question().label == b.retry.paper_question().label &&
           std::equal(a.scheme.begin(), a.scheme.end(), b.scheme.begin(), b.scheme.end(), are_same);
}

/// `7a 2+1 of 4, slip`.
std::string marks_before(const Part& part, const PartMarks& marks) {
    PartMarks by_ink = marks;
    by_ink.drop_reason();
    by_ink.drop_by_code();
    return part.label + " " + (marks.attempted() ? to_text(by_ink) : "not attempted") + " of " +
           std::to_string(part.max.count()) +
           (marks.reason() ? ", " + std::string(name(*marks.reason())) : std::string());
}

/// What a candidate earned and noted in each attempt so far, a paragraph an attempt.
std::string attempts_before(const BookletItem& item, const std::string& retry) {
    const Question& question = item.retry.paper_question();
    std::string html;
    for (const QuestionAttempt& attempt : item.attempts) {
        std::string line = retry + ", " + attempt_name(attempt) + " (" + day_text(attempt.day) + "): ";
        for (std::size_t place = 0; place < attempt.parts.size(); ++place)
            line += (place == 0 ? "" : "; ") +
                    marks_before(item.retry.paper->part(question.parts[place]), attempt.parts[place]);
        for (const auto& [label, note] : attempt.notes)
            line.append("; noted on ").append(label).append(": ").append(note);
        html += paragraph(line + ".");
    }
    return html;
}

/// Each once, in the order of the booklet.
std::vector<Scheme> schemes_of(const Parts& parts) {
    std::vector<Scheme> schemes;
    for (const BookletOfCandidate* const part : parts)
        for (const BookletItem& item : part->items) {
            const std::string retry = part->candidate + " " + to_text(item.retry.id);
            const auto known = std::find_if(schemes.begin(), schemes.end(), [&](const Scheme& scheme) {
                return have_same_scheme(*scheme.item, item);
            });
            if (known == schemes.end())
                schemes.push_back({&item, retry, attempts_before(item, retry)});
            else {
                known->retries += ", " + retry;
                known->before += attempts_before(item, retry);
            }
        }
    return schemes;
}

std::string part_of_schemes(const Parts& parts) {
    std::string html = "<section class=\"schemes\" style=\"page: schemes\" aria-labelledby=\"schemes\">\n"
                       "<h2 id=\"schemes\">Mark schemes</h2>\n";
    html += paragraph("For marking: don't look any further until you have finished the questions.");
    std::string missing;
    std::string before;
    for (const Scheme& scheme : schemes_of(parts)) {
        const std::string name = name_of(scheme.item->retry);
        if (scheme.item->scheme.empty()) {
            missing += (missing.empty() ? "" : ", ") + name + " (" + scheme.retries + ")";
            before += scheme.before;
            continue;
        }
        html += "<article class=\"scheme\">\n" + heading(3, with_capital(name));
        html += paragraph(text(scheme.item->retry.paper_question().marks) + "; for " + scheme.retries);
        html += pictures(scheme.item->scheme, "Mark scheme for " + name) + scheme.before + "</article>\n";
    }
    if (!missing.empty())
        html += paragraph("No mark scheme on file for " + missing + ": use the paper's.") + before;
    return html + "</section>\n";
}

/// What each sheet has at its top.
std::string sheet_head(const std::string& page_name, const std::string& left, const std::string& right) {
    return "@page " + page_name + " {\n@top-left { content: " + css_string(left) +
           "; font: 9pt serif; }\n@top-right { content: " + css_string(right) + "; font: 9pt serif; }\n}\n";
}

std::string sheet_heads(const Parts& parts, const std::string& title) {
    std::string css;
    for (std::size_t i = 0; i < parts.size(); ++i)
        css += sheet_head(sheet_name(i), "Candidate " + parts[i]->candidate, title);
    return css + sheet_head("schemes", "Mark schemes", title);
}

Parts those_with_retries(const std::vector<BookletOfCandidate>& candidates) {
    Parts parts;
    for (const BookletOfCandidate& part : candidates)
        if (!part.items.empty())
            parts.push_back(&part);
    return parts;
}

} // namespace

int working_lines(const BookletItem& item) {
    const int wanted =
        std::clamp(lines_per_mark * item.retry.paper_question().marks.count(), min_lines, max_lines);
    const int rows = static_cast<int>(item.retry.paper_question().parts.size());
    const int left = max_lines - printed_height(item.question) - std::max(0, rows - rows_beside_max_lines);
    return left < worth_fitting ? wanted : std::min(wanted, left);
}

std::string to_html(const Booklet& booklet) {
    const Parts parts = those_with_retries(booklet.candidates);
    HtmlPage page;
    page.title = "Retry booklet, " + day_text(booklet.span);
    page.style = std::string(booklet_style) + sheet_heads(parts, page.title);
    // The title shares the first candidate's sheet.
    page.body = "<header" + (parts.empty() ? "" : " style=\"page: " + sheet_name(0) + "\"") + ">\n" +
                heading(1, page.title) + "</header>\n<main>\n";
    if (parts.empty())
        page.body += paragraph("Nothing is due.");
    for (std::size_t i = 0; i < parts.size(); ++i)
        page.body += part_of_candidate(*parts[i], i, booklet.span);
    if (!parts.empty())
        page.body += part_of_schemes(parts);
    page.body += "</main>\n";
    return to_html(page);
}

} // namespace inkturn
