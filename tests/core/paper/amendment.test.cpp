#include "inkturn/paper/amendment.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "refusal.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Lines = std::vector<std::string>;

Paper example() {
    return Paper({"pure-a", "", "pur", Seconds(1800), RetryBy::question},
                 {{"1", Marks(4), "series", "M1 A1 B2"}, {"2a", Marks(5), "vectros", ""}});
}

Paper amended_by(const std::vector<std::string>& texts) {
    PaperAmendment amendment;
    for (const std::string& text : texts)
        amendment.parts.push_back(parse_part_amendment(text));
    return amended(example(), amendment);
}

Part part(int max, const std::string& codes) {
    return {"1", Marks(max), "", codes};
}

PartMarks by_code(std::uint32_t bits, int earned, int max) {
    PartMarks marks({Marks(earned)}, Marks(max));
    marks.state_by_code(bits, Marks(max));
    return marks;
}

} // namespace

TEST_CASE("what isn't stated of a paper stays as it was") {
    const Paper same = amended(example(), {});
    CHECK(differences(example(), same).empty());
    CHECK(same.duration() == Seconds(1800));
    PaperAmendment head;
    head.title = "Pure, paper A";
    head.subject = "pure";
    head.duration = Seconds(1500);
    CHECK(differences(example(), amended(example(), head)) ==
          Lines{"title: none -> Pure, paper A", "subject: pur -> pure", "time: 30:00 -> 25:00"});
}

TEST_CASE("parts are amended by label, several things at once") {
    CHECK(differences(example(), amended_by({"Q2 (a):topic=vectors", "1:marks=5", "1:codes=M1 A2 B2"})) ==
          Lines{"1 codes: M1 A1 B2 -> M1 A2 B2", "1 marks: 4 -> 5", "2a topic: vectros -> vectors"});
    CHECK(differences(example(), amended_by({"1:codes=", "1:topic="})) ==
          Lines{"1 topic: series -> none", "1 codes: M1 A1 B2 -> none"});
    CHECK(amended_by({"2a:topic=x=y:z"}).part(1).topic == "x=y:z");
}

TEST_CASE("an amendment that can't be read, or makes no paper, is refused") {
    for (const std::string text : {"topic=vectors", "1:topic", "1:minutes=3", "1=topic:x", "1:=x", ""}) {
        CAPTURE(text);
        CHECK_THROWS_WITH(parse_part_amendment(text), Contains("write PART:topic=TOPIC"));
    }
    CHECK_THROWS_AS(parse_part_amendment("1-:topic=a"), Error);
    CHECK_THROWS_WITH(parse_part_amendment("1:marks=0"), Contains("from 1 to 500"));
    CHECK_THROWS_WITH(parse_part_amendment("1:marks=2.5"), Contains("part 1, marks '2.5'"));
    CHECK_THROWS_WITH(amended_by({"3:topic=x"}), Contains("has no part 3"));
    CHECK_THROWS_WITH(amended_by({"1:marks=5"}), Contains("add up to 4, but the part has 5"));
}

TEST_CASE("marks fit a part as amended up to its maximum") {
    const PartMarks three({Marks(2), Marks(1)}, Marks(5));
    CHECK(still_fits(three, part(5, ""), part(3, "")));
    CHECK_FALSE(still_fits(three, part(5, ""), part(2, "")));
    CHECK(still_fits(PartMarks(), part(5, ""), part(1, "")));
    const PartMarks slip({Marks(3)}, Marks(5), Reason::slip);
    CHECK(still_fits(slip, part(5, ""), part(4, "")));
    CHECK_FALSE(still_fits(slip, part(5, ""), part(3, ""))); // nothing was lost that a slip could explain
}

TEST_CASE("marks earned by code fit as long as each code keeps its place") {
    const PartMarks marks = by_code(0b101U, 2, 4); // the method and the first B
    const Part was = part(4, "M1 A1 B2");
    CHECK(still_fits(marks, was, part(4, "M1 M1 A2")));
    CHECK(still_fits(marks, was, part(5, "M1 A1 B3")));
    CHECK(still_fits(marks, was, part(3, "M1 A1 B1")));
    CHECK_FALSE(still_fits(marks, was, part(2, "M1 A1"))); // its mark is gone
    CHECK_FALSE(still_fits(marks, was, part(4, "M1 A2 B1")));
    CHECK_FALSE(still_fits(marks, was, part(4, "")));
}
