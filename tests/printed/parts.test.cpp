#include "printed/parts.hpp"

#include "rows.hpp"

#include "catch.hpp"

#include <string>
#include <vector>

using namespace inkturn;

namespace {

/// Two questions whose letters are printed in one style.
std::vector<Row> lettered(const std::string& a, const std::string& b, const std::string& c) {
    return {{"1", "The path is straight.", ""},
            {a, "Find it.", "[1]"},
            {b, "Find it.", "[2]"},
            {c, "Find it.", "[3]"},
            {"2", "Find it.", "[4]"}};
}

} // namespace

TEST_CASE("letters are labels in every style that papers print them in") {
    const std::string expected = "1a 1, 1b 2, 1c 3, 2 4";
    for (const std::string style : {"(#)", "#)", "#.", "#"}) {
        const auto label = [&](char letter) {
            std::string text = style;
            return text.replace(text.find('#'), 1, 1, letter);
        };
        CAPTURE(style);
        CHECK(parts(lettered(label('a'), label('b'), label('c'))) == expected);
        CHECK(doubts(lettered(label('a'), label('b'), label('c'))).empty());
    }
    CHECK(parts(lettered("(A)", "(B)", "(C)")) == expected);
    CHECK(parts(lettered("(1)", "(2)", "(3)")) == expected);
}

TEST_CASE("letters in an unusual style have others in another one under them") {
    CHECK(parts({{"1", "", ""},
                 {"(a)", "i. Find it.", "[1]"},
                 {"", "ii. Find it.", "[2]"},
                 {"(b)", "Find it.", "[3]"},
                 {"2", "Find it.", "[4]"}}) == "1ai 1, 1aii 2, 1b 3, 2 4");
    CHECK(parts({{"1", "", ""},
                 {"(A)", "(1) Find it.", "[1]"},
                 {"", "(2) Find it.", "[2]"},
                 {"(B)", "Find it.", "[3]"},
                 {"2", "Find it.", "[4]"}}) == "1ai 1, 1aii 2, 1b 3, 2 4");
}

TEST_CASE("a letter with another label beside it is one, though no letter follows") {
    CHECK(parts({{"1", "the path is straight.", ""},
                 {"(a)", "(i) find it.", "[1]"},
                 {"", "(ii) find it.", "[2]"},
                 {"2", "Find it.", "[4]"}}) == "1ai 1, 1aii 2, 2 4");
}

TEST_CASE("a heading that goes on with a question takes no label from the line below") {
    CHECK(parts({{"1(a)", "Find it.", "[1]"},
                 {"Question 1 continued", "", ""},
                 {"1(b)", "Find it.", "[2]"},
                 {"2", "Find it.", "[4]"}}) == "1a 1, 1b 2, 2 4");
}

TEST_CASE("a label broken in a narrow column is read as one") {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const std::string label : {"1 a", "1 (b)", "2", "3 a", "3 b"}) {
        sheets.set(50, top, label.substr(0, 1));
        sheets.set(110, top, "Find the length of the path,");
        sheets.set_to(540, top, "[3]");
        sheets.set(50, top + 14, label.size() > 1 ? label.substr(2) : "");
        if (label.back() != 'a')
            sheets.set(110, top + 14, "and the time that it takes.");
        top += 36;
    }
    CHECK(parts(recognise_paper(sheets.pages())) == "1a 3, 1b 3, 2 3, 3a 3, 3b 3");
}

TEST_CASE("narrow letters in a face with much room above them are not taken for turned words") {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const std::string text : {"1 Find it.", "i. Find it.", "ii. Find it.", "2 Find it."}) {
        sheets.set(text.front() == 'i' ? 80 : 50, top, text);
        if (text != "1 Find it.")
            sheets.set_to(540, top, "[3]");
        top += 30;
    }
    for (PrintedWord& word : sheets.words()) {
        word.box.right = word.text == "ii." ? word.box.left + Points(8) : word.box.right;
        word.box.bottom += Points(7);
    }
    CHECK(parts(recognise_paper(sheets.pages())) == "1i 3, 1ii 3, 2 3");
}

TEST_CASE("numbers of three steps are a question, a part and a part of that") {
    CHECK(parts({{"1", "A path is straight.", ""},
                 {"1.1", "It bends.", ""},
                 {"1.1.1", "Find it.", "(1)"},
                 {"1.1.2", "Find it.", "(2)"},
                 {"1.2", "Find it.", "(3)"},
                 {"2", "Find it.", "(4)"}}) == "1ai 1, 1aii 2, 1b 3, 2 4");
}

TEST_CASE("lists in the text are not parts if there are no marks between their letters") {
    for (const std::vector<std::string>& list : std::vector<std::vector<std::string>>{
             {"a.", "b."}, {"a", "b"}, {"(A)", "(B)"}, {"(1)", "(2)"}, {"i.", "ii."}}) {
        CAPTURE(list[0]);
        const std::vector<Row> rows{{"1", "Choose one.", "[1]"},
                                    {list[0], "copper", ""},
                                    {list[1], "tin", ""},
                                    {"2", "Find it.", "[4]"}};
        CHECK(parts(rows) == "1 1, 2 4");
        CHECK(doubts(rows).empty());
    }
}

TEST_CASE("letters are labels in all questions where they are in one") {
    CHECK(doubts({{"1", "", ""},
                  {"a.", "Find it.", "[1]"},
                  {"b.", "Find it.", "[2]"},
                  {"2", "", ""},
                  {"a.", "Find it.", ""},
                  {"b.", "Find it.", "[2]"}}) == Messages{"part 2a has no marks"});
}

TEST_CASE("letters without marks above a question's total are a doubt, unless it is less than they are") {
    const auto with_total = [](const std::string& total) {
        return std::vector<Row>{{"1", "", ""},
                                {"a", "Find it.", ""},
                                {"b", "Find it.", ""},
                                {"c", "Find it.", ""},
                                {"", "", "(Total for Question 1 is " + total + ")"},
                                {"2", "Find it.", "(4)"}};
    };
    CHECK(doubts(with_total("9 marks")) ==
          Messages{"letters a, b are printed in question 1 without marks: its total is taken as one part"});
    CHECK(doubts(with_total("1 mark")).empty());
}

TEST_CASE("words beside a notice of the other column stay") {
    Sheets sheets = page_of({{"1", "Find it.", "(2)"}, {"2", "", ""}, {"(a)", "Find it.", "(4)"}});
    sheets.set(80, 130, "(b) Find how many are left by then");
    sheets.set(400, 130, "End of section");
    sheets.set_to(540, 145, "(3)");
    CHECK(parts(recognise_paper(sheets.pages())) == "1 2, 2a 4, 2b 3");
}

TEST_CASE("numbers with marks before the first question are a doubt") {
    Sheets sheets = page_of({{"1", "Find it.", "(2)"}, {"2", "Find it.", "(3)"}});
    std::vector<PrintedPage> pages = sheets.pages();
    std::vector<Row> longer;
    for (int number = 1; number <= 6; ++number)
        longer.push_back({std::to_string(number) + ".", "Find it.", "(4)"});
    pages.push_back(page_of(longer).pages().front());
    const PrintedPaper paper = recognise_paper(pages);
    CHECK(parts(paper) == "1 4, 2 4, 3 4, 4 4, 5 4, 6 4");
    REQUIRE(paper.doubts.size() == 1);
    CHECK(paper.doubts.front().message ==
          "numbers 1 to 2 are printed with marks before question 1: they were not taken as questions");
    CHECK(paper.doubts.front().page == 0U);
}

TEST_CASE("a total that names its question speaks for that number") {
    std::vector<Row> rows{{"1", "The table shows what was landed.", ""}};
    for (int row = 1; row <= 5; ++row)
        rows.push_back({std::to_string(row), "crates", "(" + std::to_string(row) + ")"});
    rows.push_back({"", "(a) Find it.", "(4)"});
    rows.push_back({"", "(b) Find it.", "(5)"});
    rows.push_back({"", "", "(Total for Question 1 is 9 marks)"});
    for (int number = 2; number <= 3; ++number) {
        rows.push_back({std::to_string(number), "Find it.", "(6)"});
        rows.push_back({"", "", "(Total for Question " + std::to_string(number) + " is 6 marks)"});
    }
    const PrintedPaper paper = recognise_paper(page_of(rows).pages());
    REQUIRE(paper.questions.size() == 3);
    CHECK(paper.questions[0].total == Marks(9));
    CHECK(paper.questions[1].total == Marks(6));
}

TEST_CASE("a choice stands before the first question that it names, and in no picture") {
    const PrintedPaper paper = recognise_paper(page_of({{"1", "Find it.", "(5)"},
                                                        {"", "Answer either Question 2 or Question 3.", ""},
                                                        {"2", "Find it.", "(4)"},
                                                        {"3", "Find it.", "(4)"}})
                                                   .pages());
    REQUIRE(paper.choices.size() == 1);
    CHECK(paper.choices.front().questions == std::vector<std::string>{"2", "3"});
    CHECK(paper.questions.at(0).strips.at(0).bottom < Points(80));
}

TEST_CASE("a wrapped line that begins with a number does not part a question from its heading") {
    const PrintedPaper paper = recognise_paper(page_of({{"Question 1", "", ""},
                                                        {"2 boats", "wait at the sluice.", ""},
                                                        {"1.1", "Find it.", "(5)"},
                                                        {"1.2", "Find it.", "(4)"},
                                                        {"Question 2", "", ""},
                                                        {"2.1", "Find it.", "(4)"},
                                                        {"2.2", "Find it.", "(3)"}})
                                                   .pages());
    CHECK(parts(paper) == "1a 5, 1b 4, 2a 4, 2b 3");
    CHECK(paper.questions.at(0).strips.at(0).top <= Points(60));
}
