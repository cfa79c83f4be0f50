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

/// `K01/surds, vectors/2026-12-05 /asked/remark`.
std::string text(const Wish& wish) {
    std::string all = wish.candidate + "/" + topics_text(wish.topics) + "/";
    for (const Day day : wish.dates)
        all += iso(day) + " ";
    all += "/";
    if (wish.asked_on)
        all += iso(*wish.asked_on) + "+" + std::to_string(wish.asked_time.count());
    return all + "/" + wish.remark;
}

Reading read(const std::string& text_of_file) {
    std::istringstream in(text_of_file);
    CsvReader rows(in, {});
    ProblemList problems;
    Reading reading;
    for (const Wish& wish : read_wishes_rows(rows, {{"surds", "vectors"}, {"K09"}}, problems))
        reading.wishes.push_back(text(wish));
    reading.problems = test::texts_of(problems.items);
    return reading;
}

} // namespace

TEST_CASE("wishes are read a candidate each, in their order, an empty topic standing for any") {
    const Reading reading = read("topic;candidate\nvectors;K02\n;K01\nsurds;K02\n");
    CHECK(reading.problems.empty());
    CHECK(reading.wishes == Texts{"K02/surds, vectors///", "K01////"});
}

TEST_CASE("a wish may have several topics and dates in a cell, when it was asked, and a remark") {
    const Reading reading = read("candidate,topics,dates,asked,remarks\n"
                                 "K02,vectors; surds,2026-12-08;2026-12-05,2026-11-25 16:05,since the mock\n"
                                 "K01,,,2026-11-24,\n");
    CHECK(reading.problems.empty());
    CHECK(reading.wishes == Texts{"K02/surds, vectors/2026-12-05 2026-12-08 /2026-11-25+57900/since the mock",
                                  "K01///2026-11-24+0/"});
}

TEST_CASE("a wish for what is not there is a problem with its place") {
    const Reading reading = read("candidate,topic\nK09,surds\nK01,integrals\nK01,surds\nK01,surds\n");
    REQUIRE(reading.problems.size() == 3);
    CHECK_THAT(reading.problems[0], Matches("2:1 candidate 'K09' is not among .*"));
    CHECK_THAT(reading.problems[1], Matches("3:5 no paper on file has the topic 'integrals': .*"));
    CHECK_THAT(reading.problems[2], Matches("5:0 the wish is already in line 4"));
}

TEST_CASE("a date or a time that is none is a problem with its place") {
    const Reading reading = read("candidate,topic,dates,asked\nK01,surds,5 December,2026-11-25 25:00\n");
    REQUIRE(reading.problems.size() == 2);
    CHECK_THAT(reading.problems[0], Matches("2:22 .*25:00.*"));
    CHECK_THAT(reading.problems[1], Matches("2:11 .*5 December.*"));
}

TEST_CASE("a file without wishes is a problem") {
    CHECK_THAT(read("candidate,topic\n").problems.at(0), Matches("1:0 no wishes .*"));
    CHECK_THAT(read("candidate\nK01\n").problems.at(0), Matches("1:0 .*topic.*"));
    CHECK_FALSE(read("").problems.empty());
    CHECK(read("candidate,topic\nK01\n").problems.size() == 1);
}

TEST_CASE("a request form is written blank, and read back with what was ticked") {
    std::ostringstream out;
    const Day saturday = date::year{2026} / 12 / 5;
    write_request_form(out, {"K01", "K02"}, {"surds", "vectors"}, {saturday});
    CHECK(out.str() ==
          "\"candidate\",\"asked\",\"surds\",\"vectors\",\"any topic\",\"2026-12-05\",\"remarks\"\n"
          "\"K01\",\"\",\"\",\"\",\"\",\"\",\"\"\n\"K02\",\"\",\"\",\"\",\"\",\"\",\"\"\n");
    CHECK_THAT(read(out.str()).problems.at(0), Matches("1:0 nobody ticked anything: .*"));
    const Reading filled = read("candidate,asked,surds,vectors,any topic,2026-12-05,2026-12-08,remarks\n"
                                "K01,,x,,,x,,\nK02,2026-11-25,x,-,yes,,,slow at these\nK03,,,,,,,\n"
                                "K04,,no,0,,,x,\n");
    CHECK(filled.problems.empty());
    CHECK(filled.wishes ==
          Texts{"K01/surds/2026-12-05 //", "K02///2026-11-25+0/slow at these", "K04//2026-12-08 //"});
}

TEST_CASE("a column of a form that is neither a topic nor a date is a problem, and so is a candidate twice") {
    CHECK_THAT(read("candidate,surds,vektors\nK01,x,\n").problems.at(0),
               Matches("1:17 column 'vektors' is .*"));
    CHECK_THAT(read("candidate,surds\nK01,x\nK01,x\n").problems.at(0), Matches("3:0 .*already in line 2"));
    CHECK_THAT(read("candidate,surds\nK09,x\n").problems.at(0),
               Matches("2:1 candidate 'K09' is not among .*"));
}
