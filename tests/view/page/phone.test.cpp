#include "view/page/phone.hpp"

#include "core/retry/candidates.hpp"
#include "inkturn/base/base64.hpp"
#include "inkturn/base/sha256.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "view/page/page_checks.hpp"
#include "view/page/phone_script.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// The week in which the two retries of the example fall.
PhonePage page_of(const std::string& code) {
    Candidate candidate = example();
    candidate.code = code;
    TimetableRequest request;
    request.weak = std::make_shared<const std::vector<WeakTopic>>();
    const Timetable made = timetable(candidate, request, day(14));
    PhonePage page{code, {day(14), day(20)}, plan(made, candidate, {day(14), day(20)}), {}, {}, {}};
    for (const PlannedDay& one : page.week.days)
        for (const Retry& retry : one.retries())
            page.items.push_back({retry, {}, {}, {}});
    return page;
}

} // namespace

TEST_CASE("a week on a phone has a day, an allowance and boxes for each retry, and one line at its end") {
    const std::string html = to_html(page_of("K07"));
    CHECK(count(html, "<article class=\"retry\"") == 2);
    CHECK(count(html, "<details>") == 2);
    CHECK(count(html, "<fieldset class=\"part\"") == 2);
    CHECK(holds(html, "data-start=\"inkturn;K07\""));
    CHECK(in_order(html,
                   {";12q1,made-up", "6:00 for 5 marks", "data-max=\"5\"", ";12q3,made-up", "id=\"line\""}));
    CHECK_FALSE(holds(html, "<details open"));
}

TEST_CASE("the policy of a week on a phone lets its own script run, by its digest, and nothing else") {
    const std::string html = to_html(page_of("K07"));
    CHECK(count(html, "<script") == 1);
    CHECK(holds(html, "<script>" + std::string(phone_script()) + "</script>"));
    CHECK(holds(
        html, "content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-" +
                  base64(sha256(phone_script())) + "'; base-uri 'none'; form-action 'none'\""));
    CHECK_FALSE(holds(std::string(phone_script()), "</script"));
    CHECK_FALSE(holds(std::string(phone_script()), "innerHTML"));
}

TEST_CASE("no code breaks out of a week on a phone") {
    const std::string html = to_html(page_of(breaking_out));
    CHECK(count(html, "<script") == 1);
    CHECK_FALSE(holds(html, "<script>alert"));
    CHECK(count(html, "</style>") == 1);
}

TEST_CASE("a set on a phone has its questions and mark schemes folded, and no boxes") {
    PhonePage page = page_of("K07");
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"set-1", "Set on <b>", "pure", {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(5), "vectors", ""}, {"2", Marks(10), "vectors", ""}});
    PaperToSit to_sit;
    to_sit.paper = paper;
    page.week.days[1].items.push_back({to_sit, Seconds(1800), {}, day(15)});
    page.sets = {{paper, {{{"pure-1", "3"}, "", {}, {}}, {{"pure-2", "4"}, "Pure 2", {}, {}}}, "", {}}};
    const std::string html = to_html(page);
    CHECK(in_order(html, {"Set on &lt;b&gt;: 15 marks in 18:00", "<summary>Questions of set-1</summary>",
                          "<h4>1: 5 marks, 6:00</h4>", "Find it in the paper. pure-1: question 3.",
                          "Pure 2 (pure-2): question 4", "<summary>Mark schemes of set-1", "</article>"}));
    CHECK(count(html, "<details>") == 4);
    CHECK(count(html, "<fieldset class=\"part\"") == 2);
}

TEST_CASE("a week without retries has no script and no line") {
    PhonePage page = page_of("K07");
    page.items.clear();
    for (PlannedDay& one : page.week.days)
        one.items.clear();
    const std::string html = to_html(page);
    CHECK(holds(html, "Nothing to do on these days."));
    CHECK_FALSE(holds(html, "<script"));
    CHECK(holds(html, "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'"));
}
