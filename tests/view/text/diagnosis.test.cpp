#include "view/text/diagnosis.hpp"

#include "catch.hpp"
#include "view/text/lines.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

struct Row {
    std::string topic;
    std::string marks; ///< out of six
    std::string codes = "";
};

std::vector<TopicDiagnosis> diagnosed(const std::vector<Row>& rows) {
    std::vector<Part> parts;
    std::string line;
    for (const Row& row : rows) {
        parts.push_back({std::to_string(parts.size() + 1), Marks(6), row.topic, row.codes});
        line += (line.empty() ? "" : " ") + row.marks;
    }
    const auto paper = std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question}, parts);
    return diagnose({{LatestMarks{paper, parse_line(*paper, line), {}}}});
}

std::vector<TopicDiagnosis> example() {
    return diagnosed({{"vectors", "2:method"},
                      {"vectors", "6"},
                      {"vectors", "0:method", "M3 A3"},
                      {"surds", "4:slip"},
                      {"surds", "3:misread"},
                      {"surds", "2+2"},
                      {"logarithms", "3:110010", "M1 A1 M1 A1 B2"},
                      {"logarithms", "0", "B6"},
                      {"series", "6"},
                      {"series", "6"},
                      {"series", "6"},
                      {"series", "6"},
                      {"series", "6"},
                      {"proof", "5"},
                      {"", "-"}});
}

} // namespace

TEST_CASE("each topic has a row with what to do") {
    CHECK(text_of(topics_table(example())) ==
          R"(topic       parts  marks  unaided      95%  overtime  what to do  per hour
surds           3     18      61%   14-95%       18%  care            16.7
logarithms      2     12      25%    1-85%        0%  recall          10.5
vectors         3     18      44%    7-89%        0%  relearn          7.4
proof           1      6      83%   8-100%        0%  too little       0.8
series          5     30     100%  62-100%        0%  firm               -
(no topic)      1      6       0%    0-86%         -  -                  -
)");
}

TEST_CASE("marks lost by reason have one row per topic that lost some") {
    CHECK(text_of(lost_by_reason_table(example()).value()) ==
          R"(topic       lost  method  recall  slip  misread  unfinished  unstated
surds          7                     2        3                     2
logarithms     9                                                    9
vectors       10      10
proof          1                                                    1
(no topic)     6                                                    6
)");
}

TEST_CASE("marks lost by code have one row per topic that lost some") {
    CHECK(text_of(lost_by_code_table(example()).value()) ==
          R"(topic       lost  M  A  A after M  B  other  not known
surds          7                                     7
logarithms     9  1  1             7
vectors       10  3  3                               4
proof          1                                     1
(no topic)     6                                     6
)");
}

TEST_CASE("no table is shown if nothing was lost, or no codes are known") {
    CHECK_FALSE(lost_by_reason_table(diagnosed({{"x", "6"}, {"y", "4+2"}})));
    CHECK(lost_by_reason_table(diagnosed({{"x", "6"}, {"y", "4+1"}})));
    CHECK_FALSE(lost_by_code_table(diagnosed({{"x", "5"}, {"y", "6", "B6"}, {"y", "3", "M3 A3"}})));
    CHECK(lost_by_code_table(diagnosed({{"x", "5"}, {"y", "5", "B6"}})));
}

TEST_CASE("the key explains the advice given") {
    CHECK(topics_key(example()) == R"(relearn: marks lost because the method isn't known.
recall: marks lost because facts aren't known by heart.
care: marks lost to slips and misreadings, or to accuracy after a right
  method.
firm: hardly any marks lost.
too little to say: too few parts, or too few reasons and codes.
95%: where the unaided share may lie, with so few parts. overtime: share of
  unaided marks. per hour: marks to win back for each hour of work.
)");
    CHECK(topics_key(diagnosed({{"", "0"}})) ==
          R"(95%: where the unaided share may lie, with so few parts. overtime: share of
  unaided marks. per hour: marks to win back for each hour of work.
)");
    CHECK(topics_key({}).empty());
}

TEST_CASE("a class's many marks and a long topic keep to 80 columns") {
    std::vector<Row> rows;
    for (int i = 0; i < 500; ++i)
        rows.push_back({"differentiation of trigonometric functions from first principles",
                        i % 2 == 0 ? "0:unfinished" : "0:misread", "M2 A2 B2"});
    auto topics = diagnosed(rows);
    topics[0].topic += "\x1b[31m";
    for (const std::string& text :
         {text_of(topics_table(topics)), text_of(lost_by_reason_table(topics).value()),
          text_of(lost_by_code_table(topics).value()), topics_key(topics)})
        for (const std::string& line : lines_of(text)) {
            CAPTURE(line);
            CHECK(line.size() <= 80);
            CHECK(line.find('\x1b') == std::string::npos);
        }
}
