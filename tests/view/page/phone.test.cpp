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
