#include "exchange/csv/facts.hpp"

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
    ProblemList problems;
    Reading reading;
    for (const Fact& fact : read_facts_csv(in, {}, met, problems))
        reading.facts.push_back(fact.subject + "/" + fact.topic + ": " + fact.prompt + " = " + fact.answer);
    reading.problems = test::texts_of(problems.items);
    return reading;
}

const std::vector<Fact> on_file{{FactId{3}, "sin x", "cos x", "derivatives", "pure"},
                                {FactId{4}, "tan x", "sec^2 x", "", "pure"},
                                {FactId{5}, "cos x", "adjacent / hypotenuse", "", ""}};

} // namespace

TEST_CASE("facts are read in their order, with columns in any order and blanks at the ends left out") {
    const Reading reading =
        read("topic,answer,prompt\n derivatives ,\"cos x, always\", sin x\n,\t-sin x,cos x\n\n");
    CHECK(reading.problems.empty());
    CHECK(reading.facts == Texts{"pure/derivatives: sin x = cos x, always", "pure/: cos x = -sin x"});
    CHECK(read("prompt,answer\nsin x,cos x\n", {"", {}, false}).facts == Texts{"/: sin x = cos x"});
}

TEST_CASE("every bad cell of a file of facts is a problem with its place") {
    const Reading reading =
        read("prompt,answer,topic\n,cos x,\nsin x,,\ntan x,sec^2 x," + std::string(201, 't') +
             "\nsin x,cos x,\n" + std::string(301, 'p') + ",a\x01,\n");
    CHECK(reading.problems ==
          Texts{"2:1 prompt: give 1 to 300 characters, no blank at the ends",
                "3:7 answer: give 1 to 300 characters, no blank at the ends",
                "4:15 topic: at most 200 characters",
                "5:1 the prompt 'sin x' is there twice, first in line 3: each fact has one row",
                "6:1 prompt: at most 300 characters",
                "6:303 answer: no line breaks or control characters, please"});
}

TEST_CASE("a file that holds no facts says so") {
    CHECK(read("").problems == Texts{"0:0 the file is empty"});
    CHECK(read("prompt,answer\n").problems ==
          Texts{"1:0 there is no fact below the header: give each fact a row"});
    CHECK(read("prompt\nsin x\n").problems == Texts{"1:0 the header has no column answer: add it"});
    CHECK(read("prompt,answer,hint\nsin x,cos x,\n").problems ==
          Texts{"1:15 the column 'hint' is none of prompt, answer, topic: rename it or leave it out"});
    CHECK(read("prompt,answer\nsin x\n").problems.size() == 1);
    CHECK(read("prompt,answer\nsin x,\xFF\n").problems.size() == 1);
}

TEST_CASE("a fact that contradicts the one on file is a problem at the cell that does") {
    const Reading reading = read("topic,prompt,answer\nlimits,sin x,cos x\n,tan x,sec x\n,cos x,-sin x\n",
                                 {"pure", on_file, false});
    CHECK(
        reading.problems ==
        Texts{"2:1 the fact 'sin x' is on file with the topic 'derivatives': correct one of the two, or say "
              "--replace",
              "3:8 the fact 'tan x' is on file with the answer 'sec^2 x': correct one of the two, or say "
              "--replace"});
}

TEST_CASE("a fact that is on file already, or is told a topic, is no problem, and with replace none is") {
    CHECK(read("prompt,answer,topic\nsin x,cos x,\ntan x,sec^2 x,trig\n", {"pure", on_file, false})
              .problems.empty());
    CHECK(read("prompt,answer,topic\nsin x,-cos x,limits\n", {"pure", on_file, true}).problems.empty());
    CHECK(read("prompt,answer\nsin x,opposite / hypotenuse\n", {"", on_file, false}).problems.empty());
}
