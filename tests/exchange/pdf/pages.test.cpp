#include "exchange/pdf/pages.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "refusal.hpp"
#include "temp_folder.hpp"

#include <cmath>
#include <random>
#include <string>

#include <sys/stat.h>

namespace {

using namespace inkturn;
using namespace std::string_literals;
using Catch::Matchers::Contains;

std::string word(const std::string& text, const std::string& box = R"(xMin="1" yMin="2" xMax="3" yMax="4")") {
    return "<word " + box + ">" + text + "</word>\n";
}

std::string page(const std::string& words, const std::string& size = R"(width="595.2" height="841.9")") {
    return "<page " + size + ">\n<flow>\n<block><line>" + words + "</line></block></flow></page>\n";
}

std::string document(const std::string& pages) {
    return "<!DOCTYPE html PUBLIC \"-//W3C//DTD XHTML 1.0 Transitional//EN\">\n<html><head><title>a &lt;page "
           "width=</title></head>\n<body>\n<doc>\n" +
           pages + "</doc>\n</body>\n</html>\n";
}

/// The words of a document of one page.
std::vector<std::string> words_of(const std::string& words) {
    std::vector<std::string> texts;
    const std::vector<PrintedPage> pages = parse_printed_pages(document(page(words)));
    for (const PrintedWord& found : pages.at(0).words)
        texts.push_back(found.text);
    return texts;
}

using Texts = std::vector<std::string>;

} // namespace

TEST_CASE("pages have their size, words their boxes") {
    const auto pages = parse_printed_pages(
        document(page(word("Find", R"(xMin="70.5" yMin="80" xMax="91.25" yMax="92.5")") + word("(4)")) +
                 page("", R"(width="842" height="595")")));
    REQUIRE(pages.size() == 2);
    CHECK(pages[0].width == Points(595.2));
    CHECK(pages[0].height == Points(841.9));
    REQUIRE(pages[0].words.size() == 2);
    CHECK(pages[0].words[0].text == "Find");
    CHECK(pages[0].words[0].box.left == Points(70.5));
    CHECK(pages[0].words[0].box.top == Points(80));
    CHECK(pages[0].words[0].box.right == Points(91.25));
    CHECK(pages[0].words[0].box.bottom == Points(92.5));
    CHECK(pages[0].words[1].text == "(4)");
    CHECK(pages[1].width == Points(842));
    CHECK(pages[1].words.empty());
}

TEST_CASE("entities stand for their characters, anything else for itself") {
    CHECK(words_of(word("a&lt;b&gt;c&amp;d&quot;e&apos;f")) == Texts{"a<b>c&d\"e'f"});
    CHECK(words_of(word("&#65;&#x3b1;&#8722;&#x1F600;")) == Texts{"A\u03b1\u2212\U0001F600"});
    CHECK(words_of(word("&amp;lt;")) == Texts{"&lt;"});
    CHECK(words_of(word("&")) == Texts{"&"});
    CHECK(words_of(word("a&b;&unknown;&#;&#x;&#12a;")) == Texts{"a&b;&unknown;&#;&#x;&#12a;"});
    CHECK(words_of(word("x&#xD800;&#x110000;&#99999999999;")) == Texts{"x&#99999999999;"});
}

TEST_CASE("letters that TeX joins and its dashes are read, where their place in its fonts stands for them") {
    CHECK(words_of(word("signi\x1C"
                        "cant")) == Texts{"significant"});
    CHECK(words_of(word("o&#27;er")) == Texts{"offer"});
    CHECK(words_of(word("13.00\x15"
                        "14.30")) == Texts{"13.00\xE2\x80\x93"
                                           "14.30"});
}

TEST_CASE("control characters are dropped, a word of nothing else too") {
    CHECK(words_of(word("a\x1a[31m\x7f\tb")) == Texts{"a[31mb"});
    CHECK(words_of(word("c\xC2\x9B\xC2\x80"s + "d\xC2\xA0")) == Texts{"cd"});
    CHECK(words_of(word("e&#26;&#x9b;f&#0;")) == Texts{"ef"});
    CHECK(words_of(word("\x01\x02") + word("") + word("&#10;") + word("left")) == Texts{"left"});
    CHECK(words_of(word("\xC2\xA3"
                        "5")) == Texts{"\u00a3"
                                       "5"});
}

TEST_CASE("words with an invalid box are left out") {
    for (const char* box :
         {R"(xMin="nan" yMin="2" xMax="3" yMax="4")", R"(xMin="1" yMin="inf" xMax="3" yMax="4")",
          R"(xMin="3" yMin="2" xMax="1" yMax="4")", R"(xMin="1" yMin="4" xMax="3" yMax="2")",
          R"(xMin="1" yMin="2" xMax="1e99" yMax="4")", R"(xMin="1" yMin="2" xMax="3")",
          R"(xMin="1" yMin="2" xMax="3" yMax="4)", R"(xMin="" yMin="2" xMax="3" yMax="4")",
          R"(xMin="1" yMin="2" xMax="1e999" yMax="4")", R"(xMin="0x1" yMin="2" xMax="3" yMax="4")",
          R"(xMin="-90000" yMin="2" xMax="3" yMax="4")"}) {
        INFO(box);
        CHECK(words_of(word("gone", box) + word("kept")) == Texts{"kept"});
    }
}

TEST_CASE("a word of more than 4096 bytes is left out") {
    CHECK(words_of(word(std::string(4096, '.'))) == Texts{std::string(4096, '.')});
    CHECK(words_of(word(std::string(4097, '.'))).empty());
}

TEST_CASE("pages without a size, or too large, are refused") {
    for (const char* size :
         {"", R"(width="595")", R"(width="nan" height="800")", R"(width="-5" height="800")",
          R"(width="0" height="800")", R"(width="inf" height="800")"})
        CHECK_THROWS_WITH(parse_printed_pages(page("", "x=\"\" "s + size)), Contains("page 1 has no size"));
    CHECK_THROWS_WITH(parse_printed_pages(page("", R"(width="1701" height="800")")),
                      Contains("larger than 600 mm"));
    CHECK(parse_printed_pages(page("", R"(width="1700" height="1700")")).size() == 1);
}

TEST_CASE("a document of too many pages says how many it has") {
    std::string many;
    for (int i = 0; i < 200; ++i)
        many += page(word("w"));
    CHECK(parse_printed_pages(document(many)).size() == 200);
    for (int i = 0; i < 300; ++i)
        many += page(word("w"));
    CHECK_THROWS_WITH(parse_printed_pages(document(many)),
                      Contains("has 500 pages, and a paper may have 200"));
}

TEST_CASE("a document of too many words is refused") {
    std::string many;
    for (int i = 0; i <= 400'000; ++i)
        many += "<word a>";
    CHECK_THROWS_WITH(parse_printed_pages(page(many)), Contains("more words than a paper"));
}

TEST_CASE("text that is not UTF-8 is refused") {
    for (const char* bad : {"\xff", "\xC2", "\xC0\x80", "\xED\xA0\x80"})
        CHECK_THROWS_WITH(parse_printed_pages(document(page(word(bad)))), Contains("not UTF-8"));
}

TEST_CASE("words before any page belong to none") {
    CHECK(parse_printed_pages(word("stray")).empty());
    CHECK(parse_printed_pages("").empty());
    CHECK(parse_printed_pages(document("")).empty());
}

TEST_CASE("a page that is shown turned is as wide as its words reach") {
    const std::string wide = R"(xMin="760" yMin="50" xMax="800" yMax="70")";
    const auto turned = parse_printed_pages(page(word("w", wide)));
    CHECK(turned.at(0).width == Points(841.9));
    CHECK(turned.at(0).height == Points(595.2));
    const std::string outside = R"(xMin="760" yMin="50" xMax="900" yMax="70")";
    CHECK(parse_printed_pages(page(word("w", outside))).at(0).width == Points(595.2));
}

TEST_CASE("whatever is made of a document, pages are sound or it is refused") {
    const std::string good =
        document(page(word("Find") + word("&amp;&#960;x") + word("(4)")) + page(word("7") + word("\u03b1")));
    std::mt19937 dice(2);
    const std::string pieces = "<>&;\"= \x1b\xC2\x9B\xE2pagewordxMin0123456789.-e#";
    int read = 0, refused = 0;
    for (int round = 0; round < 4000; ++round) {
        std::string bad = good;
        for (std::size_t changes = 1 + dice() % 4; changes > 0; --changes) {
            const std::size_t at = dice() % bad.size();
            if (dice() % 4 == 0)
                bad.erase(at, 1 + dice() % 30);
            else
                bad[at] = pieces[dice() % pieces.size()];
        }
        const std::string exact(bad.data(), bad.size() - dice() % 3);
        try {
            for (const PrintedPage& found : parse_printed_pages(exact)) {
                REQUIRE(std::isfinite(found.width / found.height));
                REQUIRE((found.width > Points(0) && found.height > Points(0)));
                for (const PrintedWord& each : found.words) {
                    REQUIRE(!each.text.empty());
                    REQUIRE(is_utf8(each.text));
                    REQUIRE(!has_control_character(each.text));
                    REQUIRE(each.box.left <= each.box.right);
                    REQUIRE(each.box.top <= each.box.bottom);
                }
            }
            ++read;
        } catch (const Error&) {
            ++refused;
        }
    }
    CHECK(read > 1000);
    CHECK(refused > 500);
}

TEST_CASE("what is no regular file, or too large, is refused before it is opened") {
    const test::TempFolder folder;
    const std::string pipe = folder.file("pipe");
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK_THAT(test::refusal_of([&] { check_may_be_pdf(pipe); }), Contains("this is no regular file"));
    CHECK_THAT(test::refusal_of([] { check_may_be_pdf("/dev/zero"); }), Contains("this is no regular file"));
    const std::string large = folder.file("large");
    std::ofstream{large};
    std::filesystem::resize_file(large, max_pdf_bytes);
    check_may_be_pdf(large);
    std::filesystem::resize_file(large, max_pdf_bytes + 1);
    CHECK_THAT(test::refusal_of([&] { check_may_be_pdf(large); }), Contains("larger than 256 MB"));
    check_may_be_pdf(folder.file("missing"));
}
