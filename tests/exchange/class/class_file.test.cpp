#include "catch.hpp"
#include "exchange/class/class_text.hpp"
#include "inkturn/base/error.hpp"

#include <optional>

using namespace inkturn;
using namespace inkturn::test;
using namespace std::string_literals;
using Catch::Matchers::Matches;

namespace {

ClassFile read(const std::string& text, std::size_t chunk = 65536) {
    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    options.date = day(2026, 11, 23);
    CsvOptions csv;
    csv.chunk = chunk;
    return read_class(text, options, csv);
}

std::optional<PartMarks> by_core(const std::string& text, Marks max) {
    try {
        return parse_part_marks(text, max);
    } catch (const Error&) {
        return std::nullopt;
    }
}

/// The marks of the only part of the only sitting; nothing where there is a problem.
std::optional<PartMarks> only_marks(const ClassFile& csv) {
    if (!csv.problems.empty())
        return std::nullopt;
    return csv.sittings.at(0).parts.at(0);
}

std::optional<PartMarks> by_wide_file(const std::string& text) {
    ClassFileOptions options = no_options();
    options.paper = "new-2";
    options.date = options.today;
    options.accepted = {"tried-nothing"};
    return only_marks(read_class("candidate,1\nmax,4\nK07," + text + "\n", options));
}

std::optional<PartMarks> by_long_file(const std::string& phases, const std::string& reason) {
    return only_marks(read_class("candidate,paper,date,part,max,reason,in_time,overtime,corrected\n"
                                 "K07,new-2,2026-11-24,1,4," +
                                     reason + ',' + phases + "\n",
                                 no_options()));
}

const std::vector<std::string> numbers{"",   "0",   "1",    "3", "4", "5",  "04",
                                       "10", "999", "0004", "x", "-", "1.5"};
const std::vector<std::string> reasons{"", "slip", "unfinished", "slips", "tired"};

} // namespace

TEST_CASE("the header tells a long file from a wide one") {
    CHECK(problems(read("candidate,1,2a,7b\nK07,1,2,3\n")).empty());
    CHECK(problems(read("part;in_time;candidate;paper;date\n1;1;K07;pure-1;2026-11-20\n"
                        "2a;1;K07;pure-1;2026-11-20\n7b;1;K07;pure-1;2026-11-20\n"))
              .empty());
    CHECK_THAT(only_problem(read("candidate,paper,date,part\nK07,pure-1,2026-11-20,1\n")),
               Matches("1:0 the header has no column in_time: add it"));
}

TEST_CASE("an empty class file says so") {
    CHECK(only_problem(read("")) == "0:0 the file is empty");
}

TEST_CASE("what ends the reading of a class file is its last problem") {
    const auto all = problems(read("candidate,1,2a,7b\nK07,9,2,3\nK08,\"1,2,3\n"));
    REQUIRE(all.size() == 2);
    CHECK_THAT(all[0], Matches("2:5 .*"));
    CHECK_THAT(all[1], Matches("3:5 .*not closed"));
    CHECK_THAT(only_problem(read("candidate,paper,date,part,in_time\nK07,pure-1,2026-11-20,1,3\nK07,\xE9")),
               Matches("3:5 .*--encoding windows-1252"));
}

TEST_CASE("a class file that is not CSV is reported") {
    CHECK_THAT(only_problem(read("<?xml version='1.0'?>")),
               Matches("0:0 this is a workbook in one piece .*"));
    CHECK_THAT(only_problem(read("c\0a\0n\0"s)), Matches("0:0 .*UTF-16.*"));
    CHECK_THAT(only_problem(read("candidate,1;2a,7b;x\n")), Matches("1:1 .*--delimiter.*"));
    CHECK_THAT(only_problem(read("candidate\nK07\n")), Matches("1:0 no line at the top is a header: .*"));
}

TEST_CASE("problems beyond the limit are only counted") {
    std::string text = "candidate,1,2a,7b\n";
    for (int row = 0; row < 40; ++row)
        text += "K,1,1,1\n" + std::string("K,1,1,1\n");
    const ClassFile csv = read(text);
    CHECK(csv.problems.count == 79);
    CHECK(csv.problems.items.size() == ProblemList::max_items);
}

TEST_CASE("places are in characters and hold across chunks") {
    const std::string text = "\xEF\xBB\xBF"
                             "candidate,date,1,2a,7b\n\"Zo\xC3\xAB \"\"1\"\"\",2026-11-20,1,2,3\r\n"
                             "\n\xE2\x82\xAC\xE2\x82\xAC,\"\",1,99,3\n";
    for (std::size_t chunk = 1; chunk < 50; ++chunk) {
        const ClassFile csv = read(text, chunk);
        CHECK_THAT(only_problem(csv), Matches("4:9 marks '99': .*"));
        CHECK(csv.candidates.at(0) == "Zo\xC3\xAB \"1\"");
    }
}

TEST_CASE("a wide file's cells mean what the core's notation means") {
    for (const std::string& a : numbers)
        for (const std::string& b : numbers)
            for (const std::string& reason : reasons)
                for (const std::string& text :
                     {a, a + ':' + reason, a + '+' + b, a + '+' + b + ':' + reason}) {
                    if (text.empty())
                        continue;
                    CAPTURE(text);
                    CHECK(by_wide_file(text) == by_core(text, Marks(4)));
                }
}

TEST_CASE("a long file's cells mean what the core's notation means") {
    const auto or_zero = [](const std::string& number) { return number.empty() ? "0" : number; };
    for (const std::string& a : numbers)
        for (const std::string& b : numbers)
            for (const std::string c : {"", "0", "1", "004", "x"})
                for (const std::string& reason : reasons) {
                    if (a == "-")
                        continue;
                    std::string text = a + '+' + or_zero(b) + '+' + or_zero(c);
                    if (!reason.empty())
                        text += ':' + reason;
                    CAPTURE(text);
                    CHECK(by_long_file(a + ',' + b + ',' + c, reason) == by_core(text, Marks(4)));
                }
}
