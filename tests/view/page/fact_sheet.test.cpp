#include "view/page/fact_sheet.hpp"

#include "view/page/page_checks.hpp"
#include "view/text/text.hpp"

#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

const Day day = *read_iso_day("2026-11-25");

CandidateSheet of_facts(std::vector<Fact> facts, const std::string& candidate = "K07") {
    std::vector<FactId> ids;
    for (std::size_t i = 0; i < facts.size(); ++i)
        ids.push_back(facts[i].id = FactId{static_cast<std::int64_t>(i) + 1});
    Sheet sheet = sheet_of(ids, day);
    sheet.id = SheetId{3};
    return {candidate, sheet, std::move(facts)};
}

CandidateSheet example() {
    return of_facts({{{}, "sin x", "cos x", "derivatives", "pure"},
                     {{}, "cos x", "-sin x", "derivatives", "pure"},
                     {{}, "1 newton", "1 kg m/s^2", "", "mechanics"}});
}

} // namespace

TEST_CASE("a blank sheet has a prompt and a line to write on a row, under its topics, and no answer") {
    CHECK(to_text(example(), false) == "derivatives, pure\n"
                                       " 1  sin x\n"
                                       "    ............................................................\n"
                                       " 2  cos x\n"
                                       "    ............................................................\n"
                                       "\n"
                                       "mechanics\n"
                                       " 3  1 newton\n"
                                       "    ............................................................\n");
    CHECK(title_of(example()) == "Sheet 3 for K07, Wed 25 Nov 2026: 3 facts, 2:15");
}

TEST_CASE("a filled sheet has the answers, and says which rows were missed") {
    CandidateSheet sheet = example();
    sheet.sheet.log = Sheet::Log{day, {2}};
    CHECK(to_text(sheet, true) == "derivatives, pure\n"
                                  " 1  sin x\n"
                                  "    cos x\n"
                                  " 2  cos x (missed)\n"
                                  "    -sin x\n"
                                  "\n"
                                  "mechanics\n"
                                  " 3  1 newton\n"
                                  "    1 kg m/s^2\n");
    CHECK(missed_text(sheet) == " 2  cos x\n    -sin x\n");
}

TEST_CASE("a row keeps the number it was printed with") {
    CandidateSheet sheet = example();
    sheet.sheet.rows[2].number = 12;
    CHECK(holds(to_text(sheet, true), "\n12  1 newton\n    1 kg m/s^2\n"));
    CHECK(holds(to_html(sheet, true), "<li value=\"12\">\n<p class=\"prompt\">1 newton</p>"));
}

TEST_CASE("no line of a sheet is wider than 80 columns, and nothing in it moves the cursor") {
    std::string words;
    while (words.size() < 290)
        words += "words \x1b[2J ";
    words.resize(290);
    const std::string text =
        to_text(of_facts({{{}, words, words, words.substr(0, 190), words.substr(0, 190)}}), true);
    CHECK(text.find('\x1b') == std::string::npos);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        CHECK(columns(line) <= 80);
}

TEST_CASE("a blank page has lines to write on, as many as the answer takes, and no answer") {
    CandidateSheet sheet = example();
    sheet.facts[2].answer = std::string(61, 'x');
    const std::string html = to_html(sheet, false);
    CHECK(in_order(html,
                   {"<title>Facts to recall, sheet 3</title>", "<h1>Facts to recall, sheet 3</h1>",
                    "Sheet 3 for K07, Wed 25 Nov 2026: 3 facts, 2:15.", "<h2>derivatives, pure</h2>\n<ol>",
                    "<li value=\"1\">", "missed<span></span>", "<p class=\"prompt\">sin x</p>",
                    "<div class=\"lines\" aria-hidden=\"true\"><div></div></div>", "<li value=\"2\">",
                    "</ol>\n<h2>mechanics</h2>\n<ol>", "<li value=\"3\">",
                    "<div class=\"lines\" aria-hidden=\"true\"><div></div><div></div></div>", "</ol>"}));
    CHECK_FALSE(holds(html, "-sin x"));
    CHECK_FALSE(holds(html, "class=\"answer\""));
    CHECK(count(html, "<ol>") == count(html, "</ol>"));
}

TEST_CASE("a filled page has the answers and no lines") {
    CandidateSheet sheet = example();
    sheet.sheet.log = Sheet::Log{day, {2}};
    const std::string html = to_html(sheet, true);
    CHECK(
        in_order(html, {"<h1>Facts to recall, sheet 3, filled</h1>", "<p class=\"answer\">cos x</p>",
                        "<p class=\"prompt\">cos x</p>", "<p class=\"missed\">missed on Wed 25 Nov 2026</p>",
                        "<p class=\"answer\">-sin x</p>"}));
    CHECK(count(html, "<p class=\"missed\">") == 1);
    CHECK_FALSE(holds(html, "class=\"lines\""));
    CHECK_FALSE(holds(html, "class=\"tick\""));
}

TEST_CASE("facts without topic and subject stand under no heading") {
    const std::string html = to_html(of_facts({{{}, "a", "b", "", ""}}), false);
    CHECK_FALSE(holds(html, "<h2"));
    CHECK(holds(html, "<main>\n<ol>\n<li value=\"1\">"));
    CHECK(to_text(of_facts({{{}, "a", "b", "", ""}}), true) == " 1  a\n    b\n");
}

TEST_CASE("no text of a sheet breaks out of its page, which stands alone") {
    const CandidateSheet hostile =
        of_facts({{{}, breaking_out, breaking_out, breaking_out, breaking_out}}, breaking_out);
    for (const bool filled : {false, true}) {
        const std::string html = to_html(hostile, filled);
        check_holds_back(html);
        check_stands_alone(html);
    }
}

TEST_CASE("facts are listed with how they fared and when they are asked again") {
    CandidateSheet sheet = example();
    sheet.sheet.log = Sheet::Log{day, {2}};
    std::vector<Fact> facts = sheet.facts;
    facts.push_back({FactId{4}, "tan x", "sec^2 x", "derivatives", "pure"});
    const auto listed = [&](int later, const std::vector<Exam>& exams = {}, const FactDays& fact_days = {}) {
        std::ostringstream out;
        const Day today = day + Days{later};
        out << facts_table(facts, {sheet.sheet}, facts_due(facts, {sheet.sheet}, exams, today), today,
                           fact_days);
        return std::regex_replace(out.str(), std::regex(" +"), " ");
    };
    CHECK(holds(listed(0), "1 derivatives sin x cos x recalled 25 Nov"));
    CHECK(holds(listed(0), "2 derivatives cos x -sin x missed 25 Nov 9 Dec\n"));
    CHECK(holds(listed(0), "4 derivatives tan x sec^2 x never asked now"));
    CHECK(holds(listed(14), "missed 25 Nov now\n"));
    const FactDays fact_days{{FactId{2}, day + Days{16}}, {FactId{4}, day + Days{3}}};
    CHECK(holds(listed(0, {}, fact_days), "never asked 28 Nov\n"));
    CHECK(holds(listed(4, {}, fact_days), "never asked now\n"));
    CHECK(holds(listed(14, {}, fact_days), "missed 25 Nov 11 Dec\n"));
    CHECK(holds(listed(22), "missed 25 Nov late\n"));
    CHECK(holds(listed(0, {{"Paper", day + Days{1}, ""}}), "missed 25 Nov no day left\n"));
}
