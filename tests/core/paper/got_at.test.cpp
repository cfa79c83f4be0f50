#include "inkturn/paper/got_at.hpp"
#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/paper.hpp"

#include <string>

using namespace inkturn;
using Catch::Matchers::Contains;

namespace {

Paper essay(std::optional<GotAt> of_paper, std::optional<GotAt> of_part, int max = 25) {
    return Paper({"essay", "", "", {}, RetryBy::question, of_paper},
                 {{"1", Marks(max), "", "", of_part}, {"2", Marks(max), "", ""}});
}

bool is_missed_at(const Paper& paper, std::size_t part, const std::string& marks) {
    return is_missed(paper, paper.parts()[part], parse_part_marks(marks, paper.parts()[part].max));
}

} // namespace

TEST_CASE("a share got at is read with and without its sign") {
    CHECK(parse_got_at("80%") == GotAt(80));
    CHECK(parse_got_at("80") == GotAt(80));
    CHECK(parse_got_at("1").percent() == 1);
    CHECK(parse_got_at("100%") == GotAt());
    CHECK(to_text(GotAt(80)) == "80%");
}

TEST_CASE("a share got at is 1% to 100%") {
    for (const char* text : {"", "%", "0", "0%", "101", "101%", "80%%", "8e1", "-1", "80 %"}) {
        CAPTURE(text);
        CHECK_THROWS_WITH(parse_got_at(text), Contains("1% to 100%"));
    }
    CHECK_THROWS_AS(GotAt(0), Error);
    CHECK_THROWS_AS(GotAt(101), Error);
    CHECK(GotAt(1).percent() == 1);
}

TEST_CASE("an essay of 25 marks got at 80% is missed at 19, and not at 20, 21 or 22") {
    const Paper paper = essay(GotAt(80), {});
    CHECK(is_missed_at(paper, 0, "19"));
    CHECK_FALSE(is_missed_at(paper, 0, "20"));
    CHECK_FALSE(is_missed_at(paper, 0, "21"));
    CHECK_FALSE(is_missed_at(paper, 0, "22"));
    CHECK_FALSE(is_missed_at(paper, 0, "25"));
    CHECK(is_missed_at(paper, 0, "-"));
}

TEST_CASE("marks in overtime count towards the share, and corrected ones do not") {
    const Paper paper = essay(GotAt(80), {});
    CHECK_FALSE(is_missed_at(paper, 0, "15+5"));
    CHECK(is_missed_at(paper, 0, "15+4+6"));
}

TEST_CASE("a share that is no whole number of marks is missed just below it") {
    const Paper paper = essay(GotAt(75), {}, 10);
    CHECK(is_missed_at(paper, 0, "7"));
    CHECK_FALSE(is_missed_at(paper, 0, "8"));
    const Paper least = essay(GotAt(1), {}, 10);
    CHECK(is_missed_at(least, 0, "0"));
    CHECK_FALSE(is_missed_at(least, 0, "1"));
}

TEST_CASE("a part's own share comes before its paper's, and without either all marks are asked for") {
    const Paper own = essay(GotAt(80), GotAt(60));
    CHECK(got_at(own, own.parts()[0]) == GotAt(60));
    CHECK(got_at(own, own.parts()[1]) == GotAt(80));
    CHECK_FALSE(is_missed_at(own, 0, "15"));
    CHECK(is_missed_at(own, 1, "15"));
    const Paper stricter = essay(GotAt(80), GotAt(100));
    CHECK(is_missed_at(stricter, 0, "24"));
    const Paper none = essay({}, {});
    CHECK(got_at(none, none.parts()[0]) == GotAt(100));
    CHECK(is_missed_at(none, 0, "24"));
    CHECK_FALSE(is_missed_at(none, 0, "25"));
}

TEST_CASE("a paper without shares got at takes those of another, and keeps its own") {
    const Paper completed_here = completed(essay({}, {}), essay(GotAt(80), GotAt(60)));
    CHECK(completed_here.got_at() == GotAt(80));
    CHECK(completed_here.parts()[0].got_at == GotAt(60));
    CHECK_FALSE(completed_here.parts()[1].got_at.has_value());
    const Paper kept = completed(essay(GotAt(70), GotAt(50)), essay(GotAt(80), GotAt(60)));
    CHECK(kept.got_at() == GotAt(70));
    CHECK(kept.parts()[0].got_at == GotAt(50));
}
