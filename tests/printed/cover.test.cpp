#include "printed/cover.hpp"

#include "pages.hpp"

#include "catch.hpp"

#include <string>
#include <utility>
#include <vector>

using namespace inkturn;
using namespace inkturn::printed;

namespace {

Cover cover_of(const std::vector<std::string>& lines) {
    Sheets sheets;
    sheets.turn();
    double top = 100;
    for (const std::string& line : lines)
        sheets.set(60, top += 20, line);
    const Layout layout = layout_of(sheets.pages(), Columns::told);
    return read_cover(layout, layout.lines.size());
}

/// In minutes; -1: none, -2: several.
long minutes(const std::vector<std::string>& lines) {
    const Cover cover = cover_of(lines);
    if (cover.durations.size() != 1)
        return cover.durations.empty() ? -1 : -2;
    return cover.durations.front().value.count() / 60;
}

int total(const std::vector<std::string>& lines) {
    const Cover cover = cover_of(lines);
    if (cover.totals.size() != 1)
        return cover.totals.empty() ? -1 : -2;
    return cover.totals.front().value;
}

} // namespace

TEST_CASE("a cover's duration is read in the forms that papers print it in") {
    const std::vector<std::pair<const char*, long>> forms{
        {"Time: 1 hour 30 minutes", 90},
        {"Time allowed: 1 hour and 15 minutes", 75},
        {"Time allowed 1 h 30 min", 90},
        {"Time: 1h30m", 90},
        {"Time: 90 minutes", 90},
        {"TIME ALLOWED: 2 HOURS", 120},
        {"Time: 1\xC2\xBD hours", 90},
        {"Time: 1 1/2 hours", 90},
        {"Time: 1.5 hours", 90},
        {"Time: two hours", 120},
        {"Duration: 45 minutes", 45},
        {"Morning (Time: 1 hour 45 minutes)", 105},
        {"You have 50 minutes for this paper", 50},
        {"1 hour 40 minutes", 100},
        {"Time: one hour and a half", 90},
        {"Time: 1\xC2\xBC hours", 75},
        {"Time: 1.75 hours", 105},
        {"Time: 1 hour 40", 100},
        {"Time: 1h30", 90},
        {"Time: 2h", 120},
        {"Time allowed: 1:30 hours", 90},
        {"Duration: ninety minutes", 90},
        {"You have forty-five minutes.", 45},
        {"Length: two and a half hours", 150},
        {"This paper lasts 1 h 15.", 75},
        {"Time: 9.00 to 10.30", 90},
        {"09:15 to 10:45", 90},
        {"Time: 13.00 \xE2\x80\x93 14.30", 90},
        {"Time: 11.30 am to 1.00 pm", 90},
        {"Time: 11.30 to 1.00", 90},
        {"Time: half an hour", 30},
        {"From 9.15 to 10.45", 90},
        {"Time: 75 minutes (including 10 minutes reading time)", 75},
        {"This is a 60-minute paper.", 60},
        {"Allow 80 minutes.", 80},
        {"Bearbeitungszeit: 75 Minuten", 75},
        {"Dauer: 2 Std", 120},
        {"Time: three quarters of an hour", 45},
        {"Time: three hours", 180},
        {"Reading time: 10 minutes. Working time: 75 minutes", 75},
        {"Working time: 75 minutes. Reading time: 10 minutes", 75},
    };
    for (const auto& [text, expected] : forms) {
        CAPTURE(text);
        CHECK(minutes({"Invented Paper 1", text, "Answer all questions."}) == expected);
    }
}

TEST_CASE("a fraction is read however it is set") {
    const auto minutes_with = [](const std::vector<PrintedWord>& fraction) {
        Sheets sheets;
        sheets.turn();
        sheets.set(60, 100, "Time: 1");
        sheets.words().insert(sheets.words().end(), fraction.begin(), fraction.end());
        sheets.set(120, 100, "hours");
        sheets.set(60, 140, "Answer all questions.");
        const Layout layout = layout_of(sheets.pages(), Columns::told);
        const Cover cover = read_cover(layout, layout.lines.size());
        return cover.durations.size() == 1 ? cover.durations.front().value.count() / 60 : -1;
    };
    CHECK(minutes_with({}) == 60);
    CHECK(minutes_with({{"1/2", box(103, 100, 114, 111)}}) == 90);
    CHECK(minutes_with({{"12", box(106, 97, 110, 114)}}) == 90); // one word, its digits above each other
    CHECK(minutes_with({{"1", box(106, 97, 110, 104)}, {"2", box(106, 106, 110, 113)}}) == 90);
    CHECK(minutes_with({{"3", box(106, 92, 111, 101)}, {"4", box(106, 111, 111, 120)}}) ==
          105); // on lines of their own
}

TEST_CASE("a duration may be on the line after the word for it") {
    CHECK(minutes({"Time allowed", "1 hour 30 minutes"}) == 90);
}

TEST_CASE("a duration may be alone after a wide blank") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "Invented test of wheels");
    sheets.set_to(540, 100, "40 min");
    const Layout layout = layout_of(sheets.pages(), Columns::told);
    const Cover cover = read_cover(layout, layout.lines.size());
    REQUIRE(cover.durations.size() == 1);
    CHECK(cover.durations.front().value == Seconds(2400));
}

TEST_CASE("a title's words say nothing of the time below it") {
    CHECK(minutes({"Reading", "Time: 1 hour"}) == 60);
    CHECK(minutes({"Reading time: 10 minutes"}) == -1);
}

TEST_CASE("other times on a cover are not a duration") {
    for (const char* const text :
         {"Spend about 20 minutes on Section A.", "Morning session at 9 hours",
          "The first 10 minutes are for reading time",
          "Candidates with 25 % extra time have 15 minutes more in all", "Doors open at 9.00"}) {
        CAPTURE(text);
        CHECK(minutes({text}) == -1);
    }
}

TEST_CASE("a cover's total is read in the forms that papers print it in") {
    const std::vector<std::pair<const char*, int>> forms{
        {"The total mark for this paper is 75", 75},
        {"The total mark for this paper is 75.", 75},
        {"The total number of marks for this paper is 75", 75},
        {"Total marks: 75", 75},
        {"TOTAL MARKS 75", 75},
        {"The maximum mark is 75", 75},
        {"Maximum marks: 75", 75},
        {"[Total: 75 marks]", 75},
        {"Total: 75", 75},
        {"There are 75 marks in all", 75},
        {"42 marks in all", 42},
        {"This paper is worth 75 marks.", 75},
        {"The paper is marked out of 75.", 75},
        {"Marks available: 75", 75},
        {"75 marks", 75},
        {"Marks: 75", 75},
        {"Full marks: 75", 75},
        {"Total points: 75", 75},
    };
    for (const auto& [text, expected] : forms) {
        CAPTURE(text);
        CHECK(total({"Invented Paper 1", text, "Answer all questions."}) == expected);
    }
}

TEST_CASE("a total may run over two lines") {
    CHECK(total({"The total mark for this", "paper is 75."}) == 75);
}

TEST_CASE("other numbers on a cover are not a total") {
    for (const char* const text :
         {"The total for Section A is 30 marks",
          "The marks for each question are shown in brackets, such as (3)", "Question 3 has 12 marks in it",
          "The total time is 75 minutes", "Give answers to 3 significant figures",
          "Full marks may be had for answers to six questions"}) {
        CAPTURE(text);
        CHECK(total({text}) == -1);
    }
}

TEST_CASE("a box for the total has no number in the list below it") {
    CHECK(total({"Total Marks", "1 Use black ink.", "2 Write your name."}) == -1);
    CHECK(total({"Total marks", "75"}) == 75);
}

TEST_CASE("what a cover states twice is recorded twice") {
    const Cover cover =
        cover_of({"Time: 1 hour", "Total marks: 50", "Time allowed: 60 minutes", "Total marks: 60"});
    REQUIRE(cover.durations.size() == 2);
    CHECK(cover.durations[0].value == cover.durations[1].value);
    REQUIRE(cover.totals.size() == 2);
    CHECK(cover.totals[0].value == 50);
    CHECK(cover.totals[1].value == 60);
    CHECK(cover.totals[1].line == 3);
}

TEST_CASE("a unit on the next line is of the number above it") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "Time allowed: 60");
    sheets.set_to(540, 100, "Total marks: 59");
    sheets.set(60, 120, "minutes");
    sheets.set(60, 140, "Gesamt: 59 Punkte");
    const Cover cover = read_cover(layout_of(sheets.pages(), Columns::told), 3);
    REQUIRE(cover.durations.size() == 1);
    CHECK(cover.durations.front().value == std::chrono::minutes(60));
    REQUIRE(cover.totals.size() == 2);
    CHECK(cover.totals.front().value == 59);
    CHECK(cover.totals.back().value == 59);
    CHECK(minutes({"Time allowed: 60", "minutes"}) == 60);
    sheets.turn();
    sheets.set(60, 100, "There are 60");
    sheets.set_to(540, 100, "Total marks: 59");
    sheets.set(200, 120, "minutes in an hour");
    CHECK(read_cover(layout_of(sheets.pages(), Columns::told), 5).durations.size() == 1);
}
