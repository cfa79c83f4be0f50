#include "inkturn/printed/paper.hpp"

#include "rows.hpp"

#include "catch.hpp"

#include <algorithm>
#include <string>
#include <vector>

using namespace inkturn;

TEST_CASE("questions, parts and marks are read from where they stand") {
    const std::vector<Row> rows{
        {"", "Time: 30 minutes", ""},
        {"", "The total mark for this paper is 17", ""},
        {"1", "The path is straight.", ""},
        {"(a)", "Find its length.", "(3)"},
        {"(b)", "Hence, using (a), find the rest of", ""},
        {"", "(a) and the sum of both.", "(2)"},
        {"", "", "(Total for Question 1 is 5 marks)"},
        {"2", "Show that f(3) = 4.", "(4)"},
        {"", "", "(Total for Question 2 is 4 marks)"},
        {"3", "", ""},
        {"(a)", "(i) Draw the graph.", "(1)"},
        {"", "(ii) State its edge.", "(2)"},
        {"(b)", "Explain.", "(5)"},
        {"", "", "(Total for Question 3 is 8 marks)"},
    };
    const PrintedPaper paper = recognise_paper(page_of(rows).pages());
    CHECK(parts(paper) == "1a 3, 1b 2, 2 4, 3ai 1, 3aii 2, 3b 5");
    CHECK(paper.duration == Seconds(1800));
    CHECK(paper.total == Marks(17));
    REQUIRE(paper.questions.size() == 3);
    CHECK(paper.questions[0].label == "1");
    CHECK(paper.questions[0].parts == std::vector<std::size_t>{0, 1});
    CHECK(paper.questions[0].total == Marks(5));
    CHECK(paper.questions[2].parts == std::vector<std::size_t>{3, 4, 5});
    CHECK(paper.doubts.empty());
}

TEST_CASE("marks are read in every bracket that papers print them in") {
    for (const std::string form : {"(#)", "[#]", "(# marks)", "[# marks]", "# marks"}) {
        const auto marks = [&](int count) {
            std::string text = form;
            text.replace(text.find('#'), 1, std::to_string(count));
            return text;
        };
        CAPTURE(form);
        CHECK(parts({{"1", "Find the mass.", marks(3)}, {"2", "Find the length.", marks(12)}}) ==
              "1 3, 2 12");
    }
}

TEST_CASE("brackets that are cut from their number are read as well") {
    CHECK(parts({{"1", "Find the mass.", "( 3 )"},
                 {"2", "( a ) Find it.", "[ 2 ]"},
                 {"", "( b ) Find it.", "( 4 )"}}) == "1 3, 2a 2, 2b 4");
}

TEST_CASE("a total at a question's end is not the marks of a part") {
    const std::vector<Row> two_parts{{"1", "", ""}, {"(a)", "Find it.", "(3)"}, {"(b)", "Find it.", "(4)"}};
    for (const std::string total :
         {"(7)", "[7]", "(7 marks)", "[Total 7]", "(Total 7 marks)", "[Total: 7]", "Total 7",
          "Total: 7 marks", "Total for Question 1: 7", "(Total for Question 1 is 7 marks)",
          "Question 1 total: 7", "[Total 7 marks]"}) {
        CAPTURE(total);
        std::vector<Row> rows = two_parts;
        rows.push_back({"", "", total});
        rows.push_back({"2", "Find it.", "(2)"});
        rows.push_back({"3", "Find it.", "(6)"});
        const PrintedPaper paper = recognise_paper(page_of(rows).pages());
        CHECK(parts(paper) == "1a 3, 1b 4, 2 2, 3 6");
        CHECK(paper.questions[0].total == Marks(7));
        CHECK(paper.doubts.empty());
    }
}

TEST_CASE("a question of one part may have only its total") {
    CHECK(parts({{"1", "Find it.", ""},
                 {"", "", "(Total for Question 1 is 5 marks)"},
                 {"2", "Find it.", "(2)"}}) == "1 5, 2 2");
}

TEST_CASE("letters that are also roman numerals are told apart by what is around them") {
    std::vector<Row> rows{{"1", "", ""}};
    for (const char letter : std::string("abcdefghij"))
        rows.push_back({"(" + std::string(1, letter) + ")", "Find it.", "(1)"});
    CHECK(parts(rows) == "1a 1, 1b 1, 1c 1, 1d 1, 1e 1, 1f 1, 1g 1, 1h 1, 1i 1, 1j 1");

    rows.resize(9);
    rows.back() = {"(h)", "(i) Find it.", "(1)"};
    rows.push_back({"", "(ii) Find it.", "(2)"});
    CHECK(parts(rows) == "1a 1, 1b 1, 1c 1, 1d 1, 1e 1, 1f 1, 1g 1, 1hi 1, 1hii 2");
}

TEST_CASE("roman numerals may come above letters or right below the question's number") {
    CHECK(parts({{"1", "", ""},
                 {"(i)", "(a) Find it.", "(1)"},
                 {"", "(b) Find it.", "(2)"},
                 {"(ii)", "Find it.", "(3)"},
                 {"2", "", ""},
                 {"(i)", "Find it.", "(4)"},
                 {"(ii)", "Find it.", "(5)"}}) == "1ia 1, 1ib 2, 1ii 3, 2i 4, 2ii 5");
}

TEST_CASE("labels may be printed whole at each part") {
    CHECK(parts({{"1 (a) (i)", "Find it.", "[1]"},
                 {"1 (a) (ii)", "Find it.", "[2]"},
                 {"1 (b)", "Find it.", "[3]"},
                 {"2 (a)", "Find it.", "[4]"},
                 {"2 (b)", "Find it.", "[5]"}}) == "1ai 1, 1aii 2, 1b 3, 2a 4, 2b 5");
}

TEST_CASE("a number after a point is the part's letter where these run on") {
    CHECK(parts({{"0 1", "A path is straight.", ""},
                 {"0 1 . 1", "Find it.", "[1 mark]"},
                 {"0 1 . 2", "Find it.", "[2 marks]"},
                 {"0 2 . 1", "Find it.", "[3 marks]"},
                 {"0 2 . 2", "Find it.", "[4 marks]"}}) == "1a 1, 1b 2, 2a 3, 2b 4");
}

TEST_CASE("numbers that begin again in a section are named with its letter") {
    std::vector<Row> rows{{"", "Section A", ""}, {"1", "Find it.", "(1)"}, {"2", "Find it.", "(2)"},
                          {"", "Section B", ""}, {"1", "Find it.", "(3)"}, {"2", "Find it.", "(4)"}};
    CHECK(parts(rows) == "A1 1, A2 2, B1 3, B2 4");
    rows[4].label = "3";
    rows[5].label = "4";
    CHECK(parts(rows) == "1 1, 2 2, 3 3, 4 4");
    for (const std::size_t row : std::vector<std::size_t>{1, 2, 4, 5})
        rows[row].label = (row < 3 ? "A" : "B") + std::to_string(row < 3 ? row : row - 3);
    CHECK(parts(rows) == "A1 1, A2 2, B1 3, B2 4");
}

TEST_CASE("numbered instructions are not questions") {
    const std::vector<Row> cover{{"1", "Answer all questions.", ""},
                                 {"2", "Write in ink.", ""},
                                 {"3", "Show all working.", ""},
                                 {"4", "Marks are shown in brackets.", ""}};
    const std::vector<Row> questions{
        {"1", "Find it.", "(3)"}, {"2", "Find it.", "(2)"}, {"3", "Find it.", "(1)"}};
    Sheets sheets = page_of(cover);
    std::vector<PrintedPage> pages = sheets.pages();
    pages.push_back(page_of(questions).pages().front());
    const PrintedPaper paper = recognise_paper(pages);
    CHECK(parts(paper) == "1 3, 2 2, 3 1");
    CHECK(paper.doubts.empty());
    REQUIRE(paper.questions.size() == 3);
    REQUIRE(paper.questions.front().strips.size() == 1);
    CHECK(paper.questions.front().strips.front().page == 1);
}

TEST_CASE("numbers in tables, at axes and at the start of wrapped text are not questions") {
    const PrintedPaper paper = recognise_paper(page_of({{"1", "A path is straight.", ""},
                                                        {"", "2 lamps stand by it.", ""},
                                                        {"", "3", ""},
                                                        {"", "2", ""},
                                                        {"", "1", ""},
                                                        {"", "0 1 2 3", ""},
                                                        {"", "Find it.", "(2)"},
                                                        {"2", "The table shows it.", ""},
                                                        {"", "3 12", ""},
                                                        {"", "4 15", ""},
                                                        {"", "Find it.", "(4)"}})
                                                   .pages());
    CHECK(parts(paper) == "1 2, 2 4");
    CHECK(paper.doubts.empty());
}

TEST_CASE("a total that differs is a doubt and mends nothing") {
    const std::vector<Row> rows{{"1", "", ""},
                                {"(a)", "Find it.", "(3)"},
                                {"(b)", "Find it.", "(4)"},
                                {"", "", "(Total for Question 1 is 8 marks)"},
                                {"2", "Find it.", "(2)"}};
    CHECK(parts(rows) == "1a 3, 1b 4, 2 2");
    CHECK(doubts(rows) == Messages{"question 1: its parts add up to 7 marks, but its total says 8"});
}

TEST_CASE("a paper's total that differs is a doubt of the paper as a whole") {
    const PrintedPaper paper = recognise_paper(
        page_of({{"", "Total marks: 6", ""}, {"1", "Find it.", "(3)"}, {"2", "Find it.", "(2)"}}).pages());
    REQUIRE(paper.doubts.size() == 1);
    CHECK_FALSE(paper.doubts.front().page);
    CHECK(paper.doubts.front().message == "the parts add up to 5 marks, but the paper says 6");
    CHECK(paper.total == Marks(6));
}

TEST_CASE("a paper that states two totals or durations says so") {
    CHECK(doubts({{"", "Total marks: 5", ""},
                  {"", "Time: 10 minutes", ""},
                  {"", "Time allowed: 8 minutes", ""},
                  {"1", "Find it.", "(3)"},
                  {"2", "Find it.", "(2)"},
                  {"", "TOTAL FOR PAPER: 7 MARKS", ""}}) ==
          Messages{"the duration is stated as 8:00 here and as 10:00 before",
                   "the paper's total is stated as 7 here and as 5 before"});
}

TEST_CASE("a duration of less than half a minute or more than three minutes a mark is a doubt") {
    const auto doubts_with = [](const std::string& time) {
        return doubts({{"", "Total marks: 10", ""},
                       {"", "Time: " + time, ""},
                       {"1", "Find it.", "(4)"},
                       {"2", "Find it.", "(6)"}});
    };
    CHECK(doubts_with("5 minutes").empty());
    CHECK(doubts_with("30 minutes").empty());
    CHECK(doubts_with("4 minutes").size() == 1);
    CHECK(doubts_with("31 minutes") ==
          Messages{"the duration is read as 31:00 for 10 marks, and papers have half a minute to three "
                   "minutes a mark"});
}

TEST_CASE("a choice of questions is read where it is printed") {
    const auto choice_of = [](const std::string& statement, const std::string& marks_of_4 = "(5)") {
        const PrintedPaper paper = recognise_paper(page_of({{"", statement, ""},
                                                            {"1", "Find it.", "(5)"},
                                                            {"2", "Find it.", "(5)"},
                                                            {"3", "Find it.", "(5)"},
                                                            {"4", "Find it.", marks_of_4}})
                                                       .pages());
        std::string text;
        for (const PrintedChoice& choice : paper.choices) {
            text += std::to_string(choice.count) + " of";
            for (const std::string& question : choice.questions)
                text += " " + question;
        }
        return text + (paper.doubts.empty() ? "" : "; in doubt");
    };
    CHECK(choice_of("Answer any three questions.") == "3 of 1 2 3 4");
    CHECK(choice_of("Answer TWO of the questions.") == "2 of 1 2 3 4");
    CHECK(choice_of("Candidates attempt two out of four questions.") == "2 of 1 2 3 4");
    CHECK(choice_of("Do any three questions.") == "3 of 1 2 3 4");
    CHECK(choice_of("Attempt only 1 of the following questions") == "1 of 1 2 3 4");
    CHECK(choice_of("Answer Question 1 and any two other questions.") == "2 of 2 3 4");
    CHECK(choice_of("Answer either Question 3 or Question 4.") == "1 of 3 4");
    CHECK(choice_of("Answer any two questions.", "(6)") == "; in doubt");
    CHECK(choice_of("Answer any five questions.") == "; in doubt");
    for (const char* const text :
         {"Answer all questions.", "Answer four questions.", "Answer question 3 first", "Answer any three",
          "Give answers to 3 significant figures"})
        CHECK(choice_of(text).empty());
}

TEST_CASE("a choice within a section is of its questions, and its total counts so many of them") {
    std::vector<Row> rows{{"", "Total marks: 13", ""},
                          {"", "Section A", ""},
                          {"1", "Find it.", "(3)"},
                          {"", "Section B", ""},
                          {"", "Answer any two questions.", ""},
                          {"2", "Find it.", "(5)"},
                          {"3", "Find it.", "(5)"},
                          {"4", "Find it. Answer two questions in your head.", "(5)"}};
    const PrintedPaper paper = recognise_paper(page_of(rows).pages());
    REQUIRE(paper.choices.size() == 1);
    CHECK(paper.choices[0].count == 2);
    CHECK(paper.choices[0].questions == std::vector<std::string>{"2", "3", "4"});
    CHECK(paper.doubts.empty());
    rows[4] = {"", "", ""};
    rows.insert(rows.begin(), {"", "Answer any two questions from Section B.", ""});
    CHECK(recognise_paper(page_of(rows).pages()).choices.size() == 1);
}

TEST_CASE("a section's total is compared with its questions") {
    const std::vector<Row> rows{{"", "Section A", ""},
                                {"1", "Find it.", "(1)"},
                                {"2", "Find it.", "(2)"},
                                {"", "", "Total for Section A: 4 marks"},
                                {"", "Section B", ""},
                                {"3", "Find it.", "(5)"},
                                {"", "", "Total for Section B: 5 marks"}};
    CHECK(doubts(rows) == Messages{"the section's questions add up to 3 marks, but its total says 4"});
}

TEST_CASE("a section's total leaves out a section before it that states none") {
    std::vector<Row> rows{{"", "Section A", ""},    {"1", "Find it.", "(4)"},
                          {"", "Section B", ""},    {"2", "Find it.", "(1)"},
                          {"3", "Find it.", "(5)"}, {"", "", "Total for Section B: 6 marks"}};
    CHECK(doubts(rows).empty());
    rows.back() = {"", "", "Total for Section B: 10 marks"};
    CHECK(doubts(rows) == Messages{"the section's questions add up to 6 marks, but its total says 10"});
}

TEST_CASE("a part without marks is a doubt") {
    CHECK(
        doubts(
            {{"1", "", ""}, {"(a)", "Find it.", ""}, {"(b)", "Find it.", "(4)"}, {"2", "Find it.", "(1)"}}) ==
        Messages{"part 1a has no marks"});
}

TEST_CASE("labels that are left out or repeated are doubts") {
    CHECK(doubts({{"1", "Find it.", "(1)"},
                  {"2", "Find it.", "(2)"},
                  {"4", "Find it.", "(2)"},
                  {"7", "Find it.", "(2)"},
                  {"8", "Find it.", "(2)"}}) ==
          Messages{"question 3 was not found before question 4",
                   "questions 5 to 6 were not found before question 7"});
    CHECK(doubts({{"1", "Find it.", "(1)"},
                  {"2", "Find it.", "(2)"},
                  {"2", "Find it.", "(2)"},
                  {"3", "Find it.", "(2)"}})
              .front() == "number 2 is printed in question 2 where a question's number could be");
    CHECK(doubts({{"1", "", ""}, {"(a)", "Find it.", "(1)"}, {"(c)", "Find it.", "(1)"}}) ==
          Messages{"part 1b was not found before part 1c"});
    CHECK(doubts({{"1", "", ""},
                  {"(a)", "Find it.", "(1)"},
                  {"(b)", "Find it.", "(1)"},
                  {"(b)", "Find it.", "(1)"},
                  {"(c)", "Find it.", "(1)"}}) ==
          Messages{"(b) is printed more than once where a part of 1 could begin",
                   "part 1b has marks twice, (1) and (1): the last are used"});
    CHECK(doubts({{"1", "", ""}, {"(a)", "Find it.", "(1)"}, {"2", "Find it.", "(3)"}}) ==
          Messages{"part 1a is on its own: no part follows it"});
}

TEST_CASE("marks before a question's parts are kept with a doubt, unless they are its total") {
    const std::vector<Row> rows{
        {"1", "Find it.", "(2)"}, {"(a)", "Find it.", "(3)"}, {"(b)", "Find it.", "(4)"}};
    CHECK(parts(rows) == "1 2, 1a 3, 1b 4");
    CHECK(doubts(rows) == Messages{"(2) is printed at 1 before its sub-parts: taken as marks of its own"});
    std::vector<Row> with_total = rows;
    with_total.front().right = "(7)";
    CHECK(parts(with_total) == "1a 3, 1b 4");
    CHECK(doubts(with_total).empty());
}

TEST_CASE("a total of another question is a doubt") {
    CHECK(doubts({{"1", "Find it.", "(2)"},
                  {"", "", "(Total for Question 2 is 2 marks)"},
                  {"2", "Find it.", "(2)"}}) == Messages{"a total for question 2 is printed in question 1"});
}

TEST_CASE("marks that no part can have are a doubt") {
    const std::vector<Row> rows{
        {"1", "Find it.", "(2)"}, {"2", "Find it.", "(501)"}, {"3", "Find it.", "(0)"}};
    CHECK(parts(rows) == "1 2, 2 -, 3 -");
    CHECK(doubts(rows) ==
          Messages{"(501) is printed at part 2: a part has 1 to 500 marks", "part 2 has no marks",
                   "(0) is printed at part 3: a part has 1 to 500 marks", "part 3 has no marks"});
}

TEST_CASE("more parts than a paper has are a doubt") {
    Sheets sheets;
    for (int question = 1; question <= 501; ++question) {
        if (question % 40 == 1)
            sheets.turn();
        const double top = 60 + 18 * ((question - 1) % 40);
        sheets.set(50, top, std::to_string(question));
        sheets.set(110, top, "Find it.");
        sheets.set_to(540, top, "(1)");
    }
    const PrintedPaper paper = recognise_paper(sheets.pages());
    CHECK(paper.parts.size() == 501);
    REQUIRE(paper.doubts.size() == 1);
    CHECK(paper.doubts.front().message == "501 parts were found; a paper has at most 500");
}

TEST_CASE("a document that isn't a question paper gives no parts and says so") {
    for (const std::vector<Row>& rows :
         {std::vector<Row>{},
          std::vector<Row>{{"1", "Name", ""}, {"2", "Date of birth", ""}, {"3", "Address", ""}},
          std::vector<Row>{{"", "Dear reader,", ""}, {"", "see (3)", "(4)"}}}) {
        const PrintedPaper paper = recognise_paper(page_of(rows).pages());
        CHECK(paper.parts.empty());
        CHECK(paper.questions.empty());
        REQUIRE(paper.doubts.size() == 1);
        CHECK(paper.doubts.front().message ==
              "no questions were found: there are no numbers 1, 2, 3 one below the other "
              "with marks at the right edge after them");
    }
    CHECK(recognise_paper({}).doubts.size() == 1);
}

TEST_CASE("words written up the page's side are not read") {
    Sheets sheets = page_of({{"1", "Find it.", "(2)"}, {"2", "Find it.", "(3)"}});
    std::vector<PrintedPage> pages = sheets.pages();
    double top = 50;
    for (const std::string word : {"MARGIN", "THIS", "IN", "WRITE", "NOT", "DO"}) {
        const double bottom = top + 8 * static_cast<double>(word.size());
        pages.front().words.push_back({word, box(20, top, 31, bottom)});
        top = bottom + 4;
    }
    CHECK(parts(recognise_paper(pages)) == "1 2, 2 3");
}

TEST_CASE("bullets beside text are not taken for words written up the page's side") {
    Sheets sheets = page_of({{"1", "Find it.", "(2)"}, {"2", "Find it.", "(3)"}});
    std::vector<PrintedPage> pages = sheets.pages();
    pages.front().words.push_back({"MARGIN", box(20, 50, 31, 90)});
    pages.front().words.push_back(
        {"NO", box(20, 94, 31, 112)}); // not high enough to be told from upright text
    pages.front().words.push_back({"\xE2\x80\xA2", box(50, 300, 54, 311)});
    pages.front().words.push_back({"IN", box(20, 78, 31, 89)}); // on the line of 2
    CHECK(parts(recognise_paper(pages)) == "1 2, 2 3");
}

TEST_CASE("brackets of a list after the questions don't outvote the edge of their marks") {
    Sheets sheets;
    std::string expected;
    for (int number = 1; number <= 16; ++number) {
        if (number % 8 == 1)
            sheets.turn();
        const double top = 80.0 + 85 * ((number - 1) % 8);
        sheets.set(50, top, std::to_string(number));
        sheets.set(80, top, "Find the length of the path");
        sheets.set_to(540, top, "(3)");
        expected += (number > 1 ? ", " : "") + std::to_string(number) + " 3";
    }
    sheets.turn();
    for (int row = 0; row < 30; ++row) {
        sheets.set(50, 60 + 24.0 * row, "The rule of the wheel");
        sheets.set_to(430, 60 + 24.0 * row, "(5)");
    }
    CHECK(parts(recognise_paper(sheets.pages())) == expected);
}

TEST_CASE("brackets of a list before the questions don't outvote theirs") {
    Sheets sheets;
    sheets.turn();
    sheets.set(50, 40, "1. Answer all questions");
    for (int row = 0; row < 30; ++row) {
        sheets.set(50, 60 + 24.0 * row, "The rule of the wheel");
        sheets.set_to(430, 60 + 24.0 * row, "(5)");
    }
    sheets.set(50, 790, "End of the rules");
    sheets.turn();
    std::string expected;
    for (int number = 1; number <= 8; ++number) {
        sheets.set(50, 80.0 * number, std::to_string(number) + ". Find the length of the path");
        sheets.set_to(540, 80.0 * number, "[3]");
        expected += (number > 1 ? ", " : "") + std::to_string(number) + " 3";
    }
    CHECK(parts(recognise_paper(sheets.pages())) == expected);
}

TEST_CASE("margins may change sides from page to page") {
    Sheets sheets;
    for (int page = 0; page < 6; ++page) {
        sheets.turn();
        const double shift = page % 2 == 0 ? 0 : 25;
        for (int row = 0; row < 2; ++row) {
            const double top = 100 + 200 * row;
            sheets.set(40 + shift, top, std::to_string(2 * page + row + 1));
            sheets.set(80 + shift, top, "Find the length of the path");
            sheets.set_to(530 + shift, top, "(3)");
        }
    }
    const PrintedPaper paper = recognise_paper(sheets.pages());
    CHECK(parts(paper) == "1 3, 2 3, 3 3, 4 3, 5 3, 6 3, 7 3, 8 3, 9 3, 10 3, 11 3, 12 3");
    CHECK(paper.doubts.empty());
}

TEST_CASE("a form that states sums is that of totals though it is the commonest") {
    const PrintedPaper paper = recognise_paper(page_of({{"1", "Find it.", "[4]"},
                                                        {"2", "", ""},
                                                        {"(a)", "Find it.", "(2)"},
                                                        {"(b)", "Find it.", "(3)"},
                                                        {"", "", "[5]"},
                                                        {"3", "Find it.", "[6]"},
                                                        {"4", "Find it.", "[7]"}})
                                                   .pages());
    CHECK(parts(paper) == "1 4, 2a 2, 2b 3, 3 6, 4 7");
    CHECK(paper.questions[1].total == Marks(5));
    CHECK(paper.doubts.empty());
}

TEST_CASE("marks a little higher than their part's label belong to it") {
    Sheets sheets = page_of(
        {{"1", "", ""}, {"(a)", "Find it.", "(2)"}, {"(b)", "Find it.", ""}, {"2", "Find it.", "(1)"}});
    sheets.set_to(540, 91, "(3)"); // the line of (b) is at 96
    CHECK(parts(recognise_paper(sheets.pages())) == "1a 2, 1b 3, 2 1");
}

TEST_CASE("crop marks are not read, and text as near to the page's edges is") {
    const std::vector<Row> rows{{"1", "", ""},
                                {"(a)", "Find it.", "(3)"},
                                {"(b)", "Find the rest.", "(2)"},
                                {"2", "Show that it is even.", "(4)"},
                                {"3", "Say why.", "(5)"},
                                {"4", "Draw it.", "(1)"}};
    Sheets sheets = page_of(rows);
    sheets.set(8, 78, "+");
    sheets.set(580, 96, "+");
    sheets.set(100, 828, "numbers.tex 7 14:05");
    CHECK(parts(recognise_paper(sheets.pages())) == "1a 3, 1b 2, 2 4, 3 5, 4 1");
    for (PrintedWord& word : sheets.words()) {
        word.box.left = word.box.left - Points(45);
        word.box.right = word.box.right - Points(45);
    }
    sheets.words().resize(sheets.words().size() - 5);
    CHECK(parts(recognise_paper(sheets.pages())) == "1a 3, 1b 2, 2 4, 3 5, 4 1");
}
