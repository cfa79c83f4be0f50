#include "view/page/question_set.hpp"

#include "inkturn/base/time.hpp"
#include "view/page/html.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/text.hpp"

namespace inkturn {
namespace {

constexpr std::string_view page_of_set_style = R"(h2 { font-size: 1.2rem; }
h3 { font-size: 1.05rem; }
p { margin: 0 0 0.5em; max-width: 70ch; }
@media print {
body { max-width: none; padding: 0; font-size: 10pt; }
h1 { font-size: 14pt; }
h2 { font-size: 12pt; }
h3 { font-size: 10.5pt; }
}
)";

constexpr std::string_view style_of_set =
    R"(.set-question { margin: 1.4rem 0 0; padding-top: 0.4rem; border-top: 0.75pt solid #000; }
.set-question header { display: flex; flex-wrap: wrap; gap: 0 1.2em; align-items: baseline; margin: 0 0 0.5em; break-after: avoid; }
.set-question h2, .set-question h3 { margin: 0; font-size: 1.15rem; }
.set-question .source { margin-left: auto; color: #444; font-size: 0.9rem; }
.set-schemes { margin-top: 2rem; padding-top: 0.5rem; border-top: 2pt solid #000; }
.set-scheme { margin: 0 0 1.2rem; }
.set-marks { columns: 19rem auto; column-gap: 1.5rem; margin: 0 0 1.2rem; }
.set-marks table { border-collapse: collapse; width: 100%; font-size: 0.85rem; break-inside: avoid; margin: 0 0 0.6rem; }
.set-marks th, .set-marks td { border: 0.75pt solid #000; padding: 0.15em 0.4em; text-align: left; font-weight: normal; height: 7mm; }
.set-marks caption { text-align: left; font-size: 0.9rem; padding: 0.1em 0; }
.set-marks thead th { white-space: nowrap; padding: 0.15em 0.3em; }
.set-marks td { width: 22%; }
.set-marks .of { width: auto; text-align: right; }
@media print {
.sheet.set { display: block; min-height: 0; }
.set-question { margin-top: 6mm; }
.set-question .source { font-size: 8.5pt; }
.set-schemes { margin: 0; padding: 0; border: none; break-before: page; }
.schemes + .set-schemes, .set-schemes + .set-schemes { break-before: auto; margin-top: 8mm; }
.set-marks table { font-size: 8.5pt; }
}
)";

constexpr std::string_view large_style_of_set = R"(@media (max-width: 40em) {
.set-marks table { font-size: 0.7rem; }
.set-marks th, .set-marks td, .set-marks thead th { padding: 0.1em 0.2em; white-space: normal; }
}
@media print {
.set-question h2, .set-question h3, .set-question .source { font-size: 18pt; }
.set-marks table, .set-marks caption { font-size: 18pt; line-height: 1.3; }
.set-marks { columns: auto; }
.set-marks td { height: 11mm; }
}
)";

Seconds allowance_of(const QuestionSet& set, std::size_t position) {
    return question_allowance(set.paper->question(position), part_allowances(*set.paper, set.extra));
}

/// `pure-2, question 7`.
std::string source_text(const QuestionOfSet& question) {
    return question.source.paper + ", question " + question.source.question;
}

/// The paper as its cover names it.
std::string where_printed(const QuestionOfSet& question) {
    return (question.title.empty() ? question.source.paper
                                   : question.title + " (" + question.source.paper + ")") +
           ": question " + question.source.question;
}

std::string marks_and_time(const QuestionSet& set, std::size_t position) {
    return counted_marks(set.paper->question(position).marks) + ", " +
           length_text(allowance_of(set, position));
}

std::string shown_all(const std::vector<SharedPicture>& shown, const std::string& what,
                      PagePictures& pictures) {
    std::string html;
    for (std::size_t i = 0; i < shown.size(); ++i)
        html += pictures.shown(shown[i], what + ", picture " + std::to_string(i + 1) + " of " +
                                             std::to_string(shown.size()));
    return html;
}

std::string question_html(const QuestionSet& set, std::size_t position, PagePictures& pictures, int level) {
    const QuestionOfSet& question = set.questions[position];
    const std::string& label = set.paper->question(position).label;
    const std::string heading = "h" + std::to_string(level);
    std::string html = "<article class=\"set-question\">\n<header><" + heading + ">" + escaped(label) + "</" +
                       heading + "><span>" + escaped(marks_and_time(set, position)) +
                       "</span><span class=\"source\">from " + escaped(source_text(question)) +
                       "</span></header>\n";
    html +=
        question.question.empty()
            ? paragraph("Find it in the paper. " + where_printed(question) + ".")
            : shown_all(question.question, "Question " + label + ", from " + source_text(question), pictures);
    return html + "</article>\n";
}

std::string scheme_html(const QuestionSet& set, std::size_t position, PagePictures& pictures) {
    const QuestionOfSet& question = set.questions[position];
    const std::string& label = set.paper->question(position).label;
    return "<article class=\"set-scheme\">\n<h3>" +
           escaped("Question " + label + ": " + counted_marks(set.paper->question(position).marks) +
                   ", from " + source_text(question)) +
           "</h3>\n" +
           shown_all(question.scheme, "Mark scheme of question " + label + ", from " + source_text(question),
                     pictures) +
           "</article>\n";
}

/// Where to find the mark schemes that are not on file.
std::string missing_schemes(const QuestionSet& set) {
    std::string missing;
    for (std::size_t i = 0; i < set.questions.size(); ++i)
        if (set.questions[i].scheme.empty())
            missing += (missing.empty() ? "" : "; ") + set.paper->question(i).label + " (" +
                       where_printed(set.questions[i]) + ")";
    return missing.empty() ? ""
                           : paragraph("No mark scheme on file, so use the paper's, for: " + missing + ".");
}

/// A table a question, so that none is torn.
std::string marks_tables(const QuestionSet& set) {
    std::string html = "<div class=\"set-marks\">\n";
    for (const Question& question : set.paper->questions()) {
        html +=
            "<table>\n<caption>Question " + escaped(question.label) +
            "</caption>\n<thead><tr><th scope=\"col\">part</th><th scope=\"col\" class=\"of\">of</th>"
            "<th scope=\"col\">in time</th><th scope=\"col\">overtime</th><th scope=\"col\">corrected</th>"
            "</tr></thead>\n<tbody>\n";
        for (const std::size_t position : question.parts) {
            const Part& part = set.paper->part(position);
            html += "<tr><th scope=\"row\">" + escaped(part.label) + "</th><td class=\"of\">" +
                    marks_number(part.max) + "</td><td></td><td></td><td></td></tr>\n";
        }
        html += "</tbody>\n</table>\n";
    }
    return html + "</div>\n";
}

std::string heading_of(const QuestionSet& set) {
    return (set.paper->title().empty() ? "Set " + set.paper->id() : set.paper->title()) + ": " +
           counted_marks(set.paper->marks()) + " in " + length_text(allowance(*set.paper, set.extra));
}

std::string lead_of(const QuestionSet& set) {
    std::string lead = "Sit it in one go, without notes, in " + length_text(allowance(*set.paper, set.extra));
    if (set.extra.percent() > 0)
        lead += " (" + std::to_string(set.extra.percent()) + "% extra time included)";
    return lead +
           ". When the time is up, mark the place, change ink and go on. Then mark it from the schemes at "
           "the end and correct it in a third ink.";
}

} // namespace

std::size_t count_of_pictures(const QuestionSet& set) {
    std::size_t count = 0;
    for (const QuestionOfSet& question : set.questions)
        count += question.question.size() + question.scheme.size();
    return count;
}

std::string set_questions(const QuestionSet& set, PagePictures& pictures, int level) {
    std::string html =
        paragraph(lead_of(set)) +
        paragraph("It is practice by topic, not a mock: its marks say little about a whole paper.") +
        paragraph((set.readers.empty() ? "" : "For " + set.readers + ". ") + "On file as paper " +
                  set.paper->id() + ".");
    for (std::size_t i = 0; i < set.questions.size(); ++i)
        html += question_html(set, i, pictures, level);
    return html;
}

std::string folded_set(const QuestionSet& set, PagePictures& pictures) {
    const std::string time = length_text(allowance(*set.paper, set.extra));
    std::string questions;
    std::string schemes;
    for (std::size_t i = 0; i < set.questions.size(); ++i) {
        const QuestionOfSet& question = set.questions[i];
        const std::string& label = set.paper->question(i).label;
        const std::string what = "question " + label + ", from " + source_text(question);
        questions +=
            "<h4>" + escaped(label + ": " + marks_and_time(set, i)) + "</h4>\n" +
            (question.question.empty() ? paragraph("Find it in the paper. " + where_printed(question) + ".")
                                       : shown_all(question.question, "Q" + what.substr(1), pictures));
        if (!question.scheme.empty())
            schemes += "<h4>" + escaped("Question " + label) + "</h4>\n" +
                       shown_all(question.scheme, "Mark scheme of " + what, pictures);
    }
    return "<article>\n<h3>" + escaped(heading_of(set)) + "</h3>\n" +
           paragraph(
               "Unfold the questions when you start, and answer them in one go, without notes, in " + time +
               ". When the time is up, change ink and go on. Then mark it from the schemes and correct it "
               "in a third ink. Write its marks by ink down: they are logged apart from those of retries "
               "(inkturn log " +
               set.paper->id() + "), or handed in.") +
           folded("Questions of " + set.paper->id(), questions) +
           folded("Mark schemes of " + set.paper->id() + ", for when you have finished",
                  schemes + missing_schemes(set)) +
           "</article>\n";
}

std::string set_schemes(const QuestionSet& set, PagePictures& pictures) {
    std::string html =
        "<section class=\"set-schemes\">\n<h2>" + escaped("Mark schemes of " + set.paper->id()) + "</h2>\n" +
        paragraph("For marking: don't look any further until you have finished the questions.") +
        marks_tables(set);
    for (std::size_t i = 0; i < set.questions.size(); ++i)
        if (!set.questions[i].scheme.empty())
            html += scheme_html(set, i, pictures);
    return html + missing_schemes(set) + "</section>\n";
}

std::string set_style(PrintSize size) {
    return std::string(style_of_set) + (size == PrintSize::large ? std::string(large_style_of_set) : "");
}

std::string to_html(const QuestionSet& set) {
    HtmlPage page;
    page.title = heading_of(set);
    PagePictures pictures(set.size);
    const std::string body = set_questions(set, pictures, 2) + set_schemes(set, pictures) + "</main>\n";
    page.body =
        pictures.stored() + "<main>\n<h1>" + escaped(page.title) + "</h1>\n" + pictures.said_of_size() + body;
    page.style =
        std::string(printed_page_style) + std::string(page_of_set_style) + std::string(pictures_style()) +
        print_size_style(set.size) + set_style(set.size) + "@page {\n" + sheet_rule("14mm 15mm 16mm") +
        "\n@bottom-left { content: " +
        css_string(set.paper->id() + (set.readers.empty() ? "" : ", " + set.readers)) +
        "; font: 8.5pt sans-serif; }\n@bottom-right { content: counter(page) \" of \" counter(pages); "
        "font: 8.5pt sans-serif; }\n}\n";
    return to_html(page);
}

} // namespace inkturn
