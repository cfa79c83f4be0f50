#include "exchange/csv/wishes.hpp"
#include "exchange/csv/csv.hpp"

#include "catch.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Matches;
using Texts = std::vector<std::string>;

struct Reading {
    Texts wishes;
    Texts problems;
};

Reading read(const std::string& text) {
    std::istringstream in(text);
    CsvReader rows(in, {});
    ProblemList problems;
    Reading reading;
    for (const Wish& wish : read_wishes_rows(rows, {{"K01", "K02"}, {"surds", "vectors"}}, problems))
        reading.wishes.push_back(wish.candidate + "/" + wish.topic);
    reading.problems = test::texts_of(problems.items);
    return reading;
}

TEST_CASE("wishes are read in their order, an empty topic standing for any") {
    const Reading reading = read("topic;candidate\nvectors;K02\n;K01\nsurds;K02\n");
    CHECK(reading.problems.empty());
    CHECK(reading.wishes == Texts{"K02/vectors", "K01/", "K02/surds"});
}

TEST_CASE("a wish for what is not there is a problem with its place") {
    const Reading reading = read("candidate,topic\nK03,surds\nK01,integrals\nK01,surds\nK01,surds\n");
    REQUIRE(reading.problems.size() == 3);
    CHECK_THAT(reading.problems[0], Matches("2:1 candidate 'K03' is not among .*"));
    CHECK_THAT(reading.problems[1],
               Matches("3:5 nobody who can be seated has met the topic 'integrals': .*"));
    CHECK_THAT(reading.problems[2], Matches("5:0 the wish is already in line 4"));
}

TEST_CASE("a file without wishes is a problem") {
    CHECK_THAT(read("candidate,topic\n").problems.at(0), Matches("1:0 no wishes .*"));
    CHECK_THAT(read("candidate\nK01\n").problems.at(0), Matches("1:0 .*topic.*"));
    CHECK_FALSE(read("").problems.empty());
    CHECK(read("candidate,topic\nK01\n").problems.size() == 1);
}

} // namespace
