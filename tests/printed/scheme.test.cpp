#include "inkturn/printed/paper.hpp"

#include "pages.hpp"

#include "catch.hpp"

#include <string>
#include <vector>

using namespace inkturn;

namespace {

/// A row of a scheme's table: label, answer, codes, marks.
struct Row {
    std::string label;
    std::string answer;
    std::string codes;
    std::string marks;
};

Sheets scheme_of(const std::vector<Row>& rows) {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const Row& row : rows) {
        sheets.set(50, top, row.label);
        sheets.set(110, top, row.answer);
        sheets.set(430, top, row.codes);
        sheets.set_to(540, top, row.marks);
        top += 18;
    }
    return sheets;
}

/// A paper of these parts; those of a question stand one after the other.
PrintedPaper paper_of(const std::vector<std::pair<std::string, int>>& parts) {
    PrintedPaper paper;
    for (const auto& [label, marks] : parts) {
        paper.parts.push_back({label, Marks(marks), 0});
        const std::string question = label.substr(0, label.find_first_not_of("0123456789"));
        if (paper.questions.empty() || paper.questions.back().label != question)
            paper.questions.push_back({question, {}, std::nullopt, {}});
        paper.questions.back().parts.push_back(paper.parts.size() - 1);
    }
    return paper;
}

std::string codes(const PrintedScheme& scheme) {
    std::string text;
    for (const PrintedSchemePart& part : scheme.parts)
        text += (text.empty() ? "" : ", ") + part.label + ": " + part.codes;
    return text;
}

std::vector<std::string> messages(const PrintedScheme& scheme) {
    std::vector<std::string> all;
    for (const Doubt& doubt : scheme.doubts)
        all.push_back(doubt.message);
    return all;
}

using Messages = std::vector<std::string>;

const std::vector<Row> small_scheme{
    {"Question", "Answer", "Mark", "Total"},
    {"1", "A mark for a sketch: M1 for the axes, and A1 for the rest", "M1", ""},
    {"", "12 cm", "A1 ft", "2"},
    {"2 (a)", "The rule is used", "dM1 A1cao", "2"},
    {"(b)", "3.5", "B2", "2"},
    {"", "or better", "", ""},
    {"3 (i)", "Both edges", "M1A1", "2"},
    {"3 (ii)", "A1 is not in the column here", "(B1)", "1"},
};

} // namespace

TEST_CASE("codes are read from their column and given to the part they are beside") {
    const PrintedScheme scheme = recognise_scheme(
        scheme_of(small_scheme).pages(), paper_of({{"1", 2}, {"2a", 2}, {"2b", 2}, {"3i", 2}, {"3ii", 1}}));
    CHECK(codes(scheme) == "1: M1 A1ft, 2a: dM1 A1cao, 2b: B2, 3i: M1 A1, 3ii: B1");
    CHECK(scheme.doubts.empty());
}

TEST_CASE("marks close to a code do not make it one of the text") {
    Sheets sheets =
        scheme_of({{"1", "Both edges", "M1", ""}, {"", "12 cm", "A1cao", ""}, {"2", "3.5", "dM1", ""}});
    sheets.set(467, 78, "2");
    sheets.set(456, 96, "1");
    const PrintedScheme scheme = recognise_scheme(sheets.pages(), paper_of({{"1", 2}, {"2", 1}}));
    CHECK(codes(scheme) == "1: M1 A1cao, 2: dM1");
}

TEST_CASE("codes that don't add up to the part's marks are a doubt and are left out") {
    const PrintedScheme scheme = recognise_scheme(
        scheme_of(small_scheme).pages(), paper_of({{"1", 3}, {"2a", 2}, {"2b", 2}, {"3i", 2}, {"3ii", 1}}));
    CHECK(codes(scheme) == "1: , 2a: dM1 A1cao, 2b: B2, 3i: M1 A1, 3ii: B1");
    CHECK(messages(scheme) == Messages{"part 1: its codes M1 A1ft add up to 2 marks, but the paper says 3"});
    CHECK(scheme.doubts.front().page == std::size_t{0});
}

TEST_CASE("a part that the scheme has not is a doubt") {
    const PrintedScheme scheme =
        recognise_scheme(scheme_of(small_scheme).pages(),
                         paper_of({{"1", 2}, {"2a", 2}, {"2b", 2}, {"2c", 1}, {"3i", 2}, {"4", 1}}));
    CHECK(messages(scheme) ==
          Messages{"part 2c was not found in the mark scheme", "part 4 was not found in the mark scheme"});
    REQUIRE(scheme.questions.size() == 3);
}

TEST_CASE("a scheme without codes gives its questions") {
    std::vector<Row> rows = small_scheme;
    for (Row& row : rows)
        row.codes.clear();
    const PrintedScheme scheme = recognise_scheme(
        scheme_of(rows).pages(), paper_of({{"1", 2}, {"2a", 2}, {"2b", 2}, {"3i", 2}, {"3ii", 1}}));
    CHECK(codes(scheme) == "1: , 2a: , 2b: , 3i: , 3ii: ");
    CHECK(scheme.doubts.empty());
    CHECK(scheme.questions.size() == 3);
}

TEST_CASE("the scheme of a question runs from its label to the next one's") {
    const PrintedScheme scheme = recognise_scheme(
        scheme_of(small_scheme).pages(), paper_of({{"1", 2}, {"2a", 2}, {"2b", 2}, {"3i", 2}, {"3ii", 1}}));
    REQUIRE(scheme.questions.size() == 3);
    CHECK(scheme.questions[0].label == "1");
    REQUIRE(scheme.questions[0].strips.size() == 1);
    CHECK(scheme.questions[0].strips[0].top > Points(71)); // below the table's head
    CHECK(scheme.questions[0].strips[0].top <= Points(78));
    CHECK(scheme.questions[0].strips[0].bottom >= Points(107));
    CHECK(scheme.questions[0].strips[0].bottom <= Points(114));
    CHECK(scheme.questions[1].strips[0].bottom >= Points(161));
    CHECK(scheme.questions[1].strips[0].bottom <= Points(168));
}

TEST_CASE("a document that isn't a mark scheme gives a doubt for each part") {
    const PrintedPaper paper = paper_of({{"1", 2}, {"2", 3}});
    CHECK(recognise_scheme({}, paper).doubts.size() == 2);
    CHECK(recognise_scheme(scheme_of({{"", "Dear reader", "", ""}}).pages(), paper).doubts.size() == 2);
    CHECK(recognise_scheme(scheme_of(small_scheme).pages(), PrintedPaper{}).parts.empty());
}

TEST_CASE("labels centred in their column are compared by their middles") {
    const std::vector<Row> rows{{"1(a)(iii)", "x = 3", "M1 A1", ""},
                                {"2", "x = 4", "B1", ""},
                                {"3(b)(ii)", "x = 5", "M1", ""},
                                {"4(a)", "x = 6", "A1 B1", ""},
                                {"5", "x = 7", "B1", ""}};
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const Row& row : rows) {
        sheets.set(75 - 2.75 * static_cast<double>(row.label.size()), top, row.label);
        sheets.set(130, top, row.answer);
        sheets.set(430, top, row.codes);
        top += 18;
        sheets.set(62, top, "7 of them"); // text that begins with a number
        top += 18;
    }
    const PrintedScheme scheme = recognise_scheme(sheets.pages(), paper_of({{"2", 1}, {"5", 1}}));
    CHECK(codes(scheme) == "2: B1, 5: B1");
    CHECK(scheme.questions.size() == 2);
}
