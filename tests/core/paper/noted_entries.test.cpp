#include "inkturn/paper/noted_entries.hpp"

#include "catch.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

/// `7b=2:slip {sign of cos}`: the entries, each with its note.
std::string read(const std::vector<std::string>& words) {
    const NotedEntries typed = parse_noted_entries(words);
    std::string text;
    for (const Entry& entry : typed.entries) {
        text += (text.empty() ? "" : " ") + entry.part + "=" + entry.marks;
        if (const auto note = typed.notes.find(entry.part); note != typed.notes.end())
            text += " {" + note->second + "}";
    }
    return text;
}

} // namespace

TEST_CASE("a word with a blank after an entry is its note") {
    CHECK(read({"7a=3", "7b=2:slip", "sign of cos", "8=1"}) == "7a=3 7b=2:slip {sign of cos} 8=1");
    CHECK(read({"7a=2", "one mark was careless"}) == "7a=2 {one mark was careless}");
    CHECK(read({"7a=2", "2 marks for the sketch"}) == "7a=2 {2 marks for the sketch}");
    CHECK(read({"7a=2", "it is y = mx + c"}) == "7a=2 {it is y = mx + c}");
}

TEST_CASE("a single word of letters after a reason is a note") {
    CHECK(read({"7b=2:slip", "signs"}) == "7b=2:slip {signs}");
    CHECK_THROWS_WITH(parse_noted_entries({"7b=2", "signs"}), StartsWith("'signs': write PART=MARKS"));
}

TEST_CASE("what may be an entry is never taken for a note") {
    for (const char* const word : {"7c", "7c2", "c3", "7c:2", "7c 2", "7c 2+1:slip", "7c -", "Q7 (c)", "2"}) {
        CAPTURE(word);
        CHECK_THROWS_AS(parse_noted_entries({"7b=2:slip", word}), Error);
    }
    CHECK(read({"7b=2:slip", "Q7 (c)=1"}) == "7b=2:slip 7c=1");
}

TEST_CASE("what may be marks, or the part that they are of, is told from a note where both may be typed") {
    for (const char* const text : {"1", "2+1", "2:slip", "-", "7c", "7c 2", "7c=2", "7c="}) {
        CAPTURE(text);
        CHECK(may_be_entry(text));
    }
    for (const char* const text : {"sign", "sign of cos", "2 sign errors", "x = 3, not 4"}) {
        CAPTURE(text);
        CHECK_FALSE(may_be_entry(text));
    }
}

TEST_CASE("a note comes after the marks of its part, and a part has one") {
    CHECK_THROWS_WITH(parse_noted_entries({"sign of cos", "7b=2"}),
                      StartsWith("'sign of cos' is a note, which comes after the marks"));
    CHECK_THROWS_WITH(parse_noted_entries({"7b=2:slip", "sign", "of", "cos"}),
                      StartsWith("part 7b has two notes; put all of a note into one pair of quotes"));
    CHECK_THROWS_AS(parse_noted_entries({"7b=2", std::string(150, 'x') + " " + std::string(50, 'x')}), Error);
}

TEST_CASE("a note is typed by its part too, and an empty one stands for none") {
    Notes notes;
    add_note(notes, "7b=x = 3, not 4");
    add_note(notes, "7c=");
    CHECK(notes == Notes{{"7b", "x = 3, not 4"}, {"7c", ""}});
    CHECK_THROWS_WITH(add_note(notes, "7b=again"), Contains("two notes"));
    CHECK_THROWS_WITH(add_note(notes, "sign of cos"), StartsWith("note 'sign of cos': write PART=TEXT"));
    CHECK_THROWS_AS(add_note(notes, "?=x"), Error);
}
