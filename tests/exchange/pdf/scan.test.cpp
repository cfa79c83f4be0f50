#include "exchange/pdf/scan.hpp"

#include "catch.hpp"

#include <random>
#include <string>

using namespace inkturn;

namespace {

const std::string head =
    "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\t"
    "text\n";

std::string row(const std::string& level, const std::string& box, const std::string& text,
                const std::string& trust = "96.1") {
    return level + "\t1\t1\t1\t1\t1\t" + box + "\t" + trust + "\t" + text + "\n";
}

} // namespace

TEST_CASE("a scan's words are as wide as they are and as high as their line") {
    const std::string tsv = head + row("4", "100\t200\t500\t40", "") + row("5", "100\t210\t30\t30", "1.") +
                            row("5", "150\t200\t90\t40", "Find");
    const auto words = parse_tesseract_words(tsv, PixelsPerPoint(2));
    REQUIRE(words.size() == 2);
    CHECK(words[0].text == "1.");
    CHECK(words[0].box.left == Points(50));
    CHECK(words[0].box.right == Points(65));
    CHECK(words[0].box.top == Points(100));
    CHECK(words[0].box.bottom == Points(120));
    CHECK(words[1].text == "Find");
}

TEST_CASE("strokes, words without a line and what can't be read are left out") {
    const std::string line = row("4", "0\t0\t9\t9", "");
    for (const std::string& tsv :
         {std::string(), head, row("5", "0\t0\t9\t9", "word"), line + row("5", "0\t0\t9\t9", "|"),
          line + row("5", "0\t0\t9\t9", "__"), line + row("5", "0\t0\t-9\t9", "word"),
          line + row("5", "0\t0\t999999\t9", "word"), line + row("5", "0\t0\t9\t9", "\xFF"),
          line + row("5", "0\t0\t9\t9", ""), line + std::string("5\t1\n")})
        CHECK(parse_tesseract_words(tsv, PixelsPerPoint(1)).empty());
}

TEST_CASE("words that tesseract hardly trusts are left out") {
    const auto count = [](const std::string& trust) {
        const std::string line = row("4", "0\t0\t9\t9", "");
        return parse_tesseract_words(line + row("5", "0\t0\t9\t9", "word", trust), PixelsPerPoint(1)).size();
    };
    CHECK(count("70.0") == 1);
    CHECK(count("100") == 1);
    CHECK(count("69.99") == 0);
    CHECK(count("-1") == 0);
    CHECK(count("") == 0);
}

TEST_CASE("whatever is made of what tesseract writes, no word is upside down") {
    std::mt19937 dice(6);
    const std::string good = head + row("4", "10\t20\t50\t9", "") + row("5", "10\t20\t30\t9", "word");
    for (int round = 0; round < 2000; ++round) {
        std::string bad = good;
        for (int i = 0; i < 3; ++i)
            bad[dice() % bad.size()] = "\t\n0159-x"[dice() % 8];
        for (const PrintedWord& word : parse_tesseract_words(bad, PixelsPerPoint(1)))
            REQUIRE((word.box.left <= word.box.right && word.box.top <= word.box.bottom));
    }
}
