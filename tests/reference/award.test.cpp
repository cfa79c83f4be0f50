#include "inkturn/grades/award_standing.hpp"

#include "award.hpp"
#include "catch.hpp"
#include "inkturn/grades/uniform_mark.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::vector<Marks> marks_of(const std::vector<int>& counts) {
    std::vector<Marks> marks;
    for (const int count : counts)
        marks.emplace_back(count);
    return marks;
}

} // namespace

TEST_CASE(
    "AQA, Guide to the uniform mark scale, section 5.1 (as copied on educationdocbox.com): the cap lies "
    "twice the width from B to A above A; in an AS unit of 80 marks, 120 of them uniform, 73 raw marks and "
    "all above get 120. The boundaries A at 61 and B at 55, which bring that cap, are from memory",
    "[reference]") {
    const Marks a(61);
    const Marks b(55);
    BoundarySet set{"AS unit", "", Marks(80), {{"A", a}, {"B", b}}};
    set.cap = Marks(a.count() + 2 * (a.count() - b.count()));
    set.uniform = marks_of({96, 84});
    CHECK(set.cap == Marks(73));
    const UniformScale scale = uniform_scale(set, set.uniform, Marks(120));
    for (int raw = 73; raw <= 80; ++raw)
        CHECK(scaled(scale, Marks(raw)) == Marks(120));
    CHECK(scaled(scale, Marks(72)) == Marks(118)); // as steep as from B to A
    CHECK(scaled(scale, Marks(61)) == Marks(96));
    CHECK(raw_for(scale, Marks(120)) == Marks(73));
    CHECK(raw_for(scale, Marks(96)) == Marks(61));
}

TEST_CASE(
    "OCR, unit F410 in 2009 (as worked on ehow.co.uk from OCR's table): C from 66 raw marks in a width of "
    "10, from 72 uniform marks in a width of 12: 72 raw marks are 79.2, so 79",
    "[reference]") {
    const BoundarySet set{"2009", "", Marks(100), {{"B", Marks(76)}, {"C", Marks(66)}}};
    CHECK(scaled(uniform_scale(set, marks_of({84, 72})), Marks(72)) == Marks(79));
}

TEST_CASE(
    "Pearson Edexcel, uniform marks of units (as copied on studentforums.biz): six units, four of 90 and "
    "two of 120, are an A level of 600, whose A is 480 and E is 240: 80% and 40% in each unit add up to "
    "these",
    "[reference]") {
    Award award{"A level", "", {}, {}};
    for (int i = 1; i <= 6; ++i)
        award.components.push_back(
            {"Unit " + std::to_string(i), Marks(75), Weight(), Marks(i <= 4 ? 90 : 120)});
    check_award(award);
    CHECK(award.total() == Marks(600));

    Candidate candidate;
    std::vector<BoundarySet> sets{set_of_award("any", award, {{"A", Marks(480)}, {"E", Marks(240)}})};
    for (int i = 0; i < 6; ++i) {
        const bool is_90 = i < 4;
        sets.push_back(set_of_component("any", award, static_cast<std::size_t>(i),
                                        {{"A", Marks(60)}, {"E", Marks(30)}},
                                        is_90 ? marks_of({72, 36}) : marks_of({96, 48})));
        candidate.sittings.push_back(
            sat(i + 1,
                paper_of_component("u" + std::to_string(i), 75,
                                   award.components[static_cast<std::size_t>(i)].name),
                "60"));
    }
    const AwardStanding standing = award_standing(award, candidate, sets);
    CHECK(standing.under.at(0).reached.in_time.low == Marks(480));
    CHECK(standing.under.at(0).reached.in_time.low_grade.clear == Marks(0));
}

TEST_CASE(
    "OCR, Calculating linear grades (ocr.org.uk, general qualifications, results): three components of 50 "
    "marks worth 50%, 25% and 25% have the weights 2, 1 and 1, and 200 weighted marks together",
    "[reference]") {
    const Award award{"Linear",
                      "pure",
                      {{"1", Marks(50), parse_weight("2", "weight")}, {"2", Marks(50)}, {"3", Marks(50)}},
                      {}};
    CHECK(award.total() == Marks(200));
    CHECK(weighted(award.components[0], Marks(50)) * 2 == WeightedMarks{200} * Weight::unit);
    Candidate candidate;
    for (int i = 1; i <= 3; ++i)
        candidate.sittings.push_back(
            sat(i, paper_of_component("p" + std::to_string(i), 50, std::to_string(i)), "30"));
    const AwardStanding standing =
        award_standing(award, candidate, {set_of_award("2019", award, {{"A", Marks(120)}})});
    CHECK(standing.under.at(0).reached.in_time.low == Marks(120)); // 60 + 30 + 30
}

TEST_CASE(
    "OCR, Cambridge Nationals, Calculating unitised grades (ocr.org.uk): of a unit taken more than once "
    "the latest result counts",
    "[reference]") {
    const Award award = three_papers();
    Candidate candidate;
    candidate.sittings = {sat(1, paper_of_component("first", 100, "Paper 1"), "70"),
                          sat(2, paper_of_component("second", 100, "Paper 1"), "60")};
    CHECK(component_bases(award, candidate).at(0).sitting->paper->id() == "second");
}
