#include "view/page/booklet.hpp"

#include "inkturn/base/time.hpp"
#include "view/page/booklet_schemes.hpp"
#include "view/page/booklet_sheets.hpp"
#include "view/page/html.hpp"
#include "view/page/marks_boxes.hpp"
#include "view/page/retry_words.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <set>
#include <string_view>

namespace inkturn {
namespace {

constexpr std::string_view booklet_style = R"(h2 { font-size: 1.2rem; }
h3 { font-size: 1.05rem; }
p { margin: 0 0 0.5em; }
.sheet, .schemes { margin-top: 2rem; padding-top: 0.5rem; border-top: 2pt solid #000; }
.top { display: flex; flex-wrap: wrap; gap: 0 1.4em; justify-content: space-between; font-size: 0.9rem; margin: 0 0 0.5em; }
.top h2 { font-size: 1.05rem; margin: 0; }
.how, .said { font-size: 0.9rem; }
.head { display: flex; flex-wrap: wrap; gap: 0.3em 1.2em; justify-content: space-between; align-items: flex-start; margin: 0 0 0.5em; }
.head > div { flex: 1 1 16rem; }
.question, .scheme { margin: 0 0 1.4rem; }
.find { font-size: 1.1rem; padding: 0.3em 0; }
.work { position: relative; height: 12rem; margin: 0 0 0.6em; }
.work svg { position: absolute; inset: 0 2.7cm 0 0; width: calc(100% - 2.7cm); height: 100%; border-right: 1.5pt solid #000; }
.work p { position: absolute; right: 0; top: 0; width: 2.5cm; margin: 0; font-size: 0.85rem; line-height: 1.3; }
.work span { display: block; height: 0.9cm; border-bottom: 0.75pt solid #000; }
.rules { fill: none; stroke: #888; stroke-width: 0.7; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
header { display: none; }
.sheet { display: flex; flex-direction: column; break-before: page; }
.sheet, .schemes { margin: 0; padding: 0; border: none; }
.sheet:nth-of-type(1) { break-before: auto; }
.schemes { break-before: page; }
.top { border-bottom: 0.75pt solid #000; padding-bottom: 1mm; margin-bottom: 2mm; }
.how, .said { font-size: 8.5pt; line-height: 1.3; margin-bottom: 2mm; }
.question { display: flex; flex-direction: column; margin: 0 0 3mm; break-inside: avoid; }
.work { height: auto; min-height: 3cm; flex: 1 1 3cm; margin: 0; }
.scheme { break-inside: avoid; }
}
)";

/// Rules a centimetre apart, as many as a sheet may hold.
std::string ruled_lines() {
    std::string path;
    for (int line = 1; line <= 26; ++line)
        path += "M0 " + decimal(line * 96 / 2.54, 1) + "h800";
    return "<svg class=\"stored\" aria-hidden=\"true\"><symbol id=\"rules\" class=\"rules\" "
           "overflow=\"visible\">"
           "<path d=\"" +
           path + "\"/></symbol></svg>\n";
}

/// On screen as high as ever; on a sheet it takes what is left, by its marks.
std::string space_for_working(const Retry& retry) {
    return "<div class=\"work\" style=\"flex-grow: " + marks_number(retry.paper_question().marks) +
           "\"><svg aria-hidden=\"true\"><use href=\"#rules\"/></svg><p>ink changed "
           "here:<span></span></p></div>\n";
}

std::string piece_html(const SheetPiece& piece, PagePictures& pictures) {
    const BookletItem& item = *piece.item;
    const std::string name = question_heading(item.retry);
    std::string html = "<article class=\"question\" style=\"flex-grow: " +
                       std::to_string(piece.is_last ? item.retry.paper_question().marks.count() : 0) +
                       "\">\n";
    if (piece.is_first)
        html += "<div class=\"head\">\n<div>\n<h3>" + escaped(name) + "</h3>\n" + said_of(item.retry) +
                "</div>\n" + marks_boxes(item.retry) + "</div>\n";
    else
        html += "<h3>" + escaped(name + ", continued") + "</h3>\n";
    if (item.question.empty() && piece.is_first)
        html += where_to_find(item.retry);
    for (std::size_t i = piece.first_picture; i < piece.end_picture; ++i)
        html += pictures.shown(item.question[i], name + ", picture " + std::to_string(i + 1) + " of " +
                                                     std::to_string(item.question.size()));
    return html + (piece.is_last ? space_for_working(item.retry) : "") + "</article>\n";
}

std::string sum_text(const BookletOfCandidate& part) {
    Seconds sum{0};
    for (const BookletItem& item : part.items)
        sum += item.retry.allowance;
    return counted_retries(part.items.size()) + ", " + length_text(sum);
}

std::string part_of_candidate(const BookletOfCandidate& part, const Booklet& booklet,
                              PagePictures& pictures) {
    const std::vector<BookletSheet> sheets = booklet_sheets(part, booklet.size);
    std::string html;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        html += "<section class=\"sheet\">\n<div class=\"top\"><h2>Candidate " + escaped(part.candidate) +
                "</h2><span>" + escaped(day_text(booklet.span) + ": " + sum_text(part)) +
                "</span><span>sheet " + std::to_string(i + 1) + " of " + std::to_string(sheets.size()) +
                "</span></div>\n";
        if (i == 0)
            html += paragraph("Work each question without notes and within its allowance. When the time is "
                              "up, mark the place on the line beside your working, note the time, change ink "
                              "and carry on. Then mark it, correct it in a third ink and enter the marks by "
                              "ink. Allowances include the extra time with which the paper was sat.",
                              "how");
        for (const SheetPiece& piece : sheets[i])
            html += piece_html(piece, pictures);
        html += "</section>\n";
    }
    for (const QuestionSet& set : part.sets)
        html += "<section class=\"sheet set\">\n<div class=\"top\"><h2>Candidate " + escaped(part.candidate) +
                "</h2><span>" + escaped("To sit: paper " + set.paper->id()) + "</span></div>\n" +
                set_questions(set, pictures, 3) + "</section>\n";
    return html;
}

/// Once a drawn paper, whoever sits it.
std::string schemes_of_sets(const std::vector<const BookletOfCandidate*>& parts, PagePictures& pictures) {
    std::string html;
    std::set<std::string> known;
    for (const BookletOfCandidate* const part : parts)
        for (const QuestionSet& set : part->sets)
            if (known.insert(set.paper->id()).second)
                html += set_schemes(set, pictures);
    return html;
}

bool has_retries(const std::vector<const BookletOfCandidate*>& parts) {
    return std::any_of(parts.begin(), parts.end(),
                       [](const BookletOfCandidate* part) { return !part->items.empty(); });
}

bool has_sets(const std::vector<const BookletOfCandidate*>& parts) {
    return std::any_of(parts.begin(), parts.end(),
                       [](const BookletOfCandidate* part) { return !part->sets.empty(); });
}

std::vector<const BookletOfCandidate*> those_with_work(const std::vector<BookletOfCandidate>& candidates) {
    std::vector<const BookletOfCandidate*> parts;
    for (const BookletOfCandidate& part : candidates)
        if (!part.is_empty())
            parts.push_back(&part);
    return parts;
}

} // namespace

std::string to_html(const Booklet& booklet) {
    const std::vector<const BookletOfCandidate*> parts = those_with_work(booklet.candidates);
    HtmlPage page;
    page.title = "Retry booklet, " + day_text(booklet.span);
    page.style = std::string(printed_page_style) + std::string(booklet_style) +
                 std::string(marks_boxes_style()) + std::string(pictures_style()) +
                 whole_sheet_style(".sheet", Millimetres(266), "14mm 15mm 12mm") +
                 print_size_style(booklet.size) + (has_sets(parts) ? set_style(booklet.size) : "");
    if (parts.empty()) {
        page.body =
            "<main>\n<h1>" + escaped(page.title) + "</h1>\n" + paragraph("Nothing is due.") + "</main>\n";
        return to_html(page);
    }
    PagePictures pictures(booklet.size);
    std::string body;
    for (const BookletOfCandidate* const part : parts)
        body += part_of_candidate(*part, booklet, pictures);
    body += (has_retries(parts) ? booklet_schemes(parts, pictures) : "") + schemes_of_sets(parts, pictures) +
            "</main>\n";
    page.body = ruled_lines() + pictures.stored() + "<header><h1>" + escaped(page.title) + "</h1>" +
                pictures.said_of_size() + "</header>\n<main>\n" + body;
    return to_html(page);
}

} // namespace inkturn
