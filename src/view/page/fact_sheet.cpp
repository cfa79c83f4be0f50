#include "view/page/fact_sheet.hpp"

#include "inkturn/base/text.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/base/utf8.hpp"
#include "view/page/html.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <string_view>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t indent = 4;
constexpr std::size_t characters_a_line = 60; ///< of what is written by hand

constexpr std::string_view sheet_style = R"(* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { max-width: 180mm; margin: 0 auto; padding: 1rem; font: 1rem/1.4 serif; overflow-wrap: anywhere; }
h1, h2 { line-height: 1.2; margin: 0 0 0.4em; break-after: avoid; }
h1 { font-size: 1.7rem; }
h2 { font-size: 1.25rem; border-top: 1.5pt solid #000; padding-top: 0.5em; margin-top: 1.2em; }
p { margin: 0 0 0.6em; }
ol { margin: 0; padding: 0 0 0 2.2em; }
li { margin: 0 0 0.9em; padding-left: 0.3em; break-inside: avoid; }
li p { margin: 0; }
.answer { font-size: 1.2rem; font-weight: bold; }
.missed { font-style: italic; }
.tick { float: right; font-size: 0.85rem; }
.tick span { display: inline-block; width: 1em; height: 1em; margin-left: 0.4em; border: 0.75pt solid #000; }
.lines div { height: 1cm; border-bottom: 0.75pt solid #000; clear: right; }
@media print {
body { max-width: none; padding: 0; font-size: 11pt; }
}
)";

/// The heading of a row; empty if it has neither topic nor subject.
std::string group_of(const Fact& fact) {
    return fact.topic + (fact.topic.empty() || fact.subject.empty() ? "" : ", ") + fact.subject;
}

bool begins_group(const CandidateSheet& sheet, std::size_t row) {
    return row == 0 || group_of(sheet.facts[row]) != group_of(sheet.facts[row - 1]);
}

std::string lines_below(const std::string& text) {
    return std::string(indent, ' ') + wrapped(visible(text), text_width() - indent, indent) + '\n';
}

std::string row_text(const CandidateSheet& sheet, std::size_t i, bool filled, const std::string& remark) {
    const int number = sheet.sheet.rows[i].number;
    const Fact& fact = sheet.facts[i];
    const std::string prompt = visible(fact.prompt) + remark;
    return (number < 10 ? " " : "") + std::to_string(number) + "  " +
           wrapped(prompt, text_width() - indent, indent) + '\n' +
           (filled ? lines_below(fact.answer)
                   : std::string(indent, ' ') + std::string(characters_a_line, '.') + '\n');
}

/// As many as the answer needs.
std::string lines_to_write_on(const Fact& fact) {
    std::string html = "<div class=\"lines\" aria-hidden=\"true\">";
    for (std::size_t line = 0; line <= character_count(fact.answer) / characters_a_line; ++line)
        html += "<div></div>";
    return html + "</div>\n";
}

std::string row_html(const CandidateSheet& sheet, std::size_t i, bool filled) {
    const int number = sheet.sheet.rows[i].number;
    const Fact& fact = sheet.facts[i];
    std::string html = "<li value=\"" + std::to_string(number) + "\">\n";
    if (!filled)
        html += "<p class=\"tick\">missed<span></span></p>\n";
    html += paragraph(fact.prompt, "prompt");
    if (sheet.sheet.is_missed(number))
        html += paragraph("missed on " + day_text(sheet.sheet.log->day), "missed");
    return html + (filled ? paragraph(fact.answer, "answer") : lines_to_write_on(fact)) + "</li>\n";
}

std::string rows_html(const CandidateSheet& sheet, bool filled) {
    std::string html;
    for (std::size_t i = 0; i < sheet.facts.size(); ++i) {
        if (begins_group(sheet, i)) {
            html += i > 0 ? "</ol>\n" : "";
            if (const std::string group = group_of(sheet.facts[i]); !group.empty())
                html += "<h2>" + escaped(group) + "</h2>\n";
            html += "<ol>\n";
        }
        html += row_html(sheet, i, filled);
    }
    return html + "</ol>\n";
}

std::string lead(const CandidateSheet& sheet, bool filled) {
    if (filled)
        return "Use this to check what you wrote and to learn what you missed.";
    return "Write each one down from memory, with nothing open beside you. Then check it, and tick what you "
           "missed. Rows you missed come back: enter their numbers for sheet " +
           to_text(sheet.sheet.id) + ".";
}

/// `9 Dec`: the list is of what is a few weeks away.
std::string short_day(Day day) {
    const std::string text = date_text(day);
    return text.substr(0, text.size() - 5);
}

std::string how_it_fared(const LastRecall* last) {
    return last ? (last->missed ? "missed " : "recalled ") + short_day(last->day) : "never asked";
}

/// The day on which it comes back, from today on: the planned one, otherwise the first possible one.
std::string comes_back(const DueFact* due, Day today, const FactDays& fact_days) {
    if (!due)
        return "";
    if (!due->possible_days)
        return "no day left";
    if (const auto day = fact_days.find(due->fact); day != fact_days.end() && day->second > today)
        return short_day(day->second);
    if (due->possible_days->first > today)
        return short_day(due->possible_days->first);
    return due->late ? "late" : "now";
}

} // namespace

std::string title_of(const CandidateSheet& sheet) {
    return "Sheet " + to_text(sheet.sheet.id) + " for " + sheet.candidate + ", " + day_text(sheet.sheet.day) +
           ": " + count_text(sheet.facts.size(), "fact") + ", " + length_text(sheet.sheet.duration());
}

std::string to_text(const CandidateSheet& sheet, bool filled) {
    std::string text;
    for (std::size_t i = 0; i < sheet.facts.size(); ++i) {
        if (begins_group(sheet, i)) {
            const std::string group = group_of(sheet.facts[i]);
            text += text.empty() ? "" : "\n";
            text += group.empty() ? "" : wrapped(visible(group), text_width()) + '\n';
        }
        const bool is_missed = sheet.sheet.is_missed(sheet.sheet.rows[i].number);
        text += row_text(sheet, i, filled, is_missed ? " (missed)" : "");
    }
    return text;
}

std::string missed_text(const CandidateSheet& sheet) {
    std::string text;
    for (std::size_t i = 0; i < sheet.facts.size(); ++i)
        if (sheet.sheet.is_missed(sheet.sheet.rows[i].number))
            text += row_text(sheet, i, true, "");
    return text;
}

std::string to_html(const CandidateSheet& sheet, bool filled) {
    HtmlPage page;
    page.title = "Facts to recall, sheet " + to_text(sheet.sheet.id) + (filled ? ", with answers" : "");
    page.style = std::string(sheet_style) + "@page {\n" + sheet_rule("18mm 15mm") +
                 "\n@top-left { content: " + css_string(page.title) +
                 "; font: 9pt serif; }\n@top-right { content: " + css_string("Candidate " + sheet.candidate) +
                 "; font: 9pt serif; }\n@bottom-right { content: counter(page) \" of \" counter(pages); "
                 "font: 9pt serif; }\n}\n";
    page.body = "<header>\n<h1>" + escaped(page.title) + "</h1>\n" + paragraph(title_of(sheet) + ".") +
                paragraph(lead(sheet, filled)) + "</header>\n<main>\n" + rows_html(sheet, filled) +
                "</main>\n";
    return to_html(page);
}

Table facts_table(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                  const std::vector<DueFact>& due, Day today, const FactDays& fact_days) {
    const std::map<FactId, LastRecall> last = last_recalls(of_candidate);
    std::map<FactId, const DueFact*> due_by_fact;
    for (const DueFact& one : due)
        due_by_fact[one.fact] = &one;
    Table table({{"fact", Align::right},
                 {"topic", Align::left_may_be_cut},
                 {"prompt", Align::left_may_be_cut},
                 {"answer", Align::left_may_be_cut},
                 {"last"},
                 {"due"}});
    for (const Fact& fact : facts) {
        const auto recall = last.find(fact.id);
        const LastRecall* fared = recall == last.end() ? nullptr : &recall->second;
        const auto again = due_by_fact.find(fact.id);
        table.add_row({std::to_string(static_cast<std::int64_t>(fact.id)), fact.topic, fact.prompt,
                       fact.answer, how_it_fared(fared),
                       comes_back(again == due_by_fact.end() ? nullptr : again->second, today, fact_days)});
    }
    return table;
}

} // namespace inkturn
