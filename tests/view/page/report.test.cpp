#include "view/page/report.hpp"

#include "view/page/page_checks.hpp"

#include <string>

namespace {

using namespace inkturn;

const Day day = *read_iso_day("2026-11-25");

Report empty() {
    Report report;
    report.candidate = "K01";
    report.day = day;
    return report;
}

ReportTopic topic(const std::string& name, const std::string& advice) {
    return {TopicShare{name, 0.5, 0.25, 0.75, 6}, "4.2", advice};
}

/// With its own text, or the one given, wherever there may be foreign text.
Report full(const std::string& text = "") {
    const auto or_else = [&](const char* usual) { return text.empty() ? std::string(usual) : text; };
    Report report = empty();
    report.candidate = or_else("K01");
    report.next = {or_else("Start with 1q7.")};
    report.sittings = {{or_else("pure-1"), day - Days{4}, Marks(75), Marks(50), Marks(10), Marks(5)}};
    report.bands = {{or_else("A"), 0.7, 0.77}};
    report.pace =
        Report::LastPace{or_else("pure-2"),
                         day - Days{3},
                         {{{Seconds(0), Marks(0)}, {Seconds(5500), Marks(70)}}, Seconds(5400), Marks(75)}};
    report.topics = {{topic(or_else("vectors"), or_else("relearn"))}, 1};
    report.standing = {or_else("Own marks"), {{or_else("set")}, {"grade"}}, {{or_else("June 2025"), "A"}}};
    report.turns = {{1, 9, 4}};
    report.days = {{day, Seconds(1080), Seconds(3600), {or_else("pure-1, question 7")}},
                   {day + Days{1}, Seconds(0), Seconds(0), {}}};
    return report;
}

} // namespace

TEST_CASE("a report has its sections in order, each under its heading") {
    const std::string html = to_html(full());
    CHECK(holds(html, "<title>Report for K01</title>"));
    CHECK(in_order(html, {"<h1>Report for K01</h1>", "<p>Wed 25 Nov 2026</p>", "<h2 id=\"next\">",
                          "<p>Start with 1q7.</p>", "<h3>Wed 25 Nov: 18:00 planned of 1:00:00</h3>",
                          "<li>pure-1, question 7</li>", "<h2 id=\"sittings\">", "pure-1, 21 Nov",
                          "<h2 id=\"topics\">", "vectors", "relearn", "<h2 id=\"pace\">",
                          "<p>pure-2, Sun 22 Nov 2026</p>", "ink changed at 1:30:00", "<h2 id=\"turns\">",
                          "turn 1", "<h2 id=\"standing\">", "June 2025"}));
    CHECK(count(html, "<section") == 6);
    CHECK(count(html, "</section>") == 6);
    CHECK(count(html, "<svg") == 4);
    CHECK(count(html, "<table>") == 5);
}

TEST_CASE("a report leaves out what isn't there yet") {
    const std::string html = to_html(empty());
    CHECK(holds(html, "<p>Nothing is due.</p>"));
    CHECK(count(html, "<section") == 1);
    CHECK_FALSE(holds(html, "<svg"));
    CHECK_FALSE(holds(html, "<table"));
}

TEST_CASE("numbers are folded away under their figure") {
    const std::string html = to_html(full());
    CHECK(count(html, "<details>") == 4);
    CHECK_FALSE(holds(html, "<details open"));
}

TEST_CASE("grades come with the caution that they are not a promise") {
    CHECK(holds(to_html(full()), "<p>Grades here are arithmetic on past series, not a promise."));
    CHECK_FALSE(holds(to_html(empty()), "not a promise"));
}

TEST_CASE("days without a retry are not listed") {
    CHECK_FALSE(holds(to_html(full()), "<h3>Thu 26 Nov"));
}

TEST_CASE("a retry on a day off stands under its day") {
    Report report = empty();
    report.days = {{day, Seconds(360), Seconds(0), {"pure-1, question 1"}}};
    CHECK(holds(to_html(report), "<h3>Wed 25 Nov: 6:00 planned on a day off</h3>"));
}

TEST_CASE("under the figure of topics each has what it costs and what to do") {
    Report report = empty();
    report.topics = {{topic("vectors", "probably firm"), topic("proof", "practise")}, 1};
    const std::string html = to_html(report);
    CHECK(holds(html, "<th scope=\"col\">what to do</th>"));
    CHECK(holds(html, "<td>4.2</td><td>probably firm</td></tr>"));
    CHECK(holds(html, "<td>4.2</td><td>practise</td></tr>"));
}

TEST_CASE("the figure of topics says whose marks it rests on") {
    Report report = empty();
    report.topics = {{topic("vectors", "firm")}, 1};
    CHECK(holds(to_html(report), "from 1 candidate&#39;s marks alone in parts not seen before"));
    report.topics.candidates = 22;
    CHECK(holds(to_html(report), "from 22 candidates&#39; marks in parts not seen before"));
}

TEST_CASE("topics are shown that have an outlook, in their order") {
    std::vector<TopicDiagnosis> topics(3);
    topics[0].topic = "vectors";
    topics[0].distinct_parts = 6;
    topics[1].topic = "proof";
    topics[1].distinct_parts = 2;
    add_outlook(topics[0], {0.5, {0.25, 0.75}, 0.9, 4.16, 0.8});
    add_outlook(topics[1], {0.9, {0.8, 0.95}, 0.04, 0.3, 0.1});
    const ReportTopics shown = report_topics(topics, 12);
    CHECK(shown.candidates == 12);
    REQUIRE(shown.shown.size() == 2); // the last is of the parts that state no topic
    CHECK(shown.shown[0].share.topic == "vectors");
    CHECK(shown.shown[0].share.share == 0.5);
    CHECK(shown.shown[0].share.low == 0.25);
    CHECK(shown.shown[0].share.high == 0.75);
    CHECK(shown.shown[0].share.parts == 6);
    CHECK(shown.shown[0].cost == "4.2");
    CHECK(shown.shown[0].advice == "probably firm"); // nothing was lost
    CHECK(shown.shown[1].cost == "0.3");
}

TEST_CASE("the eight topics that come first are drawn, and the others counted") {
    Report report = empty();
    for (int i = 1; i <= 8; ++i)
        report.topics.shown.push_back(topic("topic " + std::to_string(i) + ".", ""));
    CHECK_FALSE(holds(to_html(report), "more topics"));
    for (int i = 9; i <= 45; ++i)
        report.topics.shown.push_back(topic("topic " + std::to_string(i) + ".", ""));
    const std::string html = to_html(report);
    CHECK(count(html, "<svg") == 1);
    CHECK(holds(html, "And 37 more topics."));
    for (int i = 1; i <= 45; ++i) {
        CHECK(count(html, ">topic " + std::to_string(i) + ".</th>") == (i <= 8 ? 1 : 0));
        CHECK(count(html, ">topic " + std::to_string(i) + ".</text>") == (i <= 8 ? 1 : 0));
    }
}

TEST_CASE("no foreign text of a report is taken for HTML or for a style") {
    check_holds_back(to_html(full(breaking_out)));
}

TEST_CASE("a report runs no script and asks for nothing") {
    check_stands_alone(to_html(full()));
}

TEST_CASE("no two elements of a report share an id, and every reference finds its own") {
    Report report = full();
    for (int i = 0; i < 30; ++i)
        report.topics.shown.push_back(topic("vectors", ""));
    check_ids(to_html(report));
}
