#include "inkturn/printed/paper.hpp"

#include "pages.hpp"

#include "catch.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace inkturn;

namespace {

/// Text of a question at a height of the page: 11 points high.
void ask(Sheets& sheets, double top, const std::string& number, const std::string& marks) {
    sheets.set(50, top, number);
    sheets.set(80, top, "Find the length of the path");
    sheets.set_to(540, top, marks);
}

std::vector<PageStrip> strips(const Sheets& sheets, std::size_t question) {
    return recognise_paper(sheets.pages()).questions.at(question).strips;
}

} // namespace

TEST_CASE("a question's strip ends a little above the next question's number") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 300, "2", "(3)");
    const auto first = strips(sheets, 0);
    const auto second = strips(sheets, 1);
    REQUIRE(first.size() == 1);
    CHECK(first[0].page == 0);
    CHECK(first[0].top == Points(97));
    CHECK(first[0].bottom == Points(297));
    CHECK(first[0].left == Points(0));
    CHECK(first[0].right == Points(595));
    REQUIRE(second.size() == 1);
    CHECK(second[0].top == Points(297));
    CHECK(second[0].bottom == Points(842)); // a figure without words may follow
}

TEST_CASE("lines set close together are parted between them") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 112, "2", "(3)");
    ask(sheets, 123, "3", "(3)");
    CHECK(strips(sheets, 0)[0].bottom == Points(111.5));
    CHECK(strips(sheets, 1)[0].top == Points(111.5));
    CHECK(strips(sheets, 1)[0].bottom == Points(123));
}

TEST_CASE("what rises above a question's first line belongs to it") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 200, "2", "(3)");
    sheets.set(240, 194, "x + 1"); // the upper half of a fraction
    CHECK(strips(sheets, 0)[0].bottom == Points(191));
    CHECK(strips(sheets, 1)[0].top == Points(191));
}

TEST_CASE("running heads and feet are left out of strips") {
    Sheets sheets;
    for (int page = 0; page < 4; ++page) {
        sheets.turn();
        sheets.set(50, 30, "Invented paper P1");
        sheets.set(290, 800, std::to_string(page + 1));
        sheets.set_to(540, 815, "Turn over");
        if (page == 1)
            sheets.set(80, 400, "The rest of the path is longer");
        else
            ask(sheets, 100, std::to_string(page == 0 ? 1 : page), "(3)");
    }
    const auto first = strips(sheets, 0);
    REQUIRE(first.size() == 2);
    CHECK(first[0].bottom == Points(800));
    CHECK(first[1].page == 1);
    CHECK(first[1].top == Points(41));
    CHECK(first[1].bottom == Points(800));
    CHECK(recognise_paper(sheets.pages()).doubts.empty());
}

TEST_CASE("a sentence that differs by a number inside it is not a running head") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    for (const std::string length : {"16", "52", "70"}) {
        sheets.turn();
        sheets.set(80, 60, "The rope between them is " + length + " metres long and hangs low");
        ask(sheets, 200, std::to_string(sheets.pages().size()), "(3)");
    }
    const auto first = strips(sheets, 0);
    REQUIRE(first.size() == 2);
    CHECK(first[1].page == 1);
    CHECK(first[1].top <= Points(60));
}

TEST_CASE("lines to write on are left out at the end of a question, and pages of them altogether") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    for (double top = 120; top < 760; top += 20)
        sheets.set(50, top, std::string(90, '.'));
    sheets.turn();
    for (double top = 60; top < 760; top += 20)
        sheets.set(50, top, ". . . . . . . . . . . . . . . .");
    sheets.turn();
    for (double top = 60; top < 160; top += 20)
        sheets.set(50, top, "____________________");
    ask(sheets, 200, "2", "(3)");
    const auto first = strips(sheets, 0);
    REQUIRE(first.size() == 1);
    CHECK(first[0].bottom == Points(117));
    CHECK(strips(sheets, 1)[0].page == 2);
}

TEST_CASE("lines to write on before more of a question's text are left out on a new page") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "");
    sheets.turn();
    sheets.set(50, 60, std::string(90, '.'));
    sheets.set(80, 90, "Find its width");
    sheets.set_to(540, 90, "(4)");
    ask(sheets, 200, "2", "(3)");
    const auto first = strips(sheets, 0);
    REQUIRE(first.size() == 2);
    CHECK(first[1].top == Points(71));
    CHECK(first[1].bottom == Points(197));
}

TEST_CASE("a section's heading and the paper's total belong to no question") {
    Sheets sheets;
    sheets.turn();
    sheets.set(50, 80, "Section A");
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 140, "2", "(2)");
    sheets.set(50, 200, "Section B");
    sheets.set(50, 220, "Answer one question from this section");
    ask(sheets, 300, "3", "(3)");
    sheets.set_to(540, 400, "TOTAL FOR PAPER: 7 MARKS");
    CHECK(strips(sheets, 1)[0].bottom == Points(197));
    CHECK(strips(sheets, 2)[0].top == Points(297));
    CHECK(strips(sheets, 2)[0].bottom == Points(397));
    CHECK(recognise_paper(sheets.pages()).total == Marks(7));
}

TEST_CASE("in two columns a strip is as wide as its column and goes on in the next one") {
    Sheets sheets;
    sheets.turn();
    sheets.type = 8;
    const auto fill = [&](double left, double from, double to) {
        for (double top = from; top < to; top += 12)
            sheets.set(left, top, "the old wall of the harbour by the narrow bridge");
    };
    sheets.set(45, 60, "1");
    fill(65, 60, 300);
    sheets.set_to(285, 300, "(2)");
    sheets.set(45, 320, "2");
    fill(65, 320, 780);
    fill(330, 60, 200);
    sheets.set_to(550, 204, "(5)");
    sheets.set(310, 240, "3");
    fill(330, 240, 400);
    sheets.set_to(550, 408, "(4)");
    const auto second = strips(sheets, 1);
    REQUIRE(second.size() == 2);
    CHECK(second[0].top == Points(317));
    CHECK(second[0].bottom == Points(842));
    CHECK(second[0].right > Points(285));
    CHECK(second[0].right < Points(310));
    CHECK(second[1].left == second[0].right);
    CHECK(abs(second[1].left - second[0].left - Points(265)) < Points(0.01)); // as far as the columns are
    CHECK(second[1].right == Points(595));
    CHECK(second[1].bottom == Points(237));
    CHECK(recognise_paper(sheets.pages()).doubts.empty());
}

TEST_CASE("a column of a line or two is recognised by the gutter of the page before") {
    Sheets sheets;
    sheets.type = 8;
    const auto fill = [&](double left, double from, double to) {
        for (double top = from; top < to; top += 12)
            sheets.set(left, top, "the old wall of the harbour by the narrow bridge");
    };
    sheets.turn();
    sheets.set(45, 60, "1");
    fill(65, 60, 780);
    fill(330, 60, 200);
    sheets.set_to(550, 204, "(5)");
    sheets.turn();
    sheets.set(45, 60, "2");
    fill(65, 60, 400);
    sheets.set_to(285, 400, "(4)");
    sheets.set(45, 420, "3");
    fill(65, 420, 780);
    fill(330, 60, 70);
    sheets.set_to(550, 72, "(6)");
    for (int page = 0; page < 2; ++page) {
        sheets.turn();
        fill(65, 60, 300);
    }
    const PrintedPaper paper = recognise_paper(sheets.pages());
    REQUIRE(paper.parts.size() == 3);
    CHECK(paper.parts[1].marks == Marks(4));
    CHECK(paper.parts[2].marks == Marks(6));
    CHECK(paper.doubts.empty());
}

TEST_CASE("a page of formulae after the last question is not part of it") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 300, "2", "(3)");
    sheets.turn();
    sheets.set(50, 60, "Rules that you may use");
    sheets.set(50, 80, "The area of a wheel is that of its rim (3)");
    const PrintedPaper paper = recognise_paper(sheets.pages());
    REQUIRE(paper.questions.size() == 2);
    CHECK(paper.questions[1].strips.size() == 1);
    CHECK(paper.parts[1].marks == Marks(3));
}

TEST_CASE("a line across two columns has columns above it and below it") {
    Sheets sheets;
    sheets.type = 8;
    sheets.turn();
    const auto fill = [&](double left, double from, double to) {
        for (double top = from; top < to; top += 12)
            sheets.set(left, top, "the old wall of the harbour by the narrow bridge");
    };
    sheets.set(45, 60, "1");
    fill(65, 60, 180);
    sheets.set_to(285, 180, "(2)");
    sheets.set(310, 60, "2");
    fill(330, 60, 180);
    sheets.set_to(550, 180, "(5)");
    sheets.set(45, 220, "3");
    sheets.set(
        65, 220,
        "the old wall of the harbour by the narrow bridge and all that is on either side of it now (see 4)");
    sheets.set(65, 240, "(a)");
    fill(85, 240, 300);
    sheets.set_to(285, 300, "(4)");
    sheets.set(330, 240, "(b)");
    fill(350, 240, 300);
    sheets.set_to(550, 300, "(6)");
    const PrintedPaper paper = recognise_paper(sheets.pages());
    REQUIRE(paper.parts.size() == 4);
    CHECK(paper.parts[2].label == "3a");
    CHECK(paper.parts[2].marks == Marks(4));
    CHECK(paper.parts[3].marks == Marks(6));
    CHECK(strips(sheets, 2).size() == 3);
    CHECK(paper.doubts.empty());
}

TEST_CASE("the last question goes on to the next page where its marks stand at its number") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 700, "2", "(4)");
    sheets.set(80, 780, "The keeper of the turret counts the lamps");
    sheets.turn();
    sheets.set(80, 60, "and writes their number down.");
    CHECK(strips(sheets, 1).size() == 2);
}

TEST_CASE("answers to choose from that go on on the next page are in the last question's strips") {
    Sheets sheets;
    sheets.turn();
    ask(sheets, 100, "1", "(2)");
    ask(sheets, 300, "2", "(1)");
    sheets.set(80, 780, "A) the barrel");
    sheets.set(80, 796, "B) the sluice");
    sheets.turn();
    sheets.set(80, 60, "C) the turret");
    CHECK(strips(sheets, 1).size() == 2);
    CHECK(recognise_paper(sheets.pages()).parts.size() == 2);
}
