#include "inkturn/statistics/diagnosis.hpp"

#include "catch.hpp"

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

using Strings = std::vector<std::string>;

/// Marks of a paper's parts of one topic, such as `4 0:method`, each out of `max`, a paper for each of these.
LatestMarks one_topic(const std::string& topic, int max, const std::string& line,
                      const std::string& codes = "") {
    std::vector<Part> parts;
    for (auto count = 1 + std::count(line.begin(), line.end(), ' '); count > 0; --count)
        parts.push_back({std::to_string(parts.size() + 1), Marks(max), topic, codes});
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"p" + std::to_string(max), "", "pure", {}, RetryBy::question}, parts);
    return {paper, parse_line(*paper, line), {}};
}

TopicDiagnosis diagnosed(const std::vector<LatestMarks>& latest) {
    const auto topics = diagnose({latest});
    REQUIRE(topics.size() == 1);
    return topics.front();
}

TopicDiagnosis diagnosed(int max, const std::string& line, const std::string& codes = "") {
    return diagnosed({one_topic("x", max, line, codes)});
}

std::string advice(int max, const std::string& line, const std::string& codes = "") {
    return std::string(name(diagnosed(max, line, codes).advice.value()));
}

std::string repeated(const std::string& marks, int times) {
    std::string line = marks;
    for (int i = 1; i < times; ++i)
        line += ' ' + marks;
    return line;
}

/// relearn/recall/care/pace/unexplained
std::string causes(int max, const std::string& line, const std::string& codes = "") {
    const LostByCause lost = diagnosed(max, line, codes).lost_by_cause;
    std::string text;
    for (const Marks cause : lost.known)
        text += std::to_string(cause.count()) + "/";
    return text + std::to_string(lost.unexplained.count());
}

Strings names_of(const std::vector<TopicDiagnosis>& topics) {
    Strings names;
    for (const TopicDiagnosis& topic : topics)
        names.push_back(topic.topic);
    return names;
}

} // namespace

TEST_CASE("a topic's marks are those of its parts over all papers, its share theirs") {
    const auto topic = diagnosed({one_topic("x", 5, "5 3+1 0"), one_topic("x", 10, "6+0+4 -")});
    CHECK(topic.parts == 5);
    CHECK(topic.marks == Marks(35));
    CHECK(topic.in_time == Marks(14));
    CHECK(topic.overtime == Marks(1));
    CHECK(topic.unaided() == Marks(15));
    CHECK(topic.to_win_back() == Marks(21));
    CHECK_THAT(topic.effective_parts, WithinAbs(35.0 * 35 / (3 * 25 + 2 * 100), 1e-12));
    CHECK_THAT(topic.overtime_share(), WithinAbs(1.0 / 15, 1e-12));
}

TEST_CASE("the overtime share of a topic without unaided marks is 0") {
    CHECK(diagnosed(5, "0 -").overtime_share() == 0);
}

TEST_CASE("marks that went are put down to what would win them back") {
    CHECK(causes(4, "4 4") == "0/0/0/0/0");
    CHECK(causes(4, "1:method") == "3/0/0/0/0");
    CHECK(causes(4, "1:recall") == "0/3/0/0/0");
    CHECK(causes(4, "1:slip 2:misread") == "0/0/5/0/0");
    CHECK(causes(4, "1:unfinished") == "0/0/0/3/0");
    CHECK(causes(4, "-") == "0/0/0/4/0");
    CHECK(causes(4, "1") == "0/0/0/0/3");
    CHECK(causes(4, "1+0+3") == "0/0/0/0/3");
}

TEST_CASE("overtime is put down to pace, whatever took the other marks of its part") {
    CHECK(causes(4, "1+3") == "0/0/0/3/0");
    CHECK(causes(4, "1+2:method") == "1/0/0/2/0");
    CHECK(causes(4, "0+4:slip") == "0/0/0/4/0");
}

TEST_CASE("without a reason the codes of the marks that went tell") {
    CHECK(causes(3, "1:001", "M1 A1 B1") == "2/0/0/0/0");
    CHECK(causes(3, "2:101", "M1 A1 B1") == "0/0/1/0/0");
    CHECK(causes(3, "2:11", "M1 A1 B1") == "0/1/0/0/0");
    CHECK(causes(3, "0", "M1 A1 B1") == "2/1/0/0/0");
    CHECK(causes(3, "1", "M1 A1 B1") == "0/0/0/0/2");
    CHECK(causes(2, "1", "B2") == "0/1/0/0/0");
    CHECK(causes(2, "0", "B1 E1") == "0/1/0/0/1");
    CHECK(causes(3, "1+1:101", "M1 A1 B1") == "0/0/1/1/0");
}

TEST_CASE("a stated reason rules over the codes, and both over the part not being tried") {
    CHECK(causes(3, "1:slip:001", "M1 A1 B1") == "0/0/2/0/0");
    CHECK(causes(3, "0:unfinished", "M1 A1 B1") == "0/0/0/3/0");
    CHECK(causes(3, "-:recall", "M1 A1 B1") == "0/3/0/0/0");
    CHECK(causes(3, "-", "M1 A1 B1") == "0/0/0/3/0");
}

TEST_CASE("the cause that took most is the advice") {
    CHECK(advice(4, "0:method 2:recall 4 4") == "relearn");
    CHECK(advice(4, "2:method 0:recall 4 4") == "recall");
    CHECK(advice(4, "2:method 0:slip 4 4") == "care");
    CHECK(advice(4, "2:method 0:misread 4 4") == "care");
    CHECK(advice(4, "2:method 0:unfinished 4 4") == "pace");
    CHECK(advice(4, "2:method - 4 4") == "pace");
    CHECK(advice(4, "2:method 0+4 4 4") == "pace");
    CHECK(advice(4, "1:slip 1:misread 0:method 4") == "care");
}

TEST_CASE("of causes that took as much the first is the advice, from relearn to pace") {
    CHECK(advice(4, "0:recall 0:method 4 4") == "relearn");
    CHECK(advice(4, "0:slip 0:recall 4 4") == "recall");
    CHECK(advice(4, "- 0:slip 4 4") == "care");
}

TEST_CASE("more marks unexplained than any cause took are too little to say") {
    CHECK(advice(4, "0:method 0 4 4") == "relearn");
    CHECK(advice(4, "1:method 0 4 4") == "too little to say");
    CHECK(advice(4, "0 0 0 0") == "too little to say");
}

TEST_CASE("one part, or two of unequal marks, are too little to say; two equal ones may be enough") {
    CHECK(advice(20, "0:method") == "too little to say");
    CHECK(advice(4, "0:method 0:method") == "relearn");
    CHECK(*diagnosed({one_topic("x", 4, "0:method"), one_topic("x", 5, "0:method")}).advice ==
          Advice::too_little);
}

TEST_CASE("fewer than eight marks are too little to say") {
    CHECK(advice(1, repeated("0:recall", 7)) == "too little to say");
    CHECK(advice(1, repeated("0:recall", 8)) == "recall");
}

TEST_CASE("a topic is firm from five equal parts in full on") {
    CHECK(advice(4, "4 4 4 4") == "too little to say");
    CHECK(advice(4, "4 4 4 4 4") == "firm");
}

TEST_CASE("a topic in full is firm where the interval begins at 0.6 or above") {
    const auto with_a_part_of = [](int marks) {
        return diagnosed({one_topic("x", 10, "10 10 10 10"), one_topic("x", marks, std::to_string(marks))});
    };
    CHECK_THAT(with_a_part_of(3).in_time_interval.low, WithinAbs(0.592, 0.0005));
    CHECK(with_a_part_of(3).advice == Advice::too_little);
    CHECK_THAT(with_a_part_of(4).in_time_interval.low, WithinAbs(0.6002, 0.00005));
    CHECK(with_a_part_of(4).advice == Advice::firm);
}

TEST_CASE("a topic is firm from nine tenths of its marks on, whatever took the rest") {
    CHECK(advice(4, repeated("4", 9) + " 0:method") == "firm");
    CHECK(advice(4, repeated("4", 8) + " 3:method 0:method") == "too little to say");
    CHECK(advice(4, repeated("4", 89) + " " + repeated("0:method", 10)) == "relearn");
    CHECK(advice(4, repeated("4", 90) + " " + repeated("0:method", 10)) == "firm");
}

TEST_CASE("a topic earned in overtime is not firm") {
    CHECK(advice(4, repeated("4", 8) + " 3+1 0+4") == "too little to say");
    CHECK(advice(4, repeated("4", 6) + " " + repeated("0+4", 4)) == "pace");
    CHECK(advice(4, repeated("4", 9) + " 0+4") == "firm");
}

TEST_CASE("a weakness is named where less than 95% is the rule, even at the interval's high end") {
    CHECK_THAT(diagnosed(100, "100 100 69:method 0:method").in_time_interval.high,
               WithinAbs(0.9492, 0.00005));
    CHECK(advice(100, "100 100 69:method 0:method") == "relearn");
    CHECK_THAT(diagnosed(100, "100 100 70:method 0:method").in_time_interval.high,
               WithinAbs(0.95002, 0.00001));
    CHECK(advice(100, "100 100 70:method 0:method") == "too little to say");
    // Of four equal parts up to 0.674 of the marks, of ten 0.786, of twenty 0.838.
    CHECK(advice(12, "12 12 8:method 0:method") == "relearn");
    CHECK(advice(12, "12 12 9:method 0:method") == "too little to say");
    CHECK(advice(10, repeated("10", 7) + " 8:method 0:method 0:method") == "relearn");
    CHECK(advice(10, repeated("10", 7) + " 9:method 0:method 0:method") == "too little to say");
    CHECK(advice(10, repeated("10", 16) + " 7:method " + repeated("0:method", 3)) == "relearn");
    CHECK(advice(10, repeated("10", 16) + " 8:method " + repeated("0:method", 3)) == "too little to say");
}

TEST_CASE("more parts of the same share narrow the interval") {
    double width = 1;
    for (int parts = 1; parts < 40; ++parts) {
        const Interval interval = diagnosed(4, repeated("3", parts)).unaided_interval;
        CAPTURE(parts);
        CHECK(interval.low < 0.75);
        CHECK(interval.high > 0.75);
        CHECK(interval.high - interval.low < width);
        width = interval.high - interval.low;
    }
}

TEST_CASE("marks within a part are not independent: cutting it up narrows the interval") {
    const Interval whole = diagnosed(12, "6 6").unaided_interval;
    const Interval cut = diagnosed(6, "3 3 3 3").unaided_interval;
    CHECK(cut.low > whole.low);
    CHECK(cut.high < whole.high);
}

TEST_CASE(
    "the hours are those of working again, marked, what lost marks, and of learning what is not there") {
    // Ten parts of 4 marks that each lost 2: 40 marks, 48 minutes, with the marking 72.
    const auto hours = [](const std::string& marks) {
        return static_cast<double>(diagnosed(4, repeated(marks, 10)).work.count()) / 3600;
    };
    CHECK_THAT(hours("2:slip"), WithinAbs(1.2, 1e-12));
    CHECK_THAT(hours("2:unfinished"), WithinAbs(1.2, 1e-12));
    CHECK_THAT(hours("2+2"), WithinAbs(1.2, 1e-12));
    CHECK_THAT(hours("2:recall"), WithinAbs(1.7, 1e-12));
    CHECK_THAT(hours("2:method"), WithinAbs(2.2, 1e-12));
    CHECK_THAT(hours("2"), WithinAbs(2.2, 1e-12));
    CHECK(hours("4") == 0);
    CHECK_THAT(diagnosed(4, repeated("2:slip", 10)).marks_per_hour(), WithinAbs(20 / 1.2, 1e-9));
    CHECK(diagnosed(4, repeated("4", 10)).marks_per_hour() == 0);
}

TEST_CASE("parts that lost nothing are not worked again") {
    CHECK(diagnosed(4, "0:slip 0:slip 4 4 4").work == Seconds(2 * 4 * 72 * 3 / 2));
}

TEST_CASE("a paper's own duration and extra time rule the hours") {
    const auto paper =
        std::make_shared<const Paper>(PaperHead{"p", "", "pure", Seconds(4800), RetryBy::question},
                                      std::vector<Part>{{"1", Marks(4), "x", ""}, {"2", Marks(4), "x", ""}});
    LatestMarks latest{paper, parse_line(*paper, "0:slip 0:slip"), {}};
    CHECK(diagnosed({latest}).work == Seconds(7200));
    latest.extra_time = ExtraTime(25);
    CHECK(diagnosed({latest}).work == Seconds(9000));
}

TEST_CASE("half a second of work is rounded up") {
    const auto paper =
        std::make_shared<const Paper>(PaperHead{"p", "", "pure", Seconds(601), RetryBy::question},
                                      std::vector<Part>{{"1", Marks(5), "x", ""}, {"2", Marks(5), "x", ""}});
    CHECK(diagnosed({{paper, parse_line(*paper, "0:slip 0:slip"), {}}}).work == Seconds(902));
}

TEST_CASE("topics are in order of the marks that an hour of work wins back") {
    const auto topics = diagnose(
        {{one_topic("method", 4, repeated("2:method", 10)), one_topic("full", 4, repeated("4", 10)),
          one_topic("", 4, repeated("0:slip", 10)), one_topic("facts", 4, repeated("2:recall", 10)),
          one_topic("unknown", 4, repeated("2", 10)), one_topic("slips", 4, repeated("2:slip", 10)),
          one_topic("many slips", 4, repeated("1:slip", 10)), one_topic("a single part", 8, "0:slip")}});
    // 25, 16.7, 11.8 and 9.1 twice, then 8 marks in 1.24 hours, none, no topic.
    CHECK(names_of(topics) ==
          Strings{"many slips", "slips", "facts", "method", "unknown", "a single part", "full", ""});
}

TEST_CASE("of topics that bring as much for an hour the one with more marks to win back comes first") {
    CHECK(names_of(diagnose({{one_topic("a", 4, "0:slip 0:slip"), one_topic("b", 4, "0:slip 0:slip 0:slip"),
                              one_topic("c", 4, "4")}})) == Strings{"b", "a", "c"});
}

TEST_CASE("parts that state no topic get no advice") {
    const auto topics = diagnose({{one_topic("", 4, repeated("0:method", 10))}});
    REQUIRE(topics.size() == 1);
    CHECK_FALSE(topics[0].advice.has_value());
    CHECK(topics[0].work == Seconds(0));
    CHECK(topics[0].lost.of(Reason::method) == Marks(40));
}

TEST_CASE("a subject takes only its own papers") {
    const auto mechanics =
        std::make_shared<const Paper>(PaperHead{"m", "", "mechanics", {}, RetryBy::question},
                                      std::vector<Part>{{"1", Marks(3), "forces", ""}});
    const std::vector<LatestMarks> latest{one_topic("vectors", 4, "4"),
                                          {mechanics, parse_line(*mechanics, "3"), {}}};
    CHECK(names_of(diagnose({latest}, "pure")) == Strings{"vectors"});
    CHECK(names_of(diagnose({latest}, "mechanics")) == Strings{"forces"});
    CHECK(names_of(diagnose({latest})) == Strings{"forces", "vectors"});
    CHECK(diagnose({latest}, "statistics").empty());
}

TEST_CASE("nobody's topics are none") {
    CHECK(diagnose({}).empty());
    CHECK(diagnose({{}, {}}).empty());
}

TEST_CASE("a class's parts count once, and each who lost marks has the topic to learn") {
    const LatestMarks one = one_topic("x", 4, repeated("2:method", 10));
    const LatestMarks full = one_topic("x", 4, repeated("4", 10));
    const TopicDiagnosis alone = diagnosed({one});
    const auto topics = diagnose({{one}, {one}, {full}});
    REQUIRE(topics.size() == 1);
    const TopicDiagnosis& topic = topics[0];
    CHECK(topic.parts == 10);
    CHECK(topic.effective_parts == 10);
    CHECK(topic.marks == Marks(120));
    CHECK(topic.unaided() == Marks(80));
    CHECK(topic.advice == Advice::relearn);
    CHECK(topic.work == 2 * alone.work);
    CHECK(topic.marks_per_hour() == alone.marks_per_hour());
}

TEST_CASE("a candidate with a topic in two papers learns it once") {
    const LatestMarks one = one_topic("x", 4, repeated("0:method", 5));
    CHECK(diagnosed({one, one}).work == Seconds(3600) + Seconds(2 * 5 * 4 * 72 * 3 / 2));
}

TEST_CASE("re-attempts count: a topic whose misses were got is firm") {
    const auto paper = std::make_shared<const Paper>(PaperHead{"p", "", "pure", {}, RetryBy::question},
                                                     std::vector<Part>{{"1", Marks(4), "x", ""},
                                                                       {"2", Marks(4), "x", ""},
                                                                       {"3", Marks(4), "x", ""},
                                                                       {"4", Marks(4), "x", ""},
                                                                       {"5", Marks(4), "x", ""}});
    const Day day{date::year{2026} / date::November / 2};
    Candidate candidate;
    candidate.sittings = {
        {SittingId{1}, paper, {day, ExtraTime(25), parse_line(*paper, "0:method 0:method 4 4 4")}, {}}};
    CHECK(diagnosed(latest_marks(candidate)).advice == Advice::relearn);
    CHECK(diagnosed(latest_marks(candidate)).work == Seconds(3600) + Seconds(2 * 4 * 90 * 3 / 2));
    for (const char* const question : {"1", "2"})
        candidate.sittings[0].reattempts.push_back({question, 1, day + Days{14}, {full_marks(Marks(4))}});
    CHECK(diagnosed(latest_marks(candidate)).advice == Advice::firm);
}

TEST_CASE("a part that a whole class sat is still one part, so it decides nothing") {
    const std::vector<std::vector<LatestMarks>> thirty(30, {one_topic("x", 10, "2:method")});
    const auto topics = diagnose(thirty);
    CHECK(topics.at(0).parts == 1);
    CHECK(topics.at(0).effective_parts == 1);
    CHECK(topics.at(0).marks == Marks(300));
    CHECK(topics.at(0).advice == Advice::too_little);
}
