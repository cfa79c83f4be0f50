#include "inkturn/paper/paper.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;

PaperHead head(RetryBy by = RetryBy::question) {
    return {"made-up", "", "", {}, by};
}

Part part(const std::string& label, int marks, const std::string& codes = "") {
    return {label, Marks(marks), "", codes};
}

std::vector<std::string> labels_of(const std::vector<Question>& questions) {
    std::vector<std::string> labels;
    for (const Question& question : questions)
        labels.push_back(question.label);
    return labels;
}

} // namespace

TEST_CASE("parts that share a leading number are one question, in the order of their first parts") {
    const Paper paper(head(), {part("2a", 3), part("1", 5), part("Q2 (b)", 4), part("A2", 1)});
    CHECK(paper.marks() == Marks(13));
    CHECK(labels_of(paper.questions()) == std::vector<std::string>{"2", "1", "A2"});
    CHECK(paper.questions()[0].parts == std::vector<std::size_t>{0, 2});
    CHECK(paper.questions()[0].marks == Marks(7));
}

TEST_CASE("a paper that retries by part has a question a part") {
    const Paper paper(head(RetryBy::part), {part("2a", 3), part("2b", 5)});
    CHECK(labels_of(paper.questions()) == std::vector<std::string>{"2a", "2b"});
    CHECK(paper.questions()[1].parts == std::vector<std::size_t>{1});
}

TEST_CASE("parts and questions are found by their short labels") {
    const Paper paper(head(), {part("1", 5), part("Q2 (a)", 3)});
    CHECK(paper.find_part("2a") == std::size_t{1});
    CHECK_FALSE(paper.find_part("2").has_value());
    CHECK(paper.find_question("2") == std::size_t{1});
    CHECK_FALSE(paper.find_question("2a").has_value());
}

TEST_CASE("a part may not be there twice, in whatever form it is written") {
    CHECK_THROWS_WITH(Paper(head(), {part("7b", 1), part("Q7 (b)", 2)}),
                      "part 7b is there twice: each part has one row");
}

TEST_CASE("a paper has 1 to 500 parts of 1 to 500 marks") {
    CHECK_THROWS_AS(Paper(head(), {}), Error);
    CHECK_THROWS_AS(Paper(head(), {part("1", 0)}), Error);
    CHECK_THROWS_AS(Paper(head(), {part("1", -1)}), Error);
    CHECK_NOTHROW(Paper(head(), {part("1", 500)}));
    CHECK_THROWS_AS(Paper(head(), {part("1", 501)}), Error);
    std::vector<Part> parts;
    for (int number = 1; number <= 500; ++number)
        parts.push_back(part(std::to_string(number), 1));
    CHECK_NOTHROW(Paper(head(), parts));
    parts.push_back(part("A1", 1));
    CHECK_THROWS_AS(Paper(head(), parts), Error);
}

TEST_CASE("a stated duration is a minute to a day") {
    PaperHead stated = head();
    for (const int seconds : {60, 86400}) {
        stated.duration = Seconds(seconds);
        CHECK_NOTHROW(Paper(stated, {part("1", 1)}));
    }
    for (const int seconds : {0, 59, 86401, -60}) {
        stated.duration = Seconds(seconds);
        CHECK_THROWS_AS(Paper(stated, {part("1", 1)}), Error);
    }
}

TEST_CASE("a paper's id is lower-case letters, digits, dots, dashes and underscores") {
    for (const char* const id : {"a", "2026.pure_1-b", ".x"})
        CHECK_NOTHROW(check_paper_id(id));
    CHECK_NOTHROW(check_paper_id(std::string(64, 'x')));
    for (const char* const id : {"", "Pure", "a b", "a/b", "-a", "\xC3\xA9", "a\n"}) {
        CAPTURE(id);
        CHECK_THROWS_AS(check_paper_id(id), Error);
    }
    CHECK_THROWS_AS(check_paper_id(std::string(65, 'x')), Error);
}

TEST_CASE("titles, subjects and topics are printable and at most 200 characters") {
    PaperHead named = head();
    named.title = std::string(201, 'x');
    CHECK_THROWS_AS(Paper(named, {part("1", 1)}), Error);
    named = head();
    named.subject = "a\x1b[2J";
    CHECK_THROWS_AS(Paper(named, {part("1", 1)}), Error);
    CHECK_THROWS_AS(Paper(head(), {{"1", Marks(1), "\xFF", ""}}), Error);
}

TEST_CASE("a part's codes add up to its marks") {
    CHECK_NOTHROW(Paper(head(), {part("1", 3, "M1 A1 B1")}));
    CHECK_THROWS_WITH(Paper(head(), {part("1", 4, "M1 A1 B1")}),
                      "part 1: the codes M1 A1 B1 add up to 3, the part has 4");
}

TEST_CASE("a paper is completed by what another states of it, part by part of the same marks") {
    const Paper bare({"p1", "", "", Seconds(3600), RetryBy::part},
                     {part("1", 3), {"2", Marks(4), "series", ""}, part("3", 5), part("4", 2)});
    const Paper stated({"other", "A title", "pure", Seconds(60), RetryBy::question},
                       {{"2", Marks(4), "surds", "M2 A2"},
                        {"3", Marks(6), "vectors", ""},
                        {"1", Marks(3), "logs", "M1 A1 B1"},
                        {"5", Marks(2), "proof", ""}});
    const Paper both = completed(bare, stated);
    CHECK(both.id() == "p1");
    CHECK(both.title() == "A title");
    CHECK(both.subject() == "pure");
    CHECK(both.duration() == Seconds(3600));
    CHECK(both.retry_by() == RetryBy::part);
    std::string text;
    for (const Part& one : both.parts())
        text += one.label + " " + one.topic + " " + one.codes + "; ";
    CHECK(text == "1 logs M1 A1 B1; 2 series M2 A2; 3  ; 4  ; ");
    CHECK(completed(stated, bare).title() == "A title");
    CHECK(completed(stated, bare).parts()[0].topic == "surds");
}

TEST_CASE("what a paper retries by is named as it is read") {
    CHECK(retry_by_named(name(RetryBy::question)) == RetryBy::question);
    CHECK(retry_by_named(name(RetryBy::part)) == RetryBy::part);
    CHECK_FALSE(retry_by_named("").has_value());
}
