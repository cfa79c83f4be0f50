#include "view/page/question_set.hpp"

#include "view/page/booklet.hpp"
#include "view/page/page_checks.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::shared_ptr<const Paper> drawn(const std::string& title = "Set on vectors") {
    return std::make_shared<const Paper>(PaperHead{"set-vectors-1", title, "pure", {}},
                                         std::vector<Part>{{"1a", Marks(2), "vectors", ""},
                                                           {"1b", Marks(3), "vectors", ""},
                                                           {"2", Marks(5), "", ""}});
}

SharedPicture picture(const std::string& bytes) {
    return std::make_shared<const Picture>(Picture{PictureKind::png, 370, 300, bytes});
}

const Day set_day = *read_iso_day("2026-12-09");

QuestionSet example() {
    QuestionSet set;
    set.paper = drawn();
    set.questions = {
        {{"pure-1", "7"}, "Pure, paper 1", {picture("top"), picture("foot")}, {picture("scheme")}},
        {{"pure-2", "4"}, "", {}, {}}};
    return set;
}

} // namespace

TEST_CASE(
    "a set's page has each question with its source, marks and time, and the schemes after all of them") {
    const std::string html = to_html(example());
    CHECK(
        in_order(html, {"<h1>Set on vectors: 10 marks in 12:00</h1>", "On file as paper set-vectors-1.",
                        "<h2>1</h2><span>5 marks, 6:00</span>", "from pure-1, question 7", "picture 1 of 2",
                        "picture 2 of 2", "<h2>2</h2><span>5 marks, 6:00</span>", "from pure-2, question 4",
                        "Find it in the paper. pure-2: question 4.", "<h2>Mark schemes of set-vectors-1</h2>",
                        "Question 1: 5 marks, from pure-1, question 7",
                        "No mark scheme on file, so use the paper&#39;s, for: 2 (pure-2: question 4)."}));
    CHECK(count(html, "data:image/png") == 3);
    CHECK(count_of_pictures(example()) == 3);
}

TEST_CASE("a set's page says that it is no mock, and whom it is for") {
    QuestionSet set = example();
    CHECK(holds(to_html(set), "not a mock"));
    CHECK_FALSE(holds(to_html(set), "For candidate"));
    set.readers = "candidate K07";
    CHECK(in_order(to_html(set), {"For candidate K07. On file as paper set-vectors-1.", "<h2>1</h2>"}));
}

TEST_CASE("a page in large print says so where a picture fills the sheet already") {
    const std::string said = "not at 18 points";
    QuestionSet set = example();
    set.size = PrintSize::large;
    CHECK_FALSE(holds(to_html(set), said)); // 98 mm, and then 176
    set.questions[0].question = {
        std::make_shared<const Picture>(Picture{PictureKind::png, 900, 300, "wide"})};
    CHECK(holds(to_html(set), said));
    CHECK(holds(to_html(Booklet{{set_day, set_day}, {{"K07", {}, {set}}}, PrintSize::large}), said));
    set.size = PrintSize::usual;
    CHECK_FALSE(holds(to_html(set), said));
}

TEST_CASE("times on a set's page include the extra time, and say so") {
    QuestionSet set = example();
    set.extra = ExtraTime(25);
    CHECK(in_order(to_html(set), {"10 marks in 15:00", "25% extra time included", "5 marks, 7:30"}));
}

TEST_CASE("a set's page has a box for each part and ink") {
    const std::string html = to_html(example());
    for (const char* const part : {"1a", "1b", "2"})
        CHECK(holds(html, "<th scope=\"row\">" + std::string(part) + "</th>"));
    CHECK(count(html, "<td></td>") == 9);
}

TEST_CASE("no text on a set's page can break out of it") {
    QuestionSet set = example();
    set.paper = drawn(breaking_out);
    set.readers = breaking_out;
    set.questions = {{{"pure-1", "7"}, breaking_out, {}, {}}, {{"pure-2", "4"}, breaking_out, {}, {}}};
    check_holds_back(to_html(set));
}

TEST_CASE("a booklet holds the drawn papers to sit, their schemes once for all who sit them") {
    const DaySpan span{*read_iso_day("2026-12-09"), *read_iso_day("2026-12-16")};
    const std::string html =
        to_html(Booklet{span, {{"K07", {}, {example()}}, {"K08", {}, {example()}}, {"K09", {}, {}}}});
    CHECK(in_order(html, {"Candidate K07", "To sit: paper set-vectors-1", "<h3>1</h3>", "Candidate K08",
                          "<h3>1</h3>", "Mark schemes of set-vectors-1"}));
    CHECK(count(html, "Mark schemes") == 1);
    CHECK(count(html, "data:image/png") == 3);
    CHECK_FALSE(holds(html, "K09"));
    CHECK_FALSE(holds(html, "Nothing is due"));
}
