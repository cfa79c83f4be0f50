#include "view/page/class_report.hpp"

#include "view/page/page_checks.hpp"

#include <string>

namespace {

using namespace inkturn;

ClassReport empty() {
    ClassReport report;
    report.paper = "pure-1";
    report.day = *read_iso_day("2026-11-25");
    return report;
}

/// With its own text, or the one given, wherever there may be foreign text.
ClassReport full(const std::string& text = "") {
    const auto or_else = [&](const char* usual) { return text.empty() ? std::string(usual) : text; };
    ClassReport report = empty();
    report.paper = or_else("pure-1");
    report.paper_title = or_else("Pure, paper 1");
    report.subject = or_else("pure");
    report.of_class = or_else("tuesday");
    report.figures = {
        or_else("Own marks"), {{"figure"}, {or_else("value"), true}}, {{or_else("mean"), "6.50"}}};
    report.missing = {or_else("There is no alpha."), ""};
    report.parts = {{or_else("1"), Marks(4), Marks(7)}, {or_else("2b"), Marks(6), Marks(6)}};
    report.spread = {{Marks(9), Marks(4)}, Marks(10), {{or_else("A"), 0.7, 0.8}}};
    report.topics = {{{{or_else("vectors"), 0.5, 0.25, 0.75, 6}, or_else("4.2"), or_else("relearn")}},
                     22,
                     {or_else("one part")}};
    return report;
}

} // namespace

TEST_CASE("a class's report has its sections in order, each under its heading") {
    const std::string html = to_html(full());
    CHECK(holds(html, "<title>Report on pure-1, class tuesday</title>"));
    CHECK(in_order(html, {"<h1>Report on pure-1, class tuesday</h1>", "<p>Pure, paper 1</p>",
                          "<p>Wed 25 Nov 2026</p>", "<p>This page covers the class and names no candidate.",
                          "<h2 id=\"paper\">", "6.50", "<p>There is no alpha.</p>", "<h2 id=\"parts\">",
                          ">2b</text>", "<h2 id=\"totals\">", "2 candidates, from 4 to 9 marks out of 10",
                          "<h2 id=\"topics\">",
                          "On average over the candidates, from all papers in the subject pure.", "vectors",
                          "relearn", "from 22 candidates"}));
    CHECK(count(html, "<section") == 4);
    CHECK(count(html, "</section>") == 4);
    CHECK(count(html, "<svg") == 3);
    CHECK(count(html, "<table>") == 4);
}

TEST_CASE("a class's report says what isn't there yet") {
    const std::string html = to_html(empty());
    CHECK(holds(html, "<h1>Report on pure-1</h1>"));
    CHECK(holds(html, "<p>This page covers all candidates on file and names no candidate."));
    CHECK(count(html, "<p>Nothing yet: nobody has sat the paper.</p>") == 3);
    CHECK(holds(html, "<p>Nothing yet: nobody has sat any part of a paper.</p>"));
    CHECK(count(html, "<section") == 4);
    CHECK_FALSE(holds(html, "<svg"));
    CHECK_FALSE(holds(html, "<table"));
}

TEST_CASE("boundaries over a class's totals come with the caution, and the page says if there are none") {
    const std::string caution = "<p>Grades here are arithmetic on past series, not a promise.";
    const std::string none = "<p>No boundary set on file has this paper&#39;s subject and total.</p>";
    CHECK(holds(to_html(full()), caution));
    CHECK_FALSE(holds(to_html(full()), none));
    ClassReport report = full();
    report.spread.bands.clear();
    CHECK_FALSE(holds(to_html(report), "not a promise"));
    CHECK(holds(to_html(report), none));
}

TEST_CASE("the topics of a paper without a subject are those of all papers") {
    ClassReport report = full();
    report.subject.clear();
    CHECK(holds(to_html(report), "<p>On average over the candidates, from all papers.</p>"));
}

TEST_CASE("the parts of a long paper are spread over figures of 38, each part once") {
    ClassReport report = full();
    report.parts.clear();
    for (int i = 1; i <= 80; ++i)
        report.parts.push_back({"A" + std::to_string(i) + "x", Marks(2), Marks(3)});
    const std::string html = to_html(report);
    CHECK(count(html, "<svg") == 3 + 2);
    CHECK(holds(html, "<figcaption>Unaided marks by part</figcaption>"));
    CHECK(holds(html, "<figcaption>Unaided marks by part, from A39x</figcaption>"));
    CHECK(holds(html, "<figcaption>Unaided marks by part, from A77x</figcaption>"));
    for (int i = 1; i <= 80; ++i) {
        CHECK(count(html, ">A" + std::to_string(i) + "x</th>") == 1);
        CHECK(count(html, ">A" + std::to_string(i) + "x</text>") == 1);
    }
}

TEST_CASE("no foreign text of a class's report is taken for HTML or for a style") {
    check_holds_back(to_html(full(breaking_out)));
}

TEST_CASE("a class's report runs no script and asks for nothing") {
    check_stands_alone(to_html(full()));
}

TEST_CASE("no two elements of a class's report share an id, and every reference finds its own") {
    ClassReport report = full();
    for (int i = 0; i < 60; ++i)
        report.parts.push_back({"3", Marks(2), Marks(3)});
    check_ids(to_html(report));
}
