#include "view/page/letters.hpp"

#include "view/page/page_checks.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

Day on(const char* text) {
    return *read_iso_day(text);
}

const DaySpan week{on("2026-12-07"), on("2026-12-13")};

LetterRetry retry_of(const char* question, const char* closes, const std::string& title = "") {
    Retry retry;
    retry.paper = std::make_shared<const Paper>(
        PaperHead{"pure-1", title, "pure", {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(3), "", ""}, {"7a", Marks(2), "", ""}, {"7b", Marks(4), "", ""}});
    retry.question = *retry.paper->find_question(question);
    retry.id = {SittingId{12}, question, 1};
    retry.missed_marks = Marks(2);
    retry.allowance = 72 * Seconds(retry.paper_question().marks.count());
    retry.dropped_on = on("2026-11-20");
    retry.day = on("2026-12-08");
    retry.window = Window{on(closes) - Days{7}, on(closes), false};
    return {retry, {}};
}

std::string page_of(std::vector<Letter> letters) {
    return to_html(Letters{week, week.last, on("2026-12-07"), std::move(letters)});
}

} // namespace

TEST_CASE("a letter opens with what to hand in by when, and what to begin with") {
    const std::string html =
        page_of({{"K07", "", {retry_of("1", "2026-12-11"), retry_of("7", "2026-12-10")}}});
    CHECK(in_order(html,
                   {"<h2 id=\"letter-1\">K07</h2>",
                    "Hand in 2 retries by Sun 13 Dec 2026: 10:48 of work in all. Begin with question 7 of "
                    "pure-1.",
                    "<h3>Question 7 of pure-1</h3>", "By Thu 10 Dec 2026, best on Tue 8 Dec 2026, 7:12.",
                    "<h3>Question 1 of pure-1</h3>", "By Fri 11 Dec 2026", "Remarks:"}));
}

TEST_CASE("late retries come first and are called late") {
    LetterRetry late = retry_of("1", "2026-12-04");
    late.retry.late = true;
    const std::string html = page_of({{"K07", "", {retry_of("7", "2026-12-10"), late}}});
    CHECK(in_order(html,
                   {"Begin with question 1 of pure-1, which is 3 days late.", "<h3>Question 1 of pure-1</h3>",
                    "<p class=\"late\">3 days late: do it on Tue 8 Dec 2026, 3:36.</p>",
                    "<h3>Question 7 of pure-1</h3>"}));
}

TEST_CASE("a letter says what went wrong, part by part") {
    LetterRetry one = retry_of("7", "2026-12-10", "Pure, first mock");
    one.attempts = {{{0, false, {true, true}},
                     on("2026-11-20"),
                     {PartMarks({Marks(1), Marks(0)}, Marks(2), Reason::slip), PartMarks()},
                     {{"7b", "noted"}}}};
    const std::string html = page_of({{"K07", "", {one}}});
    CHECK(holds(html, "Missed 2 of 6 on Fri 20 Nov 2026: in part 7a 1 of 2, slip; part 7b not attempted."));
    CHECK(holds(html, "Retry 12q7, Pure, first mock."));
    CHECK_FALSE(holds(html, "noted")); // it may give the answer away
}

TEST_CASE("each part has a box for each ink") {
    const std::string html = page_of({{"K07", "", {retry_of("7", "2026-12-10")}}});
    CHECK(count(html, "<td></td><td></td><td></td>") == 2);
}

TEST_CASE("a name stands in the letter only where it is given, and foreign text stays text") {
    const std::string html =
        page_of({{"K07", "<b>Ann & 'Zoë'</b>", {retry_of("7", "2026-12-10", breaking_out)}},
                 {"K08", "", {retry_of("7", "2026-12-10")}}});
    CHECK(holds(html, "&lt;b&gt;Ann &amp; &#39;Zoë&#39;&lt;/b&gt;, K07</h2>"));
    CHECK(holds(html, "<h2 id=\"letter-2\">K08</h2>"));
    CHECK_FALSE(holds(html, "<script"));
    CHECK(count(html, "</style>") == 1);
}

TEST_CASE("a candidate without retries gets no letter") {
    const std::string html = page_of({{"K07", "", {}}, {"K08", "", {retry_of("1", "2026-12-10")}}});
    CHECK_FALSE(holds(html, "K07"));
    CHECK(count(html, "class=\"letter\"") == 1);
    CHECK(holds(page_of({{"K07", "", {}}}), "<p>Nothing is due.</p>"));
}

TEST_CASE("what does not fit a side waits for the next letter, and the letter says so") {
    Letter letter{"K07", "", {}};
    for (int i = 0; i < 20; ++i)
        letter.retries.push_back(retry_of("7", "2026-12-10"));
    const std::size_t shown = sides_of(letter, {week, week.last, on("2026-12-07"), {}})[0].size();
    CHECK(shown >= 6);
    CHECK(shown < 20);
    CHECK(holds(page_of({letter}), std::to_string(20 - shown) + " more retries are due on these days"));
    letter.retries.resize(shown);
    CHECK_FALSE(holds(page_of({letter}), "did not fit"));
}

TEST_CASE("a large letter has words of 18 points, and as many sides as its retries need") {
    Letters letters{
        {on("2026-12-07"), on("2026-12-13")}, on("2026-12-14"), on("2026-12-07"), {{"K07", "", {}}}};
    for (int i = 0; i < 20; ++i)
        letters.letters[0].retries.push_back(retry_of("7", "2026-12-10"));
    const std::string usual = to_html(letters);
    const std::size_t fit = sides_of(letters.letters[0], letters)[0].size();
    letters.size = PrintSize::large;
    const std::string large = to_html(letters);
    const auto sides = sides_of(letters.letters[0], letters);
    CHECK(sides[0].size() < fit);
    CHECK(count(large, "class=\"retry\"") == 20);
    CHECK(count(large, "class=\"letter\"") == sides.size());
    CHECK(holds(large, "K07, side 2 of " + std::to_string(sides.size()) + "</h2>"));
    CHECK(count(large, "Remarks:") == 1);
    CHECK_FALSE(holds(large, "did not fit"));
    CHECK(holds(large, "font-size: 18pt"));
    CHECK_FALSE(holds(usual, "font-size: 18pt"));
}

TEST_CASE("a retry whose window opens after the hand-in is called due later, the day before it is not") {
    Letters letters{week, on("2026-12-04"), on("2026-12-01"), {{"K07", "", {}}}};
    letters.letters[0].retries = {retry_of("1", "2026-12-11"), retry_of("7", "2026-12-12")};
    const std::string html = to_html(letters);
    CHECK(
        in_order(html, {"Hand in 1 retry by Fri 4 Dec 2026, and 1 retry later, by the day beside each: 10:48",
                        "<p>By Fri 4 Dec 2026, 3:36.</p>",
                        "<p>Hand in later: not before Sat 5 Dec 2026, by Sat 12 Dec 2026, best on Tue 8 Dec "
                        "2026, 7:12.</p>"}));
    letters.hand_in = on("2026-12-03");
    CHECK(holds(to_html(letters), "Hand in nothing by Thu 3 Dec 2026, and 2 retries later"));
}
