#include "view/page/letters.hpp"

#include "inkturn/base/length.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/base/utf8.hpp"
#include "view/page/booklet_schemes.hpp"
#include "view/page/html.hpp"
#include "view/page/marks_boxes.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <tuple>

namespace inkturn {
namespace {

/// What a letter's retries take of a side.
struct LetterHeights {
    Millimetres retries; ///< of a side of A4, between its opening and its end
    Millimetres further; ///< the same of a further side, whose opening is short
    Millimetres line;    ///< of text
    Millimetres heading;
    Millimetres gap;        ///< between retries
    std::size_t characters; ///< of a line of text
};

constexpr LetterHeights usual_letter{Millimetres(198), Millimetres(198), Millimetres(4.2),
                                     Millimetres(6),   Millimetres(3.5), 55};
/// The text stands above the boxes, not beside them.
constexpr LetterHeights large_letter{Millimetres(144), Millimetres(210), Millimetres(8.3),
                                     Millimetres(9),   Millimetres(5),   50};

constexpr std::string_view letters_style = R"(h2 { font-size: 1.3rem; }
h3 { font-size: 1rem; }
p { margin: 0 0 0.5em; }
.letter { margin-top: 2rem; padding-top: 0.6rem; border-top: 2pt solid #000; }
.decide { font-weight: bold; max-width: 70ch; }
.how { font-size: 0.9rem; max-width: 75ch; }
.retry { display: flex; flex-wrap: wrap; gap: 0.3em 1.2em; justify-content: space-between; align-items: flex-start; border-top: 0.5pt solid #999; padding: 0.5em 0; }
.retry > div { flex: 1 1 14rem; font-size: 0.9rem; }
.retry p { margin: 0; }
.late { font-weight: bold; }
.hand { border-bottom: 0.75pt solid #000; height: 2.2em; margin: 0; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
header { display: none; }
.letter { margin: 0; padding: 0; border: none; display: flex; flex-direction: column; break-before: page; }
.letter:nth-of-type(1) { break-before: auto; }
h2 { font-size: 15pt; }
.how { font-size: 8.5pt; line-height: 1.3; }
.retry { padding: 1.5mm 0; break-inside: avoid; }
.retry > div { font-size: 9pt; line-height: 1.3; }
.hand { height: 9mm; }
.end { margin-top: auto; }
}
)";

/// Late ones first, then by the end of their windows, then by day.
void sort_for_letter(std::vector<LetterRetry>& retries) {
    std::stable_sort(retries.begin(), retries.end(), [](const LetterRetry& a, const LetterRetry& b) {
        const auto key = [](const Retry& retry) {
            return std::tuple(!retry.late, retry.window ? retry.window->closes : latest_day,
                              retry.day.value_or(latest_day));
        };
        return key(a.retry) < key(b.retry);
    });
}

/// `3 of 4, method`.
std::string lost_of(const Part& part, const PartMarks& marks) {
    return (marks.attempted() ? marks_number(part.max - marks.unaided()) + " of " + marks_number(part.max)
                              : "not attempted") +
           (marks.reason() ? ", " + std::string(name(*marks.reason())) : std::string());
}

/// Each part that lost marks: `in part 2a 3 of 4, method; part 2b not attempted`. Of a question with one
/// part only what its total does not say.
std::string parts_that_lost(const LetterRetry& one) {
    const QuestionAttempt& last = one.attempts.back();
    const Question& question = one.retry.paper->question(one.retry.question);
    if (last.parts.size() == 1 && last.parts[0].attempted())
        return last.parts[0].reason() ? std::string(name(*last.parts[0].reason())) : "";
    std::string parts;
    for (std::size_t place = 0; place < last.parts.size(); ++place) {
        const Part& part = one.retry.paper->part(question.parts[place]);
        if (!last.parts[place].counts() || last.parts[place].unaided() == part.max)
            continue;
        parts += parts.empty() ? "" : "; ";
        if (last.parts.size() > 1)
            parts += (last.parts[place].attempted() ? "in part " : "part ") + part.label + " ";
        parts += lost_of(part, last.parts[place]);
    }
    return parts;
}

/// What the last attempt missed, part by part.
std::string what_went_wrong(const LetterRetry& one) {
    const Retry& retry = one.retry;
    const std::string text = "Missed " + missed_text(retry) + " on " + day_text(retry.dropped_on);
    const std::string parts = one.attempts.empty() ? "" : parts_that_lost(one);
    return text + (parts.empty() ? "" : ": " + parts) + ".";
}

/// The day by which it is to be done: its window's last, or the day on which all are handed in.
std::string by_when(const Retry& retry, Day hand_in, Day today) {
    const std::string length = length_text(retry.allowance);
    if (retry.late)
        return late_text(retry, today) + " late" +
               (retry.day ? ": do it " + (*retry.day <= hand_in ? "on " + day_text(*retry.day)
                                                                : "by " + day_text(hand_in))
                          : std::string()) +
               ", " + length + ".";
    const bool is_later = is_due_later(retry, hand_in);
    const Day last = is_later ? retry.window->closes : std::min(retry.window->closes, hand_in);
    return (is_later ? "Hand in later: not before " + day_text(retry.window->opens) + ", by " : "By ") +
           day_text(last) +
           (retry.day && *retry.day < last ? ", best on " + day_text(*retry.day) : std::string()) + ", " +
           length + ".";
}

std::string which_retry(const Retry& retry) {
    return "Retry " + to_text(retry.id) +
           (retry.id.turn > 1 ? ", turn " + std::to_string(retry.id.turn) : "") +
           (retry.paper->title().empty() ? "" : ", " + retry.paper->title()) + ".";
}

Millimetres height_of_text(const std::string& text, const LetterHeights& of) {
    return of.line *
           std::ceil(static_cast<double>(character_count(text)) / static_cast<double>(of.characters));
}

Millimetres height_on_side(const LetterRetry& one, const Letters& of) {
    const LetterHeights heights = by_size(of.size, usual_letter, large_letter);
    const Millimetres text =
        heights.heading + height_of_text(by_when(one.retry, of.hand_in, of.today), heights) +
        height_of_text(what_went_wrong(one), heights) + height_of_text(which_retry(one.retry), heights);
    const Millimetres boxes = height_of_boxes(one.retry, of.size);
    return by_size(of.size, std::max(text, boxes), text + boxes) + heights.gap;
}

std::string retry_html(const LetterRetry& one, Day hand_in, Day today) {
    return "<article class=\"retry\">\n<div>\n<h3>" + escaped(question_heading(one.retry)) + "</h3>\n" +
           paragraph(by_when(one.retry, hand_in, today), one.retry.late ? "late" : "") +
           paragraph(what_went_wrong(one)) + paragraph(which_retry(one.retry)) + "</div>\n" +
           marks_boxes(one.retry) + "</article>\n";
}

/// What the letter asks for, in a sentence or two.
std::string what_to_do(const std::vector<LetterRetry>& shown, Day hand_in, Day today) {
    Seconds sum{0};
    std::size_t late = 0;
    std::size_t later = 0;
    for (const LetterRetry& one : shown) {
        sum += one.retry.allowance;
        late += one.retry.late;
        later += is_due_later(one.retry, hand_in);
    }
    const std::size_t now = shown.size() - later;
    const Retry& first = shown.front().retry;
    return "Hand in " + (now == 0 ? "nothing" : counted_retries(now)) + " by " + day_text(hand_in) +
           (later == 0 ? "" : ", and " + counted_retries(later) + " later, by the day beside each") + ": " +
           length_text(sum) + " of work in all. Begin with " + question_of_paper(first) +
           (first.late ? ", which is " + late_text(first, today) + " late" : std::string()) + "." +
           (late > 1 ? " " + std::to_string(late) + " are late." : "");
}

std::string left_for_next(const Letter& letter, std::size_t shown) {
    const std::size_t left = letter.retries.size() - shown;
    if (left == 0)
        return "";
    return paragraph(std::to_string(left) + (left == 1 ? " more retry is" : " more retries are") +
                     " due on these days and did not fit this side: a further letter brings " +
                     (left == 1 ? "it" : "them") + " once these are recorded.");
}

std::vector<LetterRetry> joined_sides(const std::vector<std::vector<LetterRetry>>& sides) {
    std::vector<LetterRetry> all;
    for (const std::vector<LetterRetry>& side : sides)
        all.insert(all.end(), side.begin(), side.end());
    return all;
}

std::string letter_opening(const std::vector<LetterRetry>& shown, const Letters& of) {
    return paragraph(what_to_do(shown, of.hand_in, of.today), "decide") +
           paragraph("Work each without notes and within its time. When the time is up, note the "
                     "place, change ink and carry on. Then mark it by the mark scheme, correct it "
                     "in a third ink, and write the marks by ink into the boxes. Times include "
                     "the extra time with which the paper was sat.",
                     "how");
}

/// `which`: such as `side 2 of 3`; empty where there is one side.
std::string side_begin(const Letter& letter, const std::string& which, const std::string& id) {
    return "<section class=\"letter\" aria-labelledby=\"" + id + "\">\n<h2 id=\"" + id + "\">" +
           escaped((letter.name.empty() ? "" : letter.name + ", ") + letter.candidate) +
           (which.empty() ? "" : ", ") + which + "</h2>\n";
}

/// `number` counts the sides of all letters.
std::string letter_html(const Letter& letter, const Letters& of, std::size_t& number) {
    const std::vector<std::vector<LetterRetry>> sides = sides_of(letter, of);
    const std::vector<LetterRetry> shown = joined_sides(sides);
    std::string html;
    for (std::size_t i = 0; i < sides.size(); ++i) {
        const std::string which =
            sides.size() == 1 ? "" : "side " + std::to_string(i + 1) + " of " + std::to_string(sides.size());
        html += side_begin(letter, which, "letter-" + std::to_string(++number));
        html += i == 0 ? letter_opening(shown, of) : "";
        for (const LetterRetry& one : sides[i])
            html += retry_html(one, of.hand_in, of.today);
        if (i + 1 == sides.size())
            html += left_for_next(letter, shown.size()) +
                    "<div class=\"end\">\n<p class=\"hand\">Remarks:</p>\n<p "
                    "class=\"hand\"></p>\n</div>\n";
        html += "</section>\n";
    }
    return html;
}

} // namespace

bool is_due_later(const Retry& retry, Day hand_in) {
    return !retry.late && retry.window && hand_in < retry.window->opens;
}

std::vector<std::vector<LetterRetry>> sides_of(Letter letter, const Letters& of) {
    sort_for_letter(letter.retries);
    const LetterHeights heights = by_size(of.size, usual_letter, large_letter);
    Millimetres used{0};
    std::vector<std::vector<LetterRetry>> sides;
    for (LetterRetry& one : letter.retries) {
        const Millimetres height = height_on_side(one, of);
        used += height;
        if (sides.empty() || used > on_sheet(sides.size() == 1 ? heights.retries : heights.further)) {
            if (!sides.empty() && of.size == PrintSize::usual)
                break;
            sides.emplace_back();
            used = height;
        }
        sides.back().push_back(std::move(one));
    }
    return sides;
}

std::string to_html(const Letters& letters) {
    HtmlPage page;
    page.title = "Retries, " + day_text(letters.span);
    page.style = std::string(printed_page_style) + std::string(letters_style) +
                 std::string(marks_boxes_style()) + whole_sheet_style(".letter", Millimetres(262), "15mm") +
                 print_size_style(letters.size);
    std::string sides;
    std::size_t number = 0;
    for (const Letter& letter : letters.letters)
        if (!letter.retries.empty())
            sides += letter_html(letter, letters, number);
    page.body = "<header><h1>" + escaped(page.title) + "</h1></header>\n<main>\n" +
                (sides.empty() ? paragraph("Nothing is due.") : sides) + "</main>\n";
    return to_html(page);
}

} // namespace inkturn
