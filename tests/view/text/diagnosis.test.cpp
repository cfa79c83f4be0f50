#include "view/text/diagnosis.hpp"

#include "catch.hpp"
#include "view/text/lines.hpp"

#include <map>
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
    return diagnose({{PaperMarks{paper, parse_line(*paper, line), {}}}});
}

struct Expected {
    double share;
    double below;
    double marks_a_paper;
};

/// With an outlook for each, in their order of cost.
std::vector<TopicDiagnosis> with_outlooks(std::vector<TopicDiagnosis> topics,
                                          const std::map<std::string, Expected>& all) {
    for (TopicDiagnosis& topic : topics)
        if (const auto found = all.find(topic.topic); found != all.end()) {
            const auto& [share, below, marks] = found->second;
            add_outlook(topic, {share, {share - 0.134, share + 0.096}, below, marks, marks / 5});
        }
    sort_by_cost(topics);
    return topics;
}

std::vector<TopicDiagnosis> example() {
    return with_outlooks(diagnosed({{"vectors", "2:method"},
                                    {"vectors", "6"},
                                    {"vectors", "0:method", "M3 A3"},
                                    {"surds", "4:slip"},
                                    {"surds", "3:misread"},
                                    {"surds", "2+2"},
                                    {"logarithms", "3:110010", "M1 A1 M1 A1 B2"},
                                    {"logarithms", "0", "B6"},
                                    {"series", "6"},
                                    {"series", "6"},
                                    {"proof", "2"},
                                    {"", "-"}}),
                         {{"vectors", {0.46, 0.99, 7.45}},
                          {"surds", {0.55, 0.95, 6.2}},
                          {"logarithms", {0.35, 0.99, 4.1}},
                          {"series", {0.903, 0.03, 1.26}},
                          {"proof", {0.55, 0.78, 1.2}}});
}

/// Tried again were one question on vectors and one on surds.
std::vector<TopicDiagnosis> with_some_again() {
    std::vector<TopicDiagnosis> topics = example();
    topics[0].again_marks = Marks(12);
    topics[0].again_unaided = Marks(9);
    topics[1].again_marks = Marks(6);
    return topics;
}

} // namespace

TEST_CASE("each topic has a row with what is to be expected, what it costs and what to do") {
    CHECK(text_of(topics_table(example())) ==
          R"(topic       in time  expected      80%  a paper  what to do
vectors        8/18       46%   32-56%      7.5  relearn
surds          9/18       55%   41-65%      6.2  care
logarithms     3/12       35%   21-45%      4.1  recall
series        12/12       90%  76-100%      1.3  firm
proof           2/6       55%   41-65%      1.2  probably practise
(no topic)      0/6         -        -        -  -
)");
}

TEST_CASE("marks of questions tried again have a column where there are any") {
    CHECK(text_of(topics_table(with_some_again())) ==
          R"(topic       in time  again  expected      80%  a paper  what to do
vectors        8/18   9/12       46%   32-56%      7.5  relearn
surds          9/18    0/6       55%   41-65%      6.2  care
logarithms     3/12              35%   21-45%      4.1  recall
series        12/12              90%  76-100%      1.3  firm
proof           2/6              55%   41-65%      1.2  probably practise
(no topic)      0/6                -        -        -  -
)");
}

TEST_CASE("a topic's own marks alone have a table of their own") {
    CHECK(text_of(plain_topics_table(example())) ==
          R"(topic       parts  marks  unaided      95%  overtime
vectors         3     18      44%    7-89%        0%
surds           3     18      61%   14-95%       18%
logarithms      2     12      25%    1-85%        0%
series          2     12     100%  33-100%        0%
proof           1      6      33%    1-95%        0%
(no topic)      1      6       0%    0-86%         -
)");
}

TEST_CASE("topics of several subjects are named with theirs") {
    std::vector<TopicDiagnosis> topics = example();
    topics[1].subject = "pure";
    topics[2].subject = "mechanics";
    const std::string table = text_of(topics_table(topics));
    CHECK(table.find("\npure: surds ") != std::string::npos);
    CHECK(table.find("\nmechanics: logarithms ") != std::string::npos);
    CHECK(table.find("\nvectors ") != std::string::npos);
    CHECK(text_of(plain_topics_table(topics)).find("\npure: surds ") != std::string::npos);
}

TEST_CASE("advice is a word, with probably before it where little was seen") {
    CHECK(advice_text(example()[0]) == "relearn");
    CHECK(advice_text(example()[4]) == "probably practise");
    CHECK(advice_text(example()[5]) == "-");
}

TEST_CASE("what to do first opens, with what it costs and what is assumed") {
    CHECK(topics_opening(example(), false, {}) ==
          "vectors first: relearn it. It costs about 7.5 marks a paper. If an hour's work\n"
          "  wins back 20 of every 100, which is assumed (--gain), that is 1.5 marks.\n");
    CHECK(topics_opening(example(), true, Gain(40)) ==
          "vectors first: relearn it. It costs each candidate about 7.5 marks a paper. If\n"
          "  an hour's work wins back 40 of every 100, which is assumed (--gain), that is\n"
          "  1.5 marks.\n");
}

TEST_CASE("a topic that is firm is not what to do first, though it costs most") {
    std::vector<TopicDiagnosis> topics = example();
    add_outlook(topics[0], {0.9, {0.8, 0.95}, 0.01, 7.45, 1.49});
    CHECK(topics_opening(topics, false, {}).rfind("surds first: work with more care", 0) == 0);
    const auto firm = with_outlooks(diagnosed({{"x", "6"}, {"x", "6"}}), {{"x", {0.9, 0.01, 1}}});
    CHECK(topics_opening(firm, false, {}) ==
          "Every topic seen so far is firm, or probably so: keep sitting papers.\n");
}

TEST_CASE("where only little was seen the opening says probably, and names the subject of several") {
    std::vector<TopicDiagnosis> topics = with_outlooks(diagnosed({{"x", "0:recall"}, {"y", "0"}}),
                                                       {{"x", {0.5, 0.7, 2}}, {"y", {0.5, 0.7, 1}}});
    CHECK(topics_opening(topics, false, {}) ==
          "x first: probably learn its facts by heart. It costs about 2.0 marks a paper.\n"
          "  If an hour's work wins back 20 of every 100, which is assumed (--gain), that\n"
          "  is 0.4 marks.\n");
    topics[0].subject = "pure";
    CHECK(topics_opening(topics, false, {}).rfind("pure: x first: probably ", 0) == 0);
}

TEST_CASE("without a topic on file the opening says where topics come from") {
    CHECK(topics_opening(diagnosed({{"", "0"}}), false, {}) ==
          "No part that was sat has a topic yet. 'inkturn topics of PAPER' gives topics.\n");
    CHECK(topics_opening({}, false, {}) == topics_opening(diagnosed({{"", "0"}}), false, {}));
}

TEST_CASE("marks lost by reason have one row per topic that lost some") {
    CHECK(text_of(lost_by_reason_table(example()).value()) ==
          R"(topic       lost  method  recall  slip  misread  unfinished  unstated
vectors       10      10
surds          7                     2        3                     2
logarithms     9                                                    9
proof          4                                                    4
(no topic)     6                                                    6
)");
}

TEST_CASE("marks lost by code have one row per topic that lost some") {
    CHECK(text_of(lost_by_code_table(example()).value()) ==
          R"(topic       lost  M  A  A after M  B  other  not known
vectors       10  3  3                               4
surds          7                                     7
logarithms     9  1  1             7
proof          4                                     4
(no topic)     6                                     6
)");
}

TEST_CASE("no table is shown if nothing was lost, or no codes are known") {
    CHECK_FALSE(lost_by_reason_table(diagnosed({{"x", "6"}, {"y", "4+2"}})));
    CHECK(lost_by_reason_table(diagnosed({{"x", "6"}, {"y", "4+1"}})));
    CHECK_FALSE(lost_by_code_table(diagnosed({{"x", "5"}, {"y", "6", "B6"}, {"y", "3", "M3 A3"}})));
    CHECK(lost_by_code_table(diagnosed({{"x", "5"}, {"y", "5", "B6"}})));
}

TEST_CASE("the key explains the advice given and the columns, and whose marks they rest on") {
    CHECK(topics_key(example(), 1) ==
          R"(One part so far of proof: a hard part and a weak topic look alike, and what is
  expected leans on the other topics.
relearn: marks lost because the method isn't known.
recall: marks lost because facts aren't known by heart.
care: marks lost to slips and misreadings, or to accuracy after a right
  method.
practise: most of the marks went without a reason: state one as you mark.
firm: no marks lost so far, or an expected share of 80% or more.
probably: too little has been seen to be sure.
expected: the share in time of new parts, from 1 candidate's marks alone in
  parts not seen before; 80%: where it lies four times in five. a paper: marks
  the topic costs in the usual paper.
)");
    CHECK(topics_key(with_some_again(), 22) ==
          R"(One part so far of proof: a hard part and a weak topic look alike, and what is
  expected leans on the other topics.
relearn: marks lost because the method isn't known.
recall: marks lost because facts aren't known by heart.
care: marks lost to slips and misreadings, or to accuracy after a right
  method.
practise: most of the marks went without a reason: state one as you mark.
firm: no marks lost so far, or an expected share of 80% or more.
probably: too little has been seen to be sure.
again: unaided marks at the latest retries. They count nowhere else here, as
  the question and its mark scheme had been seen.
expected: the share in time of new parts, from 22 candidates' marks in parts
  not seen before; 80%: where it lies four times in five. a paper: marks the
  topic costs in the usual paper.
)");
    CHECK(topics_key({}, 0).empty());
}

TEST_CASE("a topic relearned after its marks is to be tried, and the note says since when") {
    std::vector<TopicDiagnosis> topics = example();
    const Day tuesday(date::year(2026) / 11 / 24);
    add_relearned(topics, {{"", "vectors", tuesday}, {"", "surds", tuesday}});
    CHECK(advice_text(topics[0]) == "try new parts");
    CHECK(advice_text(topics[1]) == "care");
    CHECK(topic_notes(topics).at(0) ==
          "vectors was relearned on Tue 24 Nov 2026, after its marks: new parts will "
          "show whether that helped.");
    CHECK(topics_opening(topics, false, {}) ==
          "vectors first: it was relearned after its marks, so try new parts of it. By\n"
          "  these marks it costs about 7.5 marks a paper.\n");
    topics[0].candidates = 2;
    CHECK(advice_text(topics[0]) == "relearn");
    CHECK(topic_notes(topics).at(0) ==
          "vectors was relearned by 1 candidate, last on Tue 24 Nov 2026, after its "
          "marks: new parts will show whether that helped.");
}

TEST_CASE("a class's many marks and a long topic keep to 80 columns") {
    std::vector<Row> rows;
    for (int i = 0; i < 500; ++i)
        rows.push_back({"differentiation of trigonometric functions from first principles",
                        i % 2 == 0 ? "0:unfinished" : "0:misread", "M2 A2 B2"});
    auto topics = diagnosed(rows);
    topics[0].topic += "\x1b[31m";
    add_outlook(topics[0], {0.5, {0.25, 0.75}, 0.7, 123.4, 23.4});
    topics[0].again_marks = topics[0].again_unaided = Marks(3000);
    for (const std::string& text :
         {text_of(topics_table(topics)), text_of(lost_by_reason_table(topics).value()),
          text_of(lost_by_code_table(topics).value()), text_of(plain_topics_table(topics)),
          topics_key(topics, 2000), topics_opening(topics, true, {})})
        for (const std::string& line : lines_of(text)) {
            CAPTURE(line);
            CHECK(line.size() <= 80);
            CHECK(line.find('\x1b') == std::string::npos);
        }
}
