#include "inkturn/printed/corrected_paper.hpp"
#include "inkturn/printed/paper.hpp"

#include "catch.hpp"
#include "printed/rows.hpp"

#include <string>
#include <vector>

using namespace inkturn;

namespace {

std::string words_of(const PrintedPaper& paper, const std::string& label) {
    for (const PrintedPart& part : paper.parts)
        if (part.label == label)
            return part.words;
    return "no part " + label;
}

const std::vector<Row> rows{
    {"1", "A path is straight.", ""},
    {"(a)", "Find its length.", "(3)"},
    {"(b)", "A second path crosses it.", ""},
    {"", ". . . . . . . . . . . .", ""},
    {"", "Find where.", "(2)"},
    {"2", "Show that f(3) = 4.", "(4)"},
    {"3", "Draw the graph.", "(1)"},
};

} // namespace

TEST_CASE("a part has the words printed after its label, the first of a question those before it too") {
    const PrintedPaper paper = recognise_paper(page_of(rows).pages());
    CHECK(words_of(paper, "1a") == "A path is straight. (a) Find its length. (3)");
    CHECK(words_of(paper, "1b") == "A second path crosses it. Find where. (2)");
    CHECK(words_of(paper, "2") == "Show that f(3) = 4. (4)");
    CHECK(words_of(paper, "3") == "Draw the graph. (1)");
}

TEST_CASE("a part has no more words than there is room for, and none is cut") {
    std::string many = "Find";
    for (int i = 0; i < 8; ++i)
        many += " elongated";
    const PrintedPaper paper = recognise_paper(
        page_of(
            {{"1", many, ""}, {"", many, ""}, {"", many, ""}, {"", many, "(3)"}, {"2", "Show it.", "(2)"}})
            .pages());
    const std::string words = words_of(paper, "1");
    CHECK(words.size() <= PrintedPart::max_words);
    CHECK(words.size() > PrintedPart::max_words - 11);
    CHECK(words.substr(words.rfind(' ') + 1) == "elongated");
}

TEST_CASE("parts corrected by hand keep the words read under their label") {
    const PrintedPaper paper = recognise_paper(page_of(rows).pages());
    const PrintedPaper by_hand =
        corrected(paper, {{"1a", Marks(3), "", ""}, {"2", Marks(9), "", ""}, {"4", Marks(1), "", ""}});
    CHECK(words_of(by_hand, "2") == "Show that f(3) = 4. (4)");
    CHECK(words_of(by_hand, "4").empty());
}
