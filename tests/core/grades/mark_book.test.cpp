#include "inkturn/grades/mark_book.hpp"

#include "award.hpp"
#include "boundary_set.hpp"
#include "catch.hpp"
#include "papers.hpp"

#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;
using Codes = std::vector<std::string>;

const auto first_paper = paper_of("pure-b", {10, 10}); // sat first, though its id comes second
const auto second_paper = paper_of("pure-a", {10, 10});
const auto longer_paper = paper_of("pure-c", {20, 20});

SittingOfPaper sitting_of(const std::string& code, int on, const std::shared_ptr<const Paper>& paper,
                          const std::string& line) {
    return {code, day(on), parse_line(*paper, line)};
}

PaperInBook first_in_book() {
    return {first_paper,
            {sitting_of("K01", 0, first_paper, "8 6+2"), sitting_of("K02", 1, first_paper, "5 5"),
             sitting_of("K03", 0, first_paper, "9 9")}};
}

PaperInBook second_in_book() {
    return {second_paper,
            {sitting_of("K01", 14, second_paper, "4 4"), sitting_of("K02", 14, second_paper, "5 6")}};
}

const Codes codes{"K01", "K02", "K03", "K04"};

MarkBook book_of(std::vector<PaperInBook> papers, const std::optional<BoundarySet>& set = {},
                 BookOrder order = BookOrder::code) {
    for (PaperInBook& paper : papers)
        paper.set = set;
    return mark_book(std::move(papers), codes, order);
}

Codes rows_of(const MarkBook& book) {
    Codes rows;
    for (const BookRow& row : book.rows)
        rows.push_back(row.candidate);
    return rows;
}

} // namespace

TEST_CASE("a mark book has its papers in the order in which they were sat, and everybody a row") {
    const MarkBook book = book_of({second_in_book(), first_in_book()});
    REQUIRE(book.papers.size() == 2);
    CHECK(book.papers[0]->id() == "pure-b");
    CHECK(rows_of(book) == codes);
    REQUIRE(book.rows[0].marks[0]);
    CHECK(book.rows[0].marks[0]->totals.in_time == Marks(14));
    CHECK(book.rows[0].marks[0]->totals.unaided() == Marks(16));
    CHECK_FALSE(book.rows[2].marks[1]);
    CHECK_FALSE(book.rows[3].marks[0]);
}

TEST_CASE("the change is from the paper sat before to the last one, in marks where the totals agree") {
    const MarkBook book = book_of({first_in_book(), second_in_book()});
    REQUIRE(book.rows[0].change);
    CHECK(book.rows[0].change->from == 0);
    CHECK(book.rows[0].change->marks->count() == -8);
    CHECK_THAT(book.rows[0].change->share, WithinAbs(-0.4, 1e-12));
    CHECK(book.rows[1].change->marks->count() == 1);
    CHECK_FALSE(book.rows[2].change); // absent from the last
    CHECK_FALSE(book.rows[3].change);
    CHECK_THAT(*book.median_change, WithinAbs((-0.4 + 0.05) / 2, 1e-12));

    const MarkBook longer = book_of(
        {first_in_book(),
         {longer_paper,
          {sitting_of("K02", 20, longer_paper, "10 5"), sitting_of("K04", 20, longer_paper, "1 1")}}});
    REQUIRE(longer.rows[1].change);
    CHECK_FALSE(longer.rows[1].change->marks);
    CHECK_THAT(longer.rows[1].change->share, WithinAbs(15.0 / 40 - 0.5, 1e-12));
}

TEST_CASE("who was absent from a paper is compared with the one before it") {
    PaperInBook last{
        longer_paper,
        {sitting_of("K03", 20, longer_paper, "18 18"), sitting_of("K04", 20, longer_paper, "9 9")}};
    const MarkBook book = book_of({first_in_book(), second_in_book(), last});
    REQUIRE(book.rows[2].change);
    CHECK(book.rows[2].change->from == 0);
    CHECK_THAT(book.rows[2].change->share, WithinAbs(0, 1e-12));
    CHECK_FALSE(book.median_change); // nobody sat the last two
    CHECK_FALSE(last_papers(book, 2).rows[2].change);
    CHECK(last_papers(book, 2).papers.size() == 2);
    CHECK(last_papers(book, 9).papers.size() == 3);
}

TEST_CASE("a paper that fewer than half sat compares nobody, and is the first to be left out") {
    const PaperInBook few{longer_paper, {sitting_of("K01", 20, longer_paper, "20 20")}};
    const MarkBook book = book_of({first_in_book(), second_in_book(), few}, {}, BookOrder::mark);
    CHECK(book.compared == std::vector<std::size_t>{0, 1});
    CHECK(sat_by(book, 2) == 1);
    CHECK(rows_of(book) == Codes{"K02", "K01", "K03", "K04"});
    CHECK(book.rows[1].change->marks->count() == -8); // K01, from the first paper to the second
    CHECK(missing_last(book) == std::vector<std::size_t>{2, 3});
    const MarkBook shown = last_papers(book, 2);
    REQUIRE(shown.papers.size() == 2);
    CHECK(shown.papers[0]->id() == "pure-b");
    CHECK(shown.papers[1]->id() == "pure-a");
    CHECK(shown.compared == std::vector<std::size_t>{0, 1});
    CHECK(last_papers(book, 3).papers.size() == 3);
}

TEST_CASE("where half sat no paper, those count that half as many sat as the most") {
    const auto sat_by_so_many = [&](const std::shared_ptr<const Paper>& paper, int on, std::size_t count) {
        PaperInBook in_book{paper, {}};
        for (std::size_t i = 0; i < count; ++i)
            in_book.sittings.push_back(sitting_of("P" + std::to_string(i), on, paper, "1 1"));
        return in_book;
    };
    Codes many;
    for (std::size_t i = 0; i < 10; ++i)
        many.push_back("P" + std::to_string(i));
    const auto compared = [&](std::size_t first, std::size_t second) {
        return mark_book({sat_by_so_many(first_paper, 0, first), sat_by_so_many(second_paper, 7, second)},
                         many, BookOrder::code)
            .compared;
    };
    CHECK(compared(4, 2) == std::vector<std::size_t>{0, 1});
    CHECK(compared(4, 1) == std::vector<std::size_t>{0});
    CHECK(compared(10, 5) == std::vector<std::size_t>{0, 1});
    CHECK(compared(10, 4) == std::vector<std::size_t>{0});
    CHECK(compared(0, 0).empty());
}

TEST_CASE("those who fell most and those who are missing are named") {
    const MarkBook book = book_of({first_in_book(), second_in_book()});
    CHECK(fell_most(book) == std::vector<std::size_t>{0});
    CHECK(missing_last(book) == std::vector<std::size_t>{2, 3});

    PaperInBook same = second_in_book();
    same.sittings = {sitting_of("K01", 14, second_paper, "8 8"), sitting_of("K02", 14, second_paper, "5 5")};
    CHECK(fell_most(book_of({first_in_book(), same})).empty());
    same.sittings = {sitting_of("K01", 14, second_paper, "8 7"), sitting_of("K02", 14, second_paper, "5 4")};
    CHECK(fell_most(book_of({first_in_book(), same})) == std::vector<std::size_t>{0, 1});
    CHECK(missing_last(book_of({})).empty());
}

TEST_CASE("rows by mark begin with the highest share of the last paper and end with the absent ones") {
    CHECK(rows_of(book_of({first_in_book(), second_in_book()}, {}, BookOrder::mark)) ==
          Codes{"K02", "K01", "K03", "K04"});
}

TEST_CASE("a grade is only given for a whole paper of the set's subject and total") {
    const BoundarySet set = set_of("spring", 20, {{"A", 15}, {"B", 9}});
    const MarkBook book = book_of({first_in_book()}, set);
    REQUIRE(book.rows[0].marks[0]->unaided);
    CHECK(book.rows[0].marks[0]->unaided->grade == 0);
    CHECK(book.rows[0].marks[0]->in_time->grade == 1);
    const auto has_grade = [](const MarkBook& one) { return one.rows[0].marks[0]->unaided.has_value(); };
    CHECK_FALSE(has_grade(book_of({first_in_book()})));
    CHECK_FALSE(has_grade(book_of({first_in_book()}, set_of("spring", 40, {{"A", 15}}))));
    CHECK_FALSE(has_grade(book_of({first_in_book()}, set_of("spring", 20, {{"A", 15}}, "mechanics"))));
    CHECK(has_grade(book_of({first_in_book()}, set_of("spring", 20, {{"A", 15}}, ""))));

    PaperInBook part = first_in_book();
    part.sittings = {sitting_of("K01", 0, first_paper, "8 not-set")};
    const MarkBook partly = book_of({part}, set_of("spring", 10, {{"A", 5}}));
    CHECK(partly.rows[0].marks[0]->totals.max == Marks(10));
    CHECK_FALSE(has_grade(partly));
}

TEST_CASE("what may be chance is nothing without two papers that have a standard error") {
    CHECK_FALSE(book_of({first_in_book()}).by_chance);
    const std::vector<std::string> lines{"8 2+4", "5 5+0+3", "3 5", "10 8", "0 2"};
    const auto sat_by_five = [&](const std::shared_ptr<const Paper>& paper, int on) {
        PaperInBook in_book{paper, {}};
        for (std::size_t i = 0; i < lines.size(); ++i)
            in_book.sittings.push_back(sitting_of("K0" + std::to_string(i + 1), on, paper, lines[i]));
        return in_book;
    };
    // The standard error of each is 2 of 20 marks: see class_standing.test.cpp.
    const MarkBook book = book_of({sat_by_five(first_paper, 0), sat_by_five(second_paper, 14)});
    REQUIRE(book.by_chance);
    CHECK_THAT(*book.by_chance, WithinAbs(1.96 * std::sqrt(0.02), 1e-9));
}

TEST_CASE("absent is who was said to be absent and has no marks") {
    PaperInBook first = first_in_book();
    first.absent = {"K01", "K04"};
    const MarkBook book = book_of({first, second_in_book()});
    CHECK_FALSE(book.rows[0].absent[0]); // sat it after all
    CHECK(book.rows[3].absent[0]);
    CHECK_FALSE(book.rows[3].absent[1]);
    CHECK(last_papers(book, 1).rows[3].absent == std::vector<bool>{false});
}

TEST_CASE("a paper has the set of its subject and total, else that of its component, never one of an award") {
    const Award award = three_papers();
    const auto paper = paper_of_component("p1", 100, "Paper 1");
    const std::vector<GradeBoundary> grades{{"A", Marks(80)}};
    const BoundarySet whole = set_of_award("2019", award, {{"A", Marks(200)}});
    const BoundarySet component = set_of_component("2019", award, 0, grades);
    const BoundarySet other = set_of_component("2019", award, 1, grades);
    const BoundarySet plain{"2019", "", Marks(100), {{"A", Marks(70)}}};
    CHECK_FALSE(set_for_paper(*paper, {whole, other}, {award}));
    CHECK(set_for_paper(*paper, {whole, other, component}, {award})->component == "Paper 1");
    CHECK(set_for_paper(*paper, {plain, component}, {award})->grades[0].mark == Marks(70));
    CHECK(set_for_paper(*paper, {component, plain}, {award})->grades[0].mark == Marks(70));
    CHECK_FALSE(set_for_paper(*first_paper, {plain}, {award}));
}
