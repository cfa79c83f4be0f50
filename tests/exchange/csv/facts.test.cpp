#include "exchange/csv/facts.hpp"
#include "exchange/csv/csv.hpp"

#include "catch.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Texts = std::vector<std::string>;

struct Reading {
    Texts facts;
    Texts problems;
};

Reading read(const std::string& text, const FactsContext& met = {"pure", {}, false}) {
    std::istringstream in(text);
    CsvReader rows(in, {});
    ProblemList problems;
    Reading reading;
    for (const Fact& fact : read_facts_rows(rows, met, problems))
        reading.facts.push_back(fact.subject + "/" + fact.topic + ": " + fact.prompt + " = " + fact.answer);
    reading.problems = test::texts_of(problems.items);
    return reading;
}

const std::vector<Fact> on_file{{FactId{3}, "a^(0)", "1", "indices", "pure"},
                                {FactId{4}, "a^(2)", "a * a", "", "pure"},
                                {FactId{5}, "a^(1)", "a alone", "", ""}};

} // namespace

TEST_CASE("facts are read in their order, with columns in any order and blanks at the ends left out") {
    const Reading reading = read("topic,answer,prompt\n indices ,\"1, always\", a^(0)\n,\ta,a^(1)\n\n");
    CHECK(reading.problems.empty());
    CHECK(reading.facts == Texts{"pure/indices: a^(0) = 1, always", "pure/: a^(1) = a"});
    CHECK(read("prompt,answer\na^(0),1\n", {"", {}, false}).facts == Texts{"/: a^(0) = 1"});
}

TEST_CASE("every bad cell of a file of facts is a problem with its place") {
    const Reading reading = read("prompt,answer,topic\n,1,\na^(0),,\na^(2),a * a," + std::string(201, 't') +
                                 "\na^(0),1,\n" + std::string(301, 'p') + ",a\x01,\n");
    CHECK(reading.problems ==
          Texts{"2:1 prompt: give 1 to 300 characters, no spaces at either end",
                "3:7 answer: give 1 to 300 characters, no spaces at either end",
                "4:13 topic: at most 200 characters",
                "5:1 the prompt 'a^(0)' appears twice, first in line 3: give each fact one row",
                "6:1 prompt: at most 300 characters",
                "6:303 answer: no line breaks or control characters, please"});
}

TEST_CASE("a file without facts is a problem") {
    CHECK(read("").problems == Texts{"0:0 the file is empty"});
    CHECK(read("prompt,answer\n").problems == Texts{"1:0 no facts below the header: give each fact a row"});
    CHECK(read("prompt\na^(0)\n").problems == Texts{"1:0 the header has no column answer: add it"});
    CHECK(read("prompt,answer,hint\na^(0),1,\n").problems ==
          Texts{"1:15 the column 'hint' is not one of prompt, answer, topic: rename it or leave it out"});
    CHECK(read("prompt,answer\na^(0)\n").problems.size() == 1);
    CHECK(read("prompt,answer\na^(0),\xFF\n").problems.size() == 1);
}

TEST_CASE("a fact that contradicts the one on file is a problem at the cell that does") {
    const Reading reading =
        read("topic,prompt,answer\nlimits,a^(0),1\n,a^(2),a + a\n,a^(1),a\n", {"pure", on_file, false});
    CHECK(reading.problems ==
          Texts{"2:1 the fact 'a^(0)' is on file with the topic 'indices': correct one of the two, or use "
                "--replace",
                "3:8 the fact 'a^(2)' is on file with the answer 'a * a': correct one of the two, or use "
                "--replace"});
}

TEST_CASE("a fact that is on file already, or is given a topic, is fine, and with replace everything is") {
    CHECK(
        read("prompt,answer,topic\na^(0),1,\na^(2),a * a,trig\n", {"pure", on_file, false}).problems.empty());
    CHECK(read("prompt,answer,topic\na^(0),0,limits\n", {"pure", on_file, true}).problems.empty());
    CHECK(read("prompt,answer\na^(0),one\n", {"", on_file, false}).problems.empty());
}
