#include "inkturn/retry/returned_line.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"
#include "inkturn/base/check_digits.hpp"
#include "refusal.hpp"

#include <string>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

const std::string example_line =
    "inkturn;K07;12q7,pure-1,2026-12-09,7a=3,7b=2+1:slip;12q8t2,pure-1,2026-12-10,8=-;";

/// With its check digits and end.
std::string whole(const std::string& content) {
    const std::string checked = content.substr(0, content.size() - 1);
    return content + check_digits(checked) + ";end";
}

std::string refusal(const std::string& text) {
    return refusal_of([&] { parse_returned_line(text); });
}

} // namespace

TEST_CASE("a line says whose it is, which retries, the day, and marks by ink") {
    const ReturnedLine line = parse_returned_line(whole(example_line));
    CHECK(line.candidate == "K07");
    REQUIRE(line.retries.size() == 2);
    CHECK(to_text(line.retries[0].id) == "12q7");
    CHECK(line.retries[0].paper == "pure-1");
    CHECK(iso(line.retries[0].day) == "2026-12-09");
    REQUIRE(line.retries[0].entries.size() == 2);
    CHECK(line.retries[0].entries[1].part == "7b");
    CHECK(line.retries[0].entries[1].marks == "2+1:slip");
    CHECK(to_text(line.retries[1].id) == "12q8t2");
    CHECK(to_text(line) == whole(example_line));
}

TEST_CASE("a line begins as the page's attributes do") {
    const Candidate candidate = example();
    const std::vector<Retry> retries = open_retries(candidate, day(0));
    CHECK(start_of_line(candidate.code) == "inkturn;K07");
    CHECK(start_of_retry(retries.front()) == ";12q1,made-up");
}

TEST_CASE("codes and ids of any signs come back from a line of plain ones") {
    for (const std::string code : {"Zo\xC3\xAB Ash", "a;b,c=d", "K_07*~", "100%", "\xE6\x9D\x8E", ";end"}) {
        const ReturnedLine line{code, {{parse_retry_id("1q2"), "pure_1.b", day(0), {parse_entry("2=1")}}}};
        const std::string text = to_text(line);
        CHECK(text.find_first_of(" _*~\"'<>&") == std::string::npos);
        CHECK(parse_returned_line(text).candidate == code);
        CHECK(parse_returned_line(text).retries[0].paper == "pure_1.b");
    }
}

TEST_CASE("a line that is cut at any place is refused, and says so") {
    const std::string text = whole(example_line);
    for (std::size_t size = 0; size < text.size(); ++size) {
        CHECK_THAT(refusal(text.substr(0, size)), Contains("cut short at its"));
        CHECK_THAT(refusal(text.substr(size + 1)), Contains("cut short at its start"));
    }
}

TEST_CASE("a line with any one sign changed, left out or put in is refused") {
    const std::string text = whole(example_line);
    for (std::size_t i = 0; i < text.size(); ++i) {
        for (const char c : {'0', '1', '7', 'a', 'q', ',', ';', '=', '+', ':', 'K'}) {
            std::string other = text;
            other[i] = c;
            if (other != text)
                CHECK(refusal(other) != "");
        }
        std::string shorter = text;
        shorter.erase(i, 1);
        if (shorter != text)
            CHECK(refusal(shorter) != "");
    }
}

TEST_CASE("what was changed on the way says which check digits it has and should have") {
    std::string text = whole(example_line);
    text.replace(text.find("7a=3"), 4, "7a=4");
    CHECK_THAT(refusal(text), Contains("was changed since the page made it: its check digits are '"));
    CHECK_THAT(refusal("inkturn;K07;end"), Contains("was changed"));
    CHECK_THAT(refusal("inkturn;K07\xC3\xA9;00;end"), Contains("holds a sign that no page puts there"));
}

TEST_CASE("two lines run together are refused") {
    const std::string text = whole(example_line);
    CHECK_THAT(refusal(text + text), Contains("has another one within it"));
}

TEST_CASE("a line with sound check digits that no page makes is refused") {
    CHECK_THAT(refusal(whole("inkturn;K07;")), Contains("names no retry"));
    CHECK_THAT(refusal(whole("inkturn;;12q7,pure-1,2026-12-09,7=3;")), Contains("candidate"));
    CHECK_THAT(refusal(whole("inkturn;K07;12q7,pure-1,2026-12-09;")), Contains("names no marks"));
    CHECK_THAT(refusal(whole("inkturn;K07;12q7,,2026-12-09,7=3;")), Contains("names no paper"));
    CHECK_THAT(refusal(whole("inkturn;K07;12q7,pure-1,2026-13-09,7=3;")), Contains("retry 12q7"));
    CHECK_THAT(refusal(whole("inkturn;K07;q7,pure-1,2026-12-09,7=3;")), Contains("is not a retry's id"));
    CHECK_THAT(refusal(whole("inkturn;K%0;12q7,pure-1,2026-12-09,7=3;")), Contains("can't be read"));
}
