#include "view/page/class_report.hpp"

#include "inkturn/sitting/sitting.hpp"
#include "view/page/page_checks.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

const Day monday = *read_iso_day("2026-11-23");

std::shared_ptr<const Paper> paper(const std::string& title, const std::string& topic) {
    return std::make_shared<const Paper>(PaperHead{"pure-1", title, "pure", std::nullopt, RetryBy::question},
                                         std::vector<Part>{{"1", Marks(4), "surds", ""},
                                                           {"2a", Marks(6), topic, ""},
                                                           {"2b", Marks(10), topic, ""}});
}

/// A sitting for each line, all but the last on the Monday, that one on the day after.
Side side_of(const std::shared_ptr<const Paper>& paper, const std::vector<std::string>& lines) {
    Side side{paper, {}};
    for (std::size_t i = 0; i < lines.size(); ++i)
        side.sittings.push_back({"K0" + std::to_string(i + 1), monday + Days{i + 1 == lines.size() ? 1 : 0},
                                 parse_line(*paper, lines[i])});
    return side;
}

const std::vector<std::string> marks{"4 5 9", "4 4 8", "3 4 6", "4 2 3", "4 1 2", "4 1 -"};

ClassReport report_on(const std::vector<std::string>& lines) {
    ClassReport report;
    report.side = side_of(paper("Pure, paper 1", "vectors"), lines);
    report.day = *read_iso_day("2026-11-25");
    report.counts = "Each candidate's first sitting counts.";
    return report;
}

/// With its own text, or the one given, wherever there may be foreign text.
ClassReport full(const std::string& text = "") {
    const auto or_else = [&](const char* usual) { return text.empty() ? std::string(usual) : text; };
    ClassReport report = report_on({});
    report.side = side_of(paper(or_else("Pure, paper 1"), or_else("vectors")), marks);
    report.of_class = or_else("tuesday");
    report.not_sat = ClassReport::NotSat{2, 1};
    report.sets = {{or_else("Spring"), "pure", Marks(20), {{"A", Marks(16)}, {"<b>", Marks(10)}}},
                   {or_else("Autumn"), "", Marks(20), {{"A", Marks(11)}, {"<b>", Marks(8)}}},
                   {or_else("Of more"), "pure", Marks(30), {{"A", Marks(20)}}}};
    report.topics = {{{{or_else("vectors"), 0.5, 0.25, 0.75, 6}, or_else("4.2"), or_else("relearn")}},
                     22,
                     {or_else("one part")}};
    report.counts = or_else("Each candidate's first sitting counts.");
    return report;
}

} // namespace

TEST_CASE("a class's report decides first, then shows parts, time, totals, grades and topics") {
    const std::string html = to_html(full());
    CHECK(holds(html, "<title>Report on pure-1, class tuesday</title>"));
    CHECK(in_order(
        html,
        {"<h1>Report on pure-1, class tuesday</h1>",
         "<p>Pure, paper 1. Sat on 2 days from Mon 23 Nov 2026 to Tue 24 Nov 2026, by 6 candidates; absent: "
         "2; no marks of it: 1.</p>",
         "<h2 id=\"decide\">What to decide</h2>",
         "<ol class=\"findings\">",
         "<li>On average 8.5 of 16 marks were lost in vectors (2a and 2b): no other topic cost more. "
         "<strong>",
         "<li>To judge by the marks, 1 of 6 candidates ran out of time, at 2b. <strong>Speak to them",
         "All this comes from 6 candidates",
         "This page names no candidate. Each candidate&#39;s first sitting counts.",
         "<h2 id=\"parts\">",
         "<h2 id=\"bars\">",
         ">2b</text>",
         "<h2 id=\"time\">1 of 6 ran out of time</h2>",
         "<h2 id=\"totals\">Half of the totals lie from",
         "6 candidates, from 5 to 18 marks out of 20",
         "<summary>More figures</summary>",
         "<h2 id=\"grades\">The top grade would go to 2 to 3 of 6, under 2 sets</h2>",
         "Spring",
         "Autumn",
         "not a promise",
         "<h2 id=\"topics\">",
         "relearn",
         "from 22 candidates"}));
    CHECK_FALSE(holds(html, "Of more"));
    CHECK(count(html, "<section") == 7);
    CHECK(count(html, "<svg") == 3);
    CHECK_FALSE(holds(html, "K0"));
}

TEST_CASE("the parts to look at stand first in a class's report, marked and with the reason") {
    // 2b is hard, and the weak and the strong lose it.
    const std::string html = to_html(report_on({"4 5 1", "4 5 2", "4 4 1", "4 4 2", "3 5 1"}));
    CHECK(in_order(html, {"Look first at 2b</h2>", "<tr class=\"marked\"><th scope=\"row\">2b, vectors",
                          "hard", "<tr><th scope=\"row\">1, surds", "<tr><th scope=\"row\">2a, vectors"}));
    CHECK(count(html, "class=\"marked\"") == 2); // the row, and the label of its bar
    CHECK(holds(to_html(report_on({"3 4 6", "3 4 6", "3 4 6", "3 4 6", "3 4 6"})),
                "<h2 id=\"parts\">No part stands out</h2>"));
}

TEST_CASE("the grades of one set, and the same number under several, are told as such") {
    ClassReport report = full();
    report.sets.resize(1);
    CHECK(holds(to_html(report), "The top grade would go to 2 of 6, under one set"));
    report.sets.push_back(report.sets.front());
    CHECK(holds(to_html(report), "The top grade would go to 2 of 6, under 2 sets"));
    report.sets.clear();
    CHECK(holds(to_html(report), "No boundary set on file has this paper&#39;s subject and total."));
    CHECK_FALSE(holds(to_html(report), "not a promise"));
}

TEST_CASE("a table of grades has four sets beside each other, which a phone can show") {
    ClassReport report = full();
    report.sets.resize(2);
    report.sets.insert(report.sets.end(), 7, report.sets.front());
    const std::string html = to_html(report);
    CHECK(count(html, "<caption>Each column: the boundary") == 2 * 3);
}

TEST_CASE("a part that counted for fewer than five is not shown in a class's report") {
    const std::string html =
        to_html(report_on({"4 5 9", "4 4 8", "3 4 6", "4 2 3", "4 1 2", "not-set 1 1", "not-set 2 2"}));
    CHECK_FALSE(holds(html, "Not shown"));
    const std::string withheld = to_html(report_on({"4 5 9", "4 4 8", "3 4 6", "not-set 2 3", "not-set 1 2",
                                                    "not-set 1 1", "not-set 2 2", "not-set 2 2"}));
    CHECK(holds(withheld, "Not shown: 1, which counted for fewer than 5 candidates"));
    CHECK_FALSE(holds(withheld, ">1, surds"));
}

TEST_CASE("grades of fewer than five who sat the whole paper are withheld") {
    ClassReport report = full();
    report.side = side_of(report.side.paper, {"4 5 9", "4 4 8", "3 4 6", "not-set 2 3", "not-set 1 2",
                                              "not-set 1 1", "not-set 2 2", "not-set 2 2"});
    const std::string html = to_html(report);
    CHECK(holds(html, "Fewer than 5 candidates sat the whole paper"));
    CHECK_FALSE(holds(html, "Spring"));
}

TEST_CASE("a class's report says what isn't there yet") {
    const std::string html = to_html(report_on({}));
    CHECK(holds(html, "<h1>Report on pure-1</h1>"));
    CHECK(holds(html, "Nothing yet: nobody has sat the paper."));
    CHECK(holds(html, "Nothing yet: nobody has sat a part with a topic of a paper in the subject pure."));
    CHECK_FALSE(holds(html, "<svg"));
    CHECK_FALSE(holds(html, "<table"));
}

TEST_CASE("no foreign text of a class's report is taken for HTML or for a style") {
    check_holds_back(to_html(full(breaking_out)));
}

TEST_CASE("a class's report runs no script and asks for nothing") {
    check_stands_alone(to_html(full()));
}

TEST_CASE("no two elements of a class's report share an id, and every reference finds its own") {
    check_ids(to_html(full()));
}
