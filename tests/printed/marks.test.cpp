#include "printed/marks.hpp"

#include "rows.hpp"

#include "catch.hpp"

#include <string>
#include <vector>

using namespace inkturn;

namespace {

/// A page of lines, each from a left edge on, with what stands at the right one.
struct Set {
    double left;
    std::string text;
    std::string right;
};

PrintedPaper paper_of(const std::vector<Set>& lines) {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const Set& line : lines) {
        sheets.set(line.left, top, line.text);
        sheets.set_to(540, top, line.right);
        top += 18;
    }
    return recognise_paper(sheets.pages());
}

} // namespace

TEST_CASE("marks that aren't set apart from text are read after a sentence") {
    const PrintedPaper paper = paper_of({{50, "1 The path bends as told in [2] by the keeper.", ""},
                                         {50, "Find the mass of it. [3]", ""},
                                         {50, "2 Find the length. [12]", ""},
                                         {50, "3 Is it told in [5]", ""},
                                         {50, "or by nobody? [6]", ""}});
    CHECK(parts(paper) == "1 3, 2 12, 3 6");
    CHECK(paper.doubts.empty());
}

TEST_CASE("where marks are at an edge, a number after a sentence isn't marks") {
    const PrintedPaper paper = paper_of({{50, "1 So it is told by the keeper. [2]", ""},
                                         {50, "Find the mass.", "[3]"},
                                         {50, "2 Find the length.", "[12]"},
                                         {50, "3 Find the time.", "[1]"}});
    CHECK(parts(paper) == "1 3, 2 12, 3 1");
    CHECK(paper.doubts.empty());
}

TEST_CASE("numbers of centred formulae at the edge of marks are not marks") {
    const std::vector<Set> lines{{50, "1 The path obeys", ""}, {250, "y = 3x + 2", "(1)"},
                                 {80, "(a) Find it.", "(6)"},  {80, "(b) Use", ""},
                                 {250, "x = 2y + 4", "(2)"},   {80, "and find it.", "(4)"},
                                 {50, "2 Find it.", "(5)"}};
    const PrintedPaper paper = paper_of(lines);
    CHECK(parts(paper) == "1a 6, 1b 4, 2 5");
    CHECK(paper.doubts.empty());

    std::vector<Set> uncounted = lines; // no numbers of formulae count so
    uncounted[1].right = "(7)";
    CHECK_FALSE(paper_of(uncounted).doubts.empty());
}

TEST_CASE("a centred formula's number that is the only one at a part is its marks") {
    CHECK(parts(paper_of({{50, "1 Solve", ""},
                          {250, "y = 3x + 2", "(1)"},
                          {50, "2 Solve", ""},
                          {250, "x = 2y + 4", "(2)"},
                          {50, "3 Find it.", "(5)"}})) == "1 1, 2 2, 3 5");
}

TEST_CASE("one question whose parts happen to sum to another form does not make that a total") {
    CHECK(parts(paper_of({{50, "1 The path obeys", ""},
                          {250, "y = 3x + 2", "(1)"},
                          {50, "Find it.", "[6 marks]"},
                          {50, "2 Show that", ""},
                          {250, "x = 2y + 4", "(5)"},
                          {50, "for all of them.", "[5 marks]"},
                          {50, "3 Solve", ""},
                          {250, "x = y", "(8)"},
                          {50, "for them.", "[7 marks]"}})) == "1 6, 2 5, 3 7");
}

TEST_CASE("marks may come right after a label") {
    CHECK(parts(paper_of({{50, "1. (10 marks) The path is straight. Find its", ""},
                          {50, "length.", ""},
                          {50, "2. (a) (4 marks) Find it by hand, by eye and", ""},
                          {50, "in the mind.", ""},
                          {67, "(b) (6 marks) Find it.", ""}})) == "1 10, 2a 4, 2b 6");
    CHECK(parts(paper_of({{50, "1. [10] The path is straight. Find its", ""},
                          {50, "2. [6] Find it.", ""},
                          {50, "3. [4] Find it.", ""}})) == "1 10, 2 6, 3 4");
    CHECK(parts(paper_of({{50, "Question 1 10 marks", ""},
                          {50, "Find it.", ""},
                          {50, "Question 2 6 marks", ""},
                          {50, "Find 3 of them.", ""}})) == "1 10, 2 6");
}

TEST_CASE("marks at a question's number are its total where its parts have others") {
    const PrintedPaper paper = paper_of({{50, "Question 1 (3 marks)", ""},
                                         {50, "Find it.", ""},
                                         {50, "Question 2 (7 marks)", ""},
                                         {80, "a. Find it.", "2 marks"},
                                         {80, "b. Find it.", "5 marks"},
                                         {50, "Question 3 (6 marks)", ""},
                                         {80, "a. Find it.", "2 marks"},
                                         {80, "b. Find it.", "4 marks"}});
    CHECK(parts(paper) == "1 3, 2a 2, 2b 5, 3a 2, 3b 4");
    REQUIRE(paper.questions.size() == 3);
    CHECK(paper.questions[1].total == Marks(7));
    CHECK(paper.doubts.empty());
}

TEST_CASE("the maximum mark that a question states is its total") {
    const PrintedPaper paper = paper_of({{50, "1. [Maximum mark: 7]", ""},
                                         {80, "(a) Find it.", "[3]"},
                                         {80, "(b) Find it.", "[4]"},
                                         {50, "2. [Maximum mark: 6]", ""},
                                         {80, "Find it.", ""}});
    CHECK(parts(paper) == "1a 3, 1b 4, 2 6");
    CHECK(paper.questions.at(0).total == Marks(7));
    CHECK(paper.doubts.empty());
}

TEST_CASE("a question's total may have a line to write on before its number") {
    const PrintedPaper paper = paper_of({{50, "1", ""},
                                         {80, "(a) Find it.", "[3]"},
                                         {80, "(b) Find it.", "[4]"},
                                         {300, "Question 1 total: ____ / 7", ""},
                                         {50, "2 Find it.", "[6]"}});
    CHECK(parts(paper) == "1a 3, 1b 4, 2 6");
    CHECK(paper.questions.at(0).total == Marks(7));
}

TEST_CASE("marks broken over two lines are read") {
    CHECK(parts(paper_of({{50, "1 Find the length of all the paths. (4", ""},
                          {70, "marks)", ""},
                          {50, "2 Find it. (3 marks)", ""},
                          {50, "3 Find it. (2 marks)", ""}})) == "1 4, 2 3, 3 2");
}

TEST_CASE("short words for marks are read in brackets") {
    CHECK(parts(paper_of({{50, "1 Find it.", "(3mks)"},
                          {50, "2 Find it.", "(1 mk)"},
                          {50, "3 Find it.", "(4 marks)"}})) == "1 3, 2 1, 3 4");
    CHECK(parts(paper_of({{50, "1 Find it.", "(3 points)"}, {50, "2 Find it.", "(2 pts)"}})) == "1 3, 2 2");
}

TEST_CASE("numbers in a column headed by the word are no marks where others are") {
    std::vector<Set> bracketed{{50, "Pupil", "Marks"}, {50, "Ann", "12"}, {50, "Bo", "15"}, {50, "Cy", "9"}};
    for (const int number : {1, 2, 3})
        bracketed.push_back({50, std::to_string(number) + " Find it.", "[" + std::to_string(number) + "]"});
    CHECK(parts(paper_of(bracketed)) == "1 1, 2 2, 3 3");
}

TEST_CASE("the last total is the paper's where the cover states it") {
    const PrintedPaper paper = paper_of({{50, "Total marks: 9", ""},
                                         {50, "1 Find it.", "(4)"},
                                         {50, "2 Find it.", "(5)"},
                                         {50, "", "TOTAL: 9"}});
    CHECK(parts(paper) == "1 4, 2 5");
    CHECK(paper.total == Marks(9));
    CHECK(paper.doubts.empty());
}

TEST_CASE("what comes after the end of the questions or an appendix belongs to none") {
    std::vector<Set> lines{{50, "1 Find it.", "(4)"},
                           {50, "2 Find it.", "(5)"},
                           {50, "END OF QUESTIONS", ""},
                           {50, "A crate holds", "(3)"}};
    CHECK(parts(paper_of(lines)) == "1 4, 2 5");
    CHECK(paper_of(lines).doubts.empty());

    Sheets sheets;
    sheets.turn();
    sheets.set(50, 100, "1 Find it.");
    sheets.set_to(540, 100, "(4)");
    sheets.set(50, 200, "2 Find it.");
    sheets.set_to(540, 200, "(5)");
    sheets.turn();
    sheets.set(50, 300, "Appendix");
    sheets.set(50, 320, "A crate holds");
    sheets.set_to(540, 320, "(3)");
    CHECK(parts(recognise_paper(sheets.pages())) == "1 4, 2 5");
    sheets.set(80, 340, "(b) Find it."); // then the question goes on
    sheets.set_to(540, 340, "(6)");
    CHECK_FALSE(recognise_paper(sheets.pages()).doubts.empty());
}

TEST_CASE("questions that go on after a page headed like an appendix are read") {
    Sheets sheets;
    for (const int number : {1, 2, 3}) {
        if (number != 2)
            sheets.turn();
        if (number == 3)
            sheets.set(50, 60, "Formulae");
        sheets.set(50, 100.0 * number, std::to_string(number) + " Find it.");
        sheets.set_to(540, 100.0 * number, "(4)");
    }
    CHECK(parts(recognise_paper(sheets.pages())) == "1 4, 2 4, 3 4");
}

TEST_CASE("marks are read in each form of the table") {
    for (const std::string form : {"{#}", "[# marks]", "[#m]", "(# p.)", "# p.", "# P.", "/#", "____/#",
                                   "[Marks: #]", "(Marks: #)", "(out of #)", "[#] AO2", "Marks: #"}) {
        std::vector<Set> lines;
        std::string expected;
        for (int number = 1; number <= 6; ++number) {
            std::string marks = form;
            marks.replace(marks.find('#'), 1, std::to_string(number + 2));
            lines.push_back({50, std::to_string(number) + ". Find the length of the path.", marks});
            expected += (number > 1 ? ", " : "") + std::to_string(number) + " " + std::to_string(number + 2);
        }
        CAPTURE(form);
        const PrintedPaper paper = paper_of(lines);
        CHECK(parts(paper) == expected);
        CHECK(paper.doubts.empty());
    }
}

TEST_CASE("marks may be a sum, touch the text, or stand before or above the label") {
    CHECK(parts(paper_of({{50, "1. Find it.", "[3+2]"}, {50, "2. Find it.", "[4]"}})) == "1 5, 2 4");
    CHECK(parts(paper_of({{50, "1. Find it.[3]", ""}, {50, "2. Find the other one.[4]", ""}})) == "1 3, 2 4");
    CHECK(parts(paper_of({{50, "[3] 1. Find it.", ""}, {50, "[4] 2. Find the other one.", ""}})) ==
          "1 3, 2 4");
    CHECK(parts(paper_of(
              {{50, "[3]", ""}, {50, "1. Find it.", ""}, {50, "[4]", ""}, {50, "2. Find it.", ""}})) ==
          "1 3, 2 4");
}

TEST_CASE("bare numbers at the right edge are marks, in doubt unless a total confirms them") {
    std::vector<Set> lines;
    for (int number = 1; number <= 6; ++number)
        lines.push_back({50, std::to_string(number) + ". Find the length of the path", "5"});
    PrintedPaper paper = paper_of(lines);
    CHECK(parts(paper) == "1 5, 2 5, 3 5, 4 5, 5 5, 6 5");
    CHECK(paper.doubts.size() == 1);
    lines.insert(lines.begin(), {50, "Total marks: 30", ""});
    CHECK(paper_of(lines).doubts.empty());
}

TEST_CASE("marks printed more than once at a part add up where the question's total says so") {
    std::vector<Set> lines{{50, "1. Find it.", "(3)"},
                           {50, "Find the other one too.", "(2)"},
                           {50, "", "[Total: 5]"},
                           {50, "2. Find it.", "(4)"}};
    const PrintedPaper paper = paper_of(lines);
    CHECK(parts(paper) == "1 5, 2 4");
    CHECK(paper.doubts.empty());
    lines[2].right = "[Total: 6]";
    CHECK_FALSE(paper_of(lines).doubts.empty());
}

TEST_CASE("letters of which only the last has marks are a list") {
    const std::vector<Set> lines{{50, "1. Which of them is true?", ""},
                                 {80, "(a) All.", ""},
                                 {80, "(b) None.", ""},
                                 {80, "(c) Some.", ""},
                                 {80, "Say why.", "[3]"},
                                 {50, "2. Find it.", "[4]"}};
    CHECK(parts(paper_of(lines)) == "1 3, 2 4");
}

TEST_CASE("a letter without marks in a question that has its own is of a list") {
    CHECK(parts(paper_of({{50, "1. Which of them is true?", "[1]"},
                          {80, "(a) 12     (b) 24     (c) 48", ""},
                          {50, "2. Find it.", "[4]"}})) == "1 1, 2 4");
}

TEST_CASE("each question has the marks that the cover gives to all") {
    CHECK(parts(paper_of({{50, "Each question carries 2 marks.", ""},
                          {50, "1. Find it.", ""},
                          {50, "2. Find it.", ""},
                          {50, "3. Find it.", ""}})) == "1 2, 2 2, 3 2");
}

TEST_CASE("numbers of every fifth line are no labels") {
    std::vector<Set> lines;
    for (int line = 1; line <= 20; ++line) {
        const bool begins = line % 4 == 1;
        lines.push_back({50, begins ? std::to_string(line / 4 + 1) + ". Find it." : "The path is straight.",
                         begins ? "[3]" : ""});
    }
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (std::size_t i = 0; i < lines.size(); ++i, top += 18) {
        if (i % 5 == 4)
            sheets.set(20, top, std::to_string(i + 1));
        sheets.set(50, top, lines[i].text);
        sheets.set_to(540, top, lines[i].right);
    }
    const PrintedPaper paper = recognise_paper(sheets.pages());
    CHECK(parts(paper) == "1 3, 2 3, 3 3, 4 3, 5 3");
    CHECK(paper.doubts.empty());
}

TEST_CASE("marks far left of the text are its part's, with a label after them or none") {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    const auto ask = [&](const std::string& marks, const std::string& label, const std::string& text) {
        sheets.set(40, top, marks);
        sheets.set(120, top, label);
        sheets.set(150, top, text);
        top += 18;
    };
    ask("3 marks", "1.", "Find the length of the path.");
    ask("", "2.", "Choose one of these and say why:");
    ask("", "", "the barrel of 12 boats");
    ask("2 marks", "", "the sluice of 16 boats");
    ask("5 marks", "3.", "Show that it is even.");
    CHECK(parts(recognise_paper(sheets.pages())) == "1 3, 2 2, 3 5");
}

TEST_CASE("bare numbers left of the text are marks where most of them begin") {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    const auto set = [&](double left, const std::string& first, const std::string& rest) {
        sheets.set(left, top, first);
        sheets.set(left + 40, top, rest);
        top += 18;
    };
    sheets.set(120, 40, "There are 14 marks in all.");
    set(120, "1", "The table shows two paths.");
    set(160, "29", "14");
    set(160, "32", "20");
    sheets.set(40, top, "3");
    set(120, "a)", "Find the longer one.");
    sheets.set(40, top, "5");
    set(120, "b)", "Show that it is even.");
    sheets.set(40, top, "6");
    set(120, "2", "Find the length of the path.");
    CHECK(parts(recognise_paper(sheets.pages())) == "1a 3, 1b 5, 2 6");
}

TEST_CASE("marks after a line of dots to write on are at their edge, with a unit before them or not") {
    const PrintedPaper paper = paper_of({{50, "1 (a) Find the length.", ""},
                                         {300, "x = ........", "cm (4)"},
                                         {63, "(b) Find the mass.", ""},
                                         {300, "x =", "......... g (2)"},
                                         {50, "2 Find the time.", ""},
                                         {300, "x =", "....... min (3)"}});
    CHECK(parts(paper) == "1a 4, 1b 2, 2 3");
    CHECK(paper.doubts.empty());
    CHECK(parts(paper_of({{50, "1 Find the length.", ""},
                          {300, "x =", "............ (4)"},
                          {50, "2 Find the mass.", ""},
                          {300, "x =", "......... cm (3)"}})) == "1 4, 2 3");
}

TEST_CASE("a paper in a language whose words are known is read") {
    const PrintedPaper paper = paper_of({{50, "Gesamt: 8 Punkte", ""},
                                         {50, "Aufgabe 1", "(7 Punkte)"},
                                         {50, "a) Wie lang ist der Kahn?", "(3 Punkte)"},
                                         {50, "b) Wie schwer ist er?", "(4 Punkte)"},
                                         {50, "Aufgabe 2", "(1 Punkt)"},
                                         {50, "Was tr\xC3\xA4gt er?", ""}});
    CHECK(parts(paper) == "1a 3, 1b 4, 2 1");
    CHECK(paper.doubts.empty());
}
