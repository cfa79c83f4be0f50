#include "view/page/booklet.hpp"

#include "view/page/page_checks.hpp"

#include <memory>
#include <regex>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

using PaperPointer = std::shared_ptr<const Paper>;

const DaySpan span{*read_iso_day("2026-12-09"), *read_iso_day("2026-12-16")};

PaperPointer paper_titled(const std::string& title, RetryBy by = RetryBy::question) {
    return std::make_shared<const Paper>(PaperHead{"pure-1", title, "pure", {}, by},
                                         std::vector<Part>{{"1", Marks(1), "", ""},
                                                           {"7a", Marks(2), "", ""},
                                                           {"7b", Marks(4), "", ""},
                                                           {"7c", Marks(6), "", ""},
                                                           {"8", Marks(5), "", ""}});
}

Retry retry_of(const PaperPointer& paper, const char* question, const char* day) {
    Retry retry;
    retry.paper = paper;
    retry.question = *paper->find_question(question);
    retry.id = {SittingId{12}, question, 1};
    retry.missed_marks = Marks(1);
    retry.allowance = 72 * Seconds(retry.paper_question().marks.count());
    retry.day = *read_iso_day(day);
    retry.dropped_on = *read_iso_day("2026-11-25");
    retry.window = Window{*read_iso_day("2026-12-09"), *read_iso_day("2026-12-16"), false};
    return retry;
}

Retry example_retry() {
    return retry_of(paper_titled(""), "7", "2026-12-09");
}

SharedPicture picture(const std::string& bytes, PictureKind kind = PictureKind::png) {
    return std::make_shared<const Picture>(Picture{kind, 800, 300, bytes});
}

std::string page_of(const std::vector<BookletOfCandidate>& candidates) {
    return to_html(Booklet{span, candidates});
}

std::string page_of(const Retry& retry, const std::vector<SharedPicture>& question = {},
                    const std::vector<SharedPicture>& scheme = {}) {
    return page_of({{"K07", {{retry, question, scheme}}}});
}

std::string body_of(const std::string& html) {
    const std::size_t start = html.find("<body>");
    return html.substr(start, html.find("</html>") - start);
}

/// The tags' names, `/` before those that close.
std::vector<std::string> tags_of(const std::string& body) {
    const std::regex tag("<(/?[a-z0-9]+)((?: [a-zA-Z-]+=\"[^\"<>]*\")*)/?>");
    std::vector<std::string> tags;
    for (std::sregex_iterator at(body.begin(), body.end(), tag), end; at != end; ++at)
        tags.push_back((*at)[1]);
    return tags;
}

/// Whether every tag that has to be closed is, in the order of their nesting, and no `<` stands elsewhere.
bool is_well_nested(const std::string& html) {
    const std::string body = body_of(html);
    const std::vector<std::string> tags = tags_of(body);
    std::vector<std::string> open;
    for (const std::string& tag : tags) {
        if (tag.front() != '/') {
            if (tag != "use" && tag != "image" && tag != "path")
                open.push_back(tag);
        } else {
            if (open.empty() || "/" + open.back() != tag)
                return false;
            open.pop_back();
        }
    }
    return open.empty() && tags.size() == count(body, "<");
}

} // namespace

TEST_CASE("an empty booklet says that nothing is due") {
    const std::string html = to_html(Booklet{span, {}});
    CHECK(holds(html, "<main>\n<h1>Retry booklet, 9 to 16 Dec 2026</h1>\n<p>Nothing is due.</p>\n</main>"));
    CHECK_FALSE(holds(html, "Mark schemes</h2>"));
}

TEST_CASE("a candidate with nothing due gets no sheet") {
    CHECK(page_of({{"K01", {}}, {"K02", {}}}) == to_html(Booklet{span, {}}));
    const std::string html = page_of({{"K01", {}}, {"K02", {{example_retry(), {}, {}}}}});
    CHECK_FALSE(holds(html, "K01"));
    CHECK(html == page_of({{"K02", {{example_retry(), {}, {}}}}}));
}

TEST_CASE("a candidate's part says what is due when, and for how long") {
    const PaperPointer paper = paper_titled("");
    const std::string html = page_of({{"K07",
                                       {{retry_of(paper, "7", "2026-12-09"), {}, {}},
                                        {retry_of(paper, "8", "2026-12-09"), {}, {}},
                                        {retry_of(paper, "1", "2026-12-16"), {}, {}}}}});
    CHECK(
        in_order(html, {"Candidate K07</h2>", "9 to 16 Dec 2026: 3 retries, 21:36",
                        "<h3>Question 7 of pure-1</h3>", "Wed 9 Dec 2026, 14:24 for 12 marks.",
                        "<h3>Question 8 of pure-1</h3>", "Wed 9 Dec 2026, 6:00 for 5 marks.",
                        "<h3>Question 1 of pure-1</h3>", "Wed 16 Dec 2026, 1:12 for 1 mark.", "</section>"}));
}

TEST_CASE("a retry without a day says so") {
    Retry retry = example_retry();
    retry.day.reset();
    retry.window.reset();
    CHECK(holds(page_of(retry), "<p class=\"said\">No day, 14:24 for 12 marks. Missed 1 of 12 on Wed 25 Nov "
                                "2026. Retry 12q7. No day is left for it before the exam.</p>"));
}

TEST_CASE("a retry is shown with its day, allowance, what was missed, window and id") {
    Retry retry = example_retry();
    retry.id.turn = 2;
    retry.missed_marks = Marks(11);
    CHECK(holds(
        page_of(retry),
        "<h3>Question 7 of pure-1</h3>\n<p class=\"said\">Wed 9 Dec 2026, 14:24 for 12 marks. Missed 11 of "
        "12 on Wed 25 Nov 2026. Window 9 to 16 Dec 2026. Retry 12q7t2, turn 2.</p>"));
}

TEST_CASE("everything unusual about a retry is put into words") {
    Retry retry = example_retry();
    retry.late = true;
    CHECK(holds(page_of(retry), "Retry 12q7. Late: its window has closed.</p>"));
    retry.window->squeezed = true;
    CHECK(holds(page_of(retry),
                "Late: its window has closed; squeezed: its window was moved earlier because the "
                "exam comes first.</p>"));
    retry.late = false;
    retry.window->squeezed = false;
    retry.outside_window = true;
    CHECK(holds(page_of(retry), "Outside its window, whose days have no room.</p>"));
}

TEST_CASE("a question with pictures shows them, in order, and needs no directions") {
    const std::string html = page_of(example_retry(), {picture("foo"), picture("fo", PictureKind::jpeg)});
    CHECK(in_order(html,
                   {"<symbol id=\"picture-1\" viewBox=\"0 0 800 300\"><image width=\"800\" height=\"300\" "
                    "href=\"data:image/png;base64,Zm9v\"/></symbol>",
                    "href=\"data:image/jpeg;base64,Zm8=\"/></symbol>",
                    "aria-label=\"Question 7 of pure-1, picture 1 of 2\"", "<use href=\"#picture-1\"/>",
                    "aria-label=\"Question 7 of pure-1, picture 2 of 2\"", "<use href=\"#picture-2\"/>",
                    "class=\"work\""}));
    CHECK(count(html, "class=\"picture\"") == 2);
    CHECK_FALSE(holds(html, "Find it in the paper"));
}

TEST_CASE("a picture is in the page once, however many candidates have it") {
    std::vector<BookletOfCandidate> candidates;
    for (int i = 0; i < 30; ++i)
        candidates.push_back(
            {"K" + std::to_string(i), {{example_retry(), {picture("foo")}, {picture("foo")}}}});
    const std::string html = page_of(candidates);
    CHECK(count(html, "base64,Zm9v") == 1);
    CHECK(count(html, "<use href=\"#picture-1\"/>") == 31); // the last with the mark scheme
}

TEST_CASE("a question without a picture is described well enough to find it in the paper") {
    CHECK(holds(page_of(example_retry()),
                "<p class=\"find\">Find it in the paper. pure-1: question 7, parts 7a 7b 7c</p>"));
    CHECK(holds(page_of(retry_of(paper_titled("Pure, first mock"), "8", "2026-12-09")),
                "<p class=\"find\">Find it in the paper. Pure, first mock (pure-1): question 8</p>"));
    CHECK(holds(page_of(retry_of(paper_titled("", RetryBy::part), "7b", "2026-12-09")),
                "<p class=\"find\">Find it in the paper. pure-1: question 7b</p>"));
}

TEST_CASE("the space for working takes what is left of the sheet, by marks") {
    const PaperPointer paper = paper_titled("");
    const std::string html = page_of(
        {{"K07",
          {{retry_of(paper, "1", "2026-12-09"), {}, {}}, {retry_of(paper, "8", "2026-12-09"), {}, {}}}}});
    CHECK(count(html, "class=\"sheet\"") == 1);
    CHECK(in_order(html, {"class=\"work\" style=\"flex-grow: 1\"", "class=\"work\" style=\"flex-grow: 5\""}));
    CHECK(count(html, "ink changed here:<span></span>") == 2);
}

TEST_CASE("there is one box per part and ink") {
    const std::string html = page_of(example_retry());
    CHECK(holds(
        html,
        "<th scope=\"col\">part</th><th scope=\"col\" class=\"of\">of</th><th scope=\"col\">in time</th><th "
        "scope=\"col\">overtime</th><th scope=\"col\">corrected</th>"));
    for (const char* const row :
         {"7a</th><td class=\"of\">2", "7b</th><td class=\"of\">4", "7c</th><td class=\"of\">6"})
        CHECK(count(html, "<tr><th scope=\"row\">" + std::string(row) +
                              "</td><td></td><td></td><td></td></tr>") == 1);
    CHECK(count(html, "<td></td>") == 9);
}

TEST_CASE("mark schemes come after the last question of the last candidate") {
    const PaperPointer paper = paper_titled("");
    const std::string html = page_of(
        {{"K01", {{retry_of(paper, "7", "2026-12-09"), {picture("q7")}, {picture("s7")}}}},
         {"K02",
          {{retry_of(paper, "8", "2026-12-09"), {picture("q8")}, {picture("s8", PictureKind::jpeg)}}}}});
    CHECK(
        in_order(html, {"base64,cTc=", "base64,cTg=", "base64,czc=", "base64,czg=", "Candidate K01</h2>",
                        "#picture-1\"", "Candidate K02</h2>", "#picture-2\"", "</article>",
                        "<h2 id=\"schemes\">Mark schemes</h2>",
                        "don&#39;t look any further until you have finished the questions",
                        "<h3>Question 7 of pure-1</h3>", "<p>12 marks; for K01 12q7</p>",
                        "aria-label=\"Mark scheme for question 7 of pure-1, picture 1 of 1\"", "#picture-3\"",
                        "<h3>Question 8 of pure-1</h3>", "<p>5 marks; for K02 12q8</p>", "#picture-4\""}));
    CHECK(count(html, "class=\"schemes\"") == 1);
}

TEST_CASE("a mark scheme for several retries is printed once, and names them") {
    const PaperPointer paper = paper_titled("");
    const Retry retry = retry_of(paper, "1", "2026-12-09");
    const std::string html =
        page_of({{"K01", {{retry, {}, {picture("s1")}}}}, {"K02", {{retry, {}, {picture("s1")}}}}});
    CHECK(count(html, "base64,czE=") == 1);
    CHECK(holds(html, "<p>1 mark; for K01 12q1, K02 12q1</p>"));
}

TEST_CASE("mark schemes that differ are all printed") {
    const PaperPointer paper = paper_titled("");
    const Retry retry = retry_of(paper, "1", "2026-12-09");
    const std::string html = page_of({{"K01", {{retry, {}, {picture("s1")}}}},
                                      {"K02", {{retry, {}, {picture("s1"), picture("s2")}}}},
                                      {"K03", {{retry, {}, {}}}},
                                      {"K04", {{retry_of(paper, "8", "2026-12-09"), {}, {picture("s1")}}}}});
    CHECK(count(html, "class=\"scheme\"") == 3);
    CHECK(holds(html,
                "<p>No mark scheme on file for question 1 of pure-1 (K03 12q1): use the paper&#39;s.</p>"));
    CHECK(count(html, "#picture-1\"") == 3);
    CHECK(count(html, "#picture-2\"") == 1);
}

TEST_CASE("a retry with no mark scheme on file says so in one line") {
    CHECK(count(page_of(example_retry()), "No mark scheme on file for ") == 1);
    CHECK_FALSE(holds(page_of(example_retry(), {}, {picture("s")}), "No mark scheme on file"));
}

TEST_CASE("says that the centre grants extra time") {
    CHECK(count(page_of(example_retry()),
                "Allowances include the extra time with which the paper was sat.") == 1);
}

TEST_CASE("every candidate has their own sheets, with the code and a number on each") {
    const std::string html =
        page_of({{"K01", {{example_retry(), {}, {}}, {example_retry(), {}, {}}, {example_retry(), {}, {}}}},
                 {"K 2", {{example_retry(), {}, {}}}}});
    CHECK(in_order(html, {"<h2>Candidate K01</h2>", "sheet 1 of 3", "Candidate K01</h2>", "sheet 2 of 3",
                          "Candidate K01</h2>", "sheet 3 of 3", "<h2>Candidate K 2</h2>", "sheet 1 of 1"}));
}

TEST_CASE("what was earned before is left out where the schemes are for several candidates") {
    BookletItem item{example_retry(), {}, {}};
    item.attempts = {{{0, false, {true, true, true}},
                      *read_iso_day("2026-11-25"),
                      {PartMarks({Marks(1), Marks(1)}, Marks(2)), PartMarks(), PartMarks()},
                      {{"7b", "sign of cos"}}}};
    CHECK(holds(page_of(std::vector<BookletOfCandidate>{{"K01", {item}}}), "sign of cos"));
    CHECK_FALSE(
        holds(page_of(std::vector<BookletOfCandidate>{{"K01", {item}}, {"K02", {item}}}), "sign of cos"));
}

TEST_CASE("hostile text stays text wherever it may stand") {
    const std::string title = "\"><img src=x onerror=alert(1)> & 'q' \xE2\x80\xAE";
    const std::string code = "</style><script>alert(1)</script>\"'&\x1b";
    Retry retry = retry_of(paper_titled(title), "7", "2026-12-09");
    for (const auto& [question, scheme] :
         {std::pair<std::vector<SharedPicture>, std::vector<SharedPicture>>{},
          {{picture("q")}, {picture("s")}}}) {
        const std::string html = page_of({{code, {{retry, question, scheme}}}});
        CHECK_FALSE(holds(html, "<script"));
        CHECK_FALSE(holds(html, "<img src"));
        CHECK_FALSE(holds(html, "\x1b"));
        CHECK_FALSE(holds(html, "\xE2\x80\xAE"));
        CHECK(count(html, "</style>") == 1);
        CHECK(holds(html, "&lt;/style&gt;&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#39;&amp;\\x1b"));
        CHECK(is_well_nested(html));
    }
    CHECK(holds(page_of(retry),
                "&quot;&gt;&lt;img src=x onerror=alert(1)&gt; &amp; &#39;q&#39; \\u202e (pure-1)"));
}

TEST_CASE("the page holds no script, no address and no unquoted attribute") {
    const std::string html = page_of(example_retry(), {picture("q")}, {picture("s")});
    CHECK_FALSE(holds(html, "<script"));
    CHECK_FALSE(holds(html, "://"));
    CHECK_FALSE(holds(html, "<link"));
    CHECK_FALSE(holds(html, "url("));
    CHECK(count(html, "href=\"") == count(html, "href=\"#") + count(html, "href=\"data:image/png;base64,"));
    CHECK(is_well_nested(html));
}

TEST_CASE("the same booklet is the same page") {
    CHECK(page_of(example_retry(), {picture("q")}) == page_of(example_retry(), {picture("q")}));
}

TEST_CASE("what was earned and noted before stands with the mark scheme, and nowhere before it") {
    const Retry retry = example_retry();
    BookletItem item{retry, {}, {}};
    item.attempts = {{{0, false, {true, true, true}},
                      *read_iso_day("2026-11-25"),
                      {PartMarks({Marks(1), Marks(1)}, Marks(2)),
                       PartMarks({Marks(2)}, Marks(4), Reason::slip), PartMarks()},
                      {{"7b", "sign of <cos>"}}}};
    const std::string html = page_of(std::vector<BookletOfCandidate>{{"K07", {item}}});
    const std::size_t before =
        html.find("K07 12q7, the sitting (Wed 25 Nov 2026): 7a 1+1 of 2; 7b 2 of 4, slip; "
                  "7c not attempted of 6; noted on 7b: sign of &lt;cos&gt;.");
    REQUIRE(before != std::string::npos);
    CHECK(before > html.find("Mark schemes</h2>"));
    CHECK(html.find("sign of") == html.rfind("sign of"));
}
