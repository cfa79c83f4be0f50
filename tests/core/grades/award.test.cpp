#include "inkturn/grades/award.hpp"

#include "award.hpp"
#include "catch.hpp"
#include "refusal.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

std::string refused(const Award& award) {
    return refusal_of([&] { check_award(award); });
}

} // namespace

TEST_CASE("an award is out of what its components bring at full marks, options as often as they count") {
    CHECK(three_papers().total() == Marks(300));
    CHECK(two_of_three().total() == Marks(300));
    CHECK(two_units().total() == Marks(200));
    CHECK(refused(three_papers()).empty());
    CHECK(refused(two_of_three()).empty());
    CHECK(refused(two_units()).empty());
}

TEST_CASE("weights multiply marks exactly, and the sum is rounded once, a half up") {
    Award award{"Weighted", "", {{"Paper 1", Marks(80), parse_weight("1.25", "weight")}}, {}};
    CHECK(award.total() == Marks(100));
    award.components.push_back({"Paper 2", Marks(3), parse_weight("0.5", "weight")});
    CHECK(award.total() == Marks(102)); // 101.5
    award.components.push_back({"Paper 3", Marks(3), parse_weight("0.3333", "weight")});
    CHECK(award.total() == Marks(102)); // 102.4999
}

TEST_CASE("a weight has at most four decimals, and is written with as few as it takes") {
    for (const char* text : {"1", "1.25", "0.0001", "100", "2.5", "0.6667"})
        CHECK(to_text(parse_weight(text, "weight")) == text);
    CHECK(to_text(parse_weight("1.500", "weight")) == "1.5");
    CHECK(parse_weight("1.0000", "weight") == Weight());
    for (const char* text :
         {"", "0", "0.0000", "100.0001", "101", "1.", ".5", "1.23456", "-1", "1,5", "1e2", "x"})
        CHECK_THAT(refusal_of([&] { parse_weight(text, "weight"); }),
                   Contains("give a number above 0, up to 100, with at most four decimals"));
}

TEST_CASE("an award is refused that can't be added up") {
    Award award = two_of_three();
    award.components[1].marks = Marks(80);
    CHECK_THAT(refused(award), Contains("all must bring equally much"));
    award.components[1].weight = parse_weight("0.9375", "weight"); // 80 marks bring 75
    CHECK(refused(award).empty());
    award.choices[0].count = 3;
    CHECK_THAT(refused(award), Contains("give at least 1, and fewer than there are"));
    award.choices[0].count = 2;
    award.choices.push_back({{0, 3}, 1});
    CHECK_THAT(refused(award), Contains("Decision is in two choices"));

    Award doubled = three_papers();
    doubled.components[2].name = "Paper 1";
    CHECK_THAT(refused(doubled), Contains("component Paper 1 appears twice"));
    doubled.components[2].name = "Paper=3";
    CHECK_THAT(refused(doubled), Contains("none of = * and comma"));
    CHECK_THAT(refused({"", "", {{"Paper 1", Marks(1)}}, {}}), Contains("needs a name"));
    CHECK_THAT(refused({"A", "", {}, {}}), Contains("give 1 to 30 components"));
    CHECK_THAT(refused({"A", "", {{"Paper 1", Marks(0)}}, {}}), Contains("its marks can't be 0"));

    Award mixed = two_units();
    mixed.components[1].uniform.reset();
    CHECK_THAT(refused(mixed), Contains("give all of them one, or none"));
    mixed.components[1].uniform = Marks(100);
    mixed.components[1].weight = parse_weight("2", "weight");
    CHECK_THAT(refused(mixed), Contains("leave the other weight out"));
}

TEST_CASE("a paper belongs to the component it names, of an award for its subject, and has its marks") {
    const std::vector<Award> awards{three_papers()};
    const auto paper = paper_of_component("p", 100, "Paper 2");
    REQUIRE(component_of(*paper, awards));
    CHECK(component_of(*paper, awards)->component == 1);
    CHECK(refusal_of([&] { check_component(*paper, awards); }).empty());
    CHECK_FALSE(component_of(*paper_of("q", {100}), awards));
    CHECK(refusal_of([&] { check_component(*paper_of("q", {100}), awards); }).empty());
    CHECK_THAT(refusal_of([&] { check_component(*paper_of_component("p", 99, "Paper 2"), awards); }),
               Contains("paper p has 99 marks, but papers of Paper 2 have 100"));
    CHECK_THAT(refusal_of([&] { check_component(*paper_of_component("p", 100, "Paper 4"), awards); }),
               Contains("has a component 'Paper 4': there are Paper 1, Paper 2, Paper 3"));
    const Paper other({"m", "", "mechanics", {}, RetryBy::question, {}, "Paper 2"}, parts_of({100}));
    CHECK_THAT(refusal_of([&] { check_component(other, awards); }),
               Contains("no award on file for mechanics"));
    const Paper bare({"b", "", "", {}, RetryBy::question, {}, "Paper 2"}, parts_of({100}));
    CHECK(refusal_of([&] { check_component(bare, awards); }) ==
          "paper b has no subject, and the awards on file are for pure: give --subject too");
    CHECK(refusal_of([&] { check_component(bare, {}); }) ==
          "no award on file has a component 'Paper 2'; add it with 'inkturn award add'");
    Award any = three_papers();
    any.subject.clear();
    CHECK(component_of(other, {any}));
}

TEST_CASE("two awards for one subject share no component's name") {
    Award other = three_papers();
    other.name = "AS";
    CHECK_THAT(refusal_of([&] { check_apart(other, three_papers()); }), Contains("would belong to both"));
    other.subject = "mechanics";
    CHECK(refusal_of([&] { check_apart(other, three_papers()); }).empty());
    other.subject.clear();
    CHECK_FALSE(refusal_of([&] { check_apart(other, three_papers()); }).empty());
    other.components = {{"AS Paper 1", Marks(80)}};
    CHECK(refusal_of([&] { check_apart(other, three_papers()); }).empty());
}

TEST_CASE(
    "a boundary set of an award or a component is out of its marks, uniform marks where they are added up") {
    const auto refused_set = [](const BoundarySet& set, const Award& award) {
        return refusal_of([&] { check_is_of(set, award); });
    };
    CHECK(refused_set(set_of_award("S", three_papers(), {{"A", Marks(200)}}), three_papers()).empty());
    BoundarySet other = set_of_award("S", three_papers(), {{"A", Marks(200)}});
    other.total = Marks(299);
    CHECK_THAT(refused_set(other, three_papers()),
               Contains("is out of 299, but award 'A level' is out of 300"));
    CHECK(refused_set(set_of_component("S", three_papers(), 0, {{"A", Marks(70)}}), three_papers()).empty());
    CHECK_THAT(refused_set(set_of_component("S", three_papers(), 0, {{"A", Marks(70)}}, {Marks(80)}),
                           three_papers()),
               Contains("the award has no uniform marks"));
    CHECK_THAT(refused_set(set_of_component("S", two_units(), 0, {{"A", Marks(60)}}), two_units()),
               Contains("give each grade its uniform mark too"));
    CHECK(refused_set(set_of_component("S", two_units(), 0, {{"A", Marks(60)}}, {Marks(80)}), two_units())
              .empty());
    CHECK_FALSE(
        refused_set(set_of_component("S", two_units(), 0, {{"A", Marks(60)}}, {Marks(100)}), two_units())
            .empty());
    CHECK_FALSE(
        refused_set(set_of_component("S", two_units(), 0, {{"A", Marks(75)}}, {Marks(80)}), two_units())
            .empty());
    BoundarySet nobodys = set_of_component("S", three_papers(), 0, {{"A", Marks(70)}});
    nobodys.component = "Paper 9";
    CHECK_THAT(refused_set(nobodys, three_papers()), Contains("has no component 'Paper 9'"));
}
