#include "view/page/html.hpp"

#include "view/page/page_checks.hpp"

#include <random>
#include <string>

namespace {

using namespace inkturn;

std::string random_bytes(std::mt19937& dice) {
    const std::string pieces[] = {"<",  ">",    "&",   "\"",       "'", "\\",  "</style>",
                                  "\n", "\xff", "K07", "\xC3\xA9", "}", "\x1b"};
    std::string bytes;
    for (std::size_t i = dice() % 8; i > 0; --i)
        bytes += dice() % 2 == 0 ? pieces[dice() % std::size(pieces)]
                                 : std::string(1, static_cast<char>(dice() & 0xFF));
    return bytes;
}

} // namespace

TEST_CASE("text without a special meaning is left as it is") {
    CHECK(escaped("") == "");
    CHECK(escaped("K07, question 7b (4 + 2)") == "K07, question 7b (4 + 2)");
    CHECK(escaped("\xC3\x84ngstr\xC3\xB6m") == "\xC3\x84ngstr\xC3\xB6m");
}

TEST_CASE("what means something to HTML is written as an entity") {
    CHECK(escaped("<script>alert(1)</script>") == "&lt;script&gt;alert(1)&lt;/script&gt;");
    CHECK(escaped("a & b") == "a &amp; b");
    CHECK(escaped("&amp;") == "&amp;amp;");
    CHECK(escaped("\" onload='x'") == "&quot; onload=&#39;x&#39;");
}

TEST_CASE("control characters, changes of direction and bytes that are not UTF-8 are written out in HTML") {
    CHECK(escaped("a\nb\x1b") == "a\\x0ab\\x1b");
    CHECK(escaped(std::string("a\0b", 3)) == "a\\x00b");
    CHECK(escaped("a\xE2\x80\xAE"
                  "b") == "a\\u202eb");
    CHECK(escaped("\xFF<") == "\\xff&lt;");
}

TEST_CASE("whatever the bytes, escaped text opens no tag, no entity and no quote") {
    std::mt19937 dice(7);
    for (int round = 0; round < 5000; ++round) {
        std::string html = escaped(random_bytes(dice));
        REQUIRE(html.find_first_of("<>\"'") == std::string::npos);
        for (const char* const entity : {"&lt;", "&gt;", "&quot;", "&#39;", "&amp;"})
            for (std::size_t at = html.find(entity); at != std::string::npos; at = html.find(entity))
                html.erase(at, std::string(entity).size());
        REQUIRE_FALSE(holds(html, "&"));
    }
}

TEST_CASE("a string of a style sheet writes all but letters and digits as codes") {
    CHECK(css_string("K07") == "\"K07\"");
    CHECK(css_string("a b") == "\"a\\20 b\"");
    CHECK(css_string("\"\\") == "\"\\22 \\5c \"");
    CHECK(css_string("</style>") == "\"\\3c \\2f style\\3e \"");
    CHECK(css_string("\xC3\xA9") == "\"\xC3\xA9\"");
    CHECK(css_string("\n") == "\"\\5c x0a\""); // the written-out form, \x0a
}

TEST_CASE("whatever the bytes, a string of a style sheet ends where it should") {
    std::mt19937 dice(8);
    for (int round = 0; round < 5000; ++round) {
        const std::string css = css_string(random_bytes(dice));
        REQUIRE(css.size() >= 2);
        REQUIRE(css.front() == '"');
        REQUIRE(css.find('"', 1) == css.size() - 1);
        REQUIRE(css.find_first_of("<>&';{}\n\r\f") == std::string::npos);
    }
}

TEST_CASE("a page states its language, encoding, width and policy") {
    const std::string html = to_html(HtmlPage{"T", "p { margin: 0; }\n", "<p>B</p>\n"});
    CHECK(html.rfind("<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n", 0) == 0);
    CHECK(holds(html, "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"));
    CHECK(holds(html, "<style>\np { margin: 0; }\n</style>\n"));
    CHECK(holds(html, "<body>\n<p>B</p>\n</body>\n</html>\n"));
}

TEST_CASE("the policy allows the page's own pictures and styles, and comes before everything it rules") {
    const std::string html = to_html(HtmlPage{"T", "", ""});
    const std::size_t policy =
        html.find("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                  "img-src data:; style-src 'unsafe-inline'; base-uri 'none'; "
                  "form-action 'none'\">");
    REQUIRE(policy != std::string::npos);
    CHECK(policy < html.find("<title>"));
    CHECK(policy < html.find("<style>"));
}

TEST_CASE("a page's title is plain text") {
    CHECK(holds(to_html(HtmlPage{"</title><b>", "", ""}), "<title>&lt;/title&gt;&lt;b&gt;</title>"));
}
