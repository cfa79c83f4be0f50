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

/// Marks of parts of one topic, such as `4 0:method`, each out of `max`.
PaperMarks one_topic(const std::string& topic, int max, const std::string& line,
                     const std::string& codes = "") {
    std::vector<Part> parts;
    for (auto count = 1 + std::count(line.begin(), line.end(), ' '); count > 0; --count)
        parts.push_back({std::to_string(parts.size() + 1), Marks(max), topic, codes});
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"p" + std::to_string(max), "", "pure", {}, RetryBy::question}, parts);
    return {paper, parse_line(*paper, line), {}};
}

TopicDiagnosis diagnosed(const std::vector<PaperMarks>& unseen) {
    const auto topics = diagnose({unseen});
    REQUIRE(topics.size() == 1);
    return topics.front();
}

TopicDiagnosis diagnosed(int max, const std::string& line, const std::string& codes = "") {
    return diagnosed({one_topic("x", max, line, codes)});
}

/// With this chance that the share is below 80%.
TopicOutlook outlook(double below, double share = 0.5, double marks_a_paper = 3) {
    return {share, {share - 0.1, share + 0.1}, below, marks_a_paper, marks_a_paper / 5};
}

std::string text(const TopicAdvice& advice) {
    return (advice.sure ? "" : "probably ") + std::string(name(advice.what));
}

std::string advice(TopicDiagnosis topic, const TopicOutlook& outlook) {
    add_outlook(topic, outlook);
    return text(topic.advice.value());
}

std::string advice(int max, const std::string& line, double below = 0.9, double share = 0.5) {
    return advice(diagnosed(max, line), outlook(below, share));
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
    CHECK(topic.lost_in_time() == Marks(21));
    CHECK(topic.subject == "pure");
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

TEST_CASE("the cause that took most is the advice where a weakness is likely") {
    CHECK(advice(4, "1:method 2:recall 2:method 4") == "relearn");
    CHECK(advice(4, "2:method 0:recall 4 4") == "recall");
    CHECK(advice(4, "2:method 0:slip 4 4") == "care");
    CHECK(advice(4, "2:method 0:misread 4 4") == "care");
    CHECK(advice(4, "2:method 0:unfinished 4 4") == "pace");
    CHECK(advice(4, "2:method - 4 4") == "pace");
    CHECK(advice(4, "2:method 0+4 4 4") == "pace");
    CHECK(advice(4, "1:slip 1:misread 0:method 4") == "care");
}

TEST_CASE("of causes that took as much the first is the advice, from relearn to pace") {
    CHECK(advice(4, "0:recall 2:method 2:method 4") == "relearn");
    CHECK(advice(4, "0:slip 0:recall 4 4") == "recall");
    CHECK(advice(4, "- 0:slip 4 4") == "care");
}

TEST_CASE("where more marks went unexplained than any cause took the topic is to be practised") {
    CHECK(advice(4, "2:method 0 2:method 4") == "relearn");
    CHECK(advice(4, "1:method 0 4 4") == "practise");
    CHECK(advice(4, "0 0 0 0") == "practise");
    CHECK(advice(4, "0") == "probably practise");
}

TEST_CASE("advice is sure from a chance of 80% of a share below 80% on") {
    CHECK(advice(4, "0:recall 4", 0.80) == "recall");
    CHECK(advice(4, "0:recall 4", 0.799) == "probably recall");
    CHECK(advice(4, "0:slip 4", 0.5) == "probably care");
    CHECK(advice(4, "0 4", 0.5) == "probably practise");
}

TEST_CASE("advice is sure from two parts on, and to relearn from two that were lost for method") {
    CHECK(advice(20, "0:recall", 0.99) == "probably recall");
    CHECK(advice(20, "0:recall 20", 0.99) == "recall");
    CHECK(advice(20, "0:method 20", 0.99) == "probably relearn");
    CHECK(advice(20, "0:method 10:method", 0.99) == "relearn");
}

TEST_CASE("one part that several candidates did is one part") {
    const PaperMarks same = one_topic("x", 20, "0:method");
    const auto topics = diagnose({{same}, {same}, {same}});
    REQUIRE(topics.size() == 1);
    CHECK(topics[0].parts == 3);
    CHECK(topics[0].distinct_parts == 1);
    CHECK(advice(topics[0], outlook(0.99)) == "probably relearn");
    CHECK(advice(topics[0], outlook(0.01, 0.95)) == "probably firm");
}

TEST_CASE("a topic is firm up to a chance of 5% that its share is below 80%, for sure from two parts on") {
    CHECK(advice(4, "4 4", 0.05, 0.9) == "firm");
    CHECK(advice(4, "4 4", 0.051, 0.9) == "probably firm");
    CHECK(advice(4, "4", 0.05, 0.9) == "probably firm");
    CHECK(advice(4, "4 4 4 4 4 4 4 4 4 0:method", 0.05, 0.9) == "firm");
}

TEST_CASE("a topic of which 80% is to be expected is probably firm, whatever was lost") {
    CHECK(advice(4, "4 4 4 1:slip", 0.4, 0.80) == "probably firm");
    CHECK(advice(4, "4 4 4 1:slip", 0.4, 0.799) == "probably care");
    CHECK(advice(4, "4 4 4 1:slip", 0.8, 0.80) == "care");
}

TEST_CASE("a topic on which nothing was lost has no cause: it is probably firm") {
    CHECK(advice(4, "4 4", 0.6, 0.7) == "probably firm");
    CHECK(advice(4, "4", 0.9, 0.6) == "probably firm");
    CHECK(advice(4, "4 3+1", 0.9, 0.6) == "pace");
}

TEST_CASE("without an outlook there is no advice") {
    CHECK_FALSE(diagnosed(4, "0:method 0:method").outlook.has_value());
    CHECK_FALSE(diagnosed(4, "0:method 0:method").advice.has_value());
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

TEST_CASE("topics come by subject and name, those of parts that state none last") {
    const auto mechanics =
        std::make_shared<const Paper>(PaperHead{"m", "", "mechanics", {}, RetryBy::question},
                                      std::vector<Part>{{"1", Marks(3), "vectors", ""}});
    const auto topics = diagnose({{one_topic("vectors", 4, "4"),
                                   one_topic("", 4, "0:method"),
                                   one_topic("series", 4, "4"),
                                   {mechanics, parse_line(*mechanics, "3"), {}}}});
    CHECK(names_of(topics) == Strings{"vectors", "series", "vectors", ""});
    CHECK(topics[0].subject == "mechanics");
    CHECK(topics[2].subject == "pure");
    CHECK(topics[3].lost.of(Reason::method) == Marks(4));
}

TEST_CASE("the topics that cost most in a paper come first, if tied by name; without an outlook last") {
    std::vector<TopicDiagnosis> topics =
        diagnose({{one_topic("a", 4, "0"), one_topic("b", 4, "0"), one_topic("c", 4, "0"),
                   one_topic("d", 4, "0"), one_topic("unknown", 4, "0"), one_topic("", 4, "0")}});
    std::reverse(topics.begin(), topics.end());
    for (TopicDiagnosis& topic : topics) {
        if (topic.topic == "a" || topic.topic == "d")
            add_outlook(topic, outlook(0.9, 0.5, 2.5));
        if (topic.topic == "b")
            add_outlook(topic, outlook(0.01, 0.95, 7));
        if (topic.topic == "c")
            add_outlook(topic, outlook(0.9, 0.5, 0));
    }
    sort_by_cost(topics);
    CHECK(names_of(topics) == Strings{"b", "a", "d", "c", "unknown", ""});
}

TEST_CASE("a subject takes only its own papers") {
    const auto mechanics =
        std::make_shared<const Paper>(PaperHead{"m", "", "mechanics", {}, RetryBy::question},
                                      std::vector<Part>{{"1", Marks(3), "forces", ""}});
    const std::vector<PaperMarks> unseen{one_topic("vectors", 4, "4"),
                                         {mechanics, parse_line(*mechanics, "3"), {}}};
    CHECK(names_of(diagnose({unseen}, {}, "pure")) == Strings{"vectors"});
    CHECK(names_of(diagnose({unseen}, {}, "mechanics")) == Strings{"forces"});
    CHECK(names_of(diagnose({unseen})) == Strings{"forces", "vectors"});
    CHECK(diagnose({unseen}, {}, "statistics").empty());
}

TEST_CASE("nobody's topics are none") {
    CHECK(diagnose({}).empty());
    CHECK(diagnose({{}, {}}).empty());
}

TEST_CASE("a class's parts count once a candidate, and once in all as distinct ones") {
    const PaperMarks one = one_topic("x", 4, repeated("2:method", 10));
    const PaperMarks full = one_topic("x", 4, repeated("4", 10));
    const auto topics = diagnose({{one}, {one}, {full}});
    REQUIRE(topics.size() == 1);
    const TopicDiagnosis& topic = topics[0];
    CHECK(topic.parts == 30);
    CHECK(topic.distinct_parts == 10);
    CHECK(topic.marks == Marks(120));
    CHECK(topic.unaided() == Marks(80));
    CHECK(topic.lost.of(Reason::method) == Marks(40));
}

TEST_CASE("re-attempts stand beside unseen marks and count for nothing else") {
    const PaperMarks unseen = one_topic("x", 4, "0:method 0:method 4");
    const PaperMarks again = one_topic("x", 4, "4 3+1 not-set");
    const PaperMarks of_another = one_topic("y", 4, "4");
    const auto topics = diagnose({{unseen}}, {{again, of_another}});
    REQUIRE(topics.size() == 1); // nothing unseen is known of y
    CHECK(topics[0].again_marks == Marks(8));
    CHECK(topics[0].again_unaided == Marks(8));
    CHECK(topics[0].marks == Marks(12));
    CHECK(topics[0].in_time == Marks(4));
    CHECK(topics[0].lost.of(Reason::method) == Marks(8));
    CHECK(topics[0].parts == 3);
    CHECK(diagnosed({unseen}).again_marks == Marks(0));
}

TEST_CASE("parts that these marks are not of count nowhere") {
    const TopicDiagnosis topic = diagnosed(4, "not-set 3 not-set");
    CHECK(topic.parts == 1);
    CHECK(topic.distinct_parts == 1);
    CHECK(topic.marks == Marks(4));
    CHECK(diagnose({{one_topic("x", 4, "not-set")}}).empty());
}

TEST_CASE("a part that a whole class sat is still one part, so nothing is sure of its topic") {
    const std::vector<std::vector<PaperMarks>> thirty(30, {one_topic("x", 10, "2:method")});
    const auto topics = diagnose(thirty);
    CHECK(topics.at(0).parts == 30);
    CHECK(topics.at(0).distinct_parts == 1);
    CHECK(topics.at(0).marks == Marks(300));
    const Interval alone = diagnose({thirty.front()}).at(0).unaided_interval;
    CHECK(topics.at(0).unaided_interval.low == alone.low);
    CHECK(topics.at(0).unaided_interval.high == alone.high);
}

TEST_CASE("a topic is untried where all who have marks on it relearned it since") {
    const std::vector<PaperMarks> marks{one_topic("x", 4, "4 0:method")};
    std::vector<TopicDiagnosis> topics = diagnose({marks, {}, marks});
    REQUIRE(topics.size() == 1);
    CHECK(topics[0].candidates == 2);
    CHECK(topics[0].distinct_parts == 2);
    CHECK_FALSE(topics[0].is_untried());
    const Day monday(date::year(2026) / 11 / 23);
    add_relearned(topics, {{"pure", "x", monday}, {"pure", "y", monday}, {"mechanics", "x", monday}});
    CHECK(topics[0].relearned == std::vector<Day>{monday});
    CHECK_FALSE(topics[0].is_untried());
    add_relearned(topics, {{"pure", "x", monday}});
    CHECK(topics[0].is_untried());
}
