#include "inkturn/statistics/outlook.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "papers.hpp"
#include "refusal.hpp"

#include <algorithm>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

using PaperPtr = std::shared_ptr<const Paper>;

/// So many parts of 5 marks each on logs, surds and proof in turn.
PaperPtr paper(const std::string& id, int parts = 6, const std::string& subject = "pure") {
    const std::vector<std::string> topics{"logs", "surds", "proof"};
    std::vector<Part> all;
    for (int i = 0; i < parts; ++i)
        all.push_back(
            {std::to_string(i + 1), Marks(5), topics[static_cast<std::size_t>(i) % topics.size()], ""});
    return std::make_shared<const Paper>(PaperHead{id, "", subject, {}, RetryBy::question}, all);
}

/// Unseen marks of a day each.
CandidateMarks marks_of(const std::string& code, const std::vector<PaperPtr>& papers,
                        const std::vector<std::string>& lines) {
    CandidateMarks marks{code, {}};
    for (std::size_t i = 0; i < lines.size(); ++i)
        marks.papers.push_back({papers[i], parse_line(*papers[i], lines[i]), {}, day(static_cast<int>(i))});
    return marks;
}

/// Three candidates who earned about 4, 3 and 1 of every 5 marks in two papers.
Outlook three_candidates() {
    const std::vector<PaperPtr> papers{paper("p1"), paper("p2")};
    return Outlook({marks_of("K01", papers, {"4 5 4 4 3 5", "4 4 5 4 4 4"}),
                    marks_of("K02", papers, {"3 3 2 4 3 3", "3 2 3 4 3 3"}),
                    marks_of("K03", papers, {"1 2 1 0 1 1", "1 1 0 2 1 1"})},
                   "pure", usual_papers(papers, "pure", {}));
}

double width(const Interval& interval) {
    return interval.high - interval.low;
}

TopicOutlook on(const Outlook& outlook, const std::string& code, const std::string& topic, Gain gain = {}) {
    return outlook.find(code).value().on_topic(topic, gain).value();
}

} // namespace

TEST_CASE("a gain is a whole percentage of what is lost, from 1 to 100") {
    CHECK(Gain().percent() == Gain::usual_percent);
    CHECK(Gain(1).percent() == 1);
    CHECK_THAT(Gain(100).share(), WithinAbs(1, 1e-12));
    CHECK_THAT(Gain(35).share(), WithinAbs(0.35, 1e-12));
    for (const int percent : {-5, 0, 101})
        CHECK(refusal_of([&] { Gain{percent}; }) == "an hour wins back 1 to 100 of 100 marks lost");
}

TEST_CASE("a subject's usual paper has the median of their marks, and its topics their share of all") {
    const UsualPapers usual{{paper("short", 3), paper("long", 12), paper("middle", 7)}};
    CHECK(usual.marks() == Marks(35));
    CHECK_THAT(usual.share_of("logs"), WithinAbs((1 + 4 + 3) / 22.0, 1e-12));
    CHECK_THAT(usual.share_of("proof"), WithinAbs((1 + 4 + 2) / 22.0, 1e-12));
    CHECK(usual.share_of("vectors") == 0);
    CHECK(UsualPapers{}.marks() == Marks(0));
    CHECK(UsualPapers{}.share_of("logs") == 0);
}

TEST_CASE("papers that were drawn, or are of another subject, are not the usual ones") {
    const std::vector<PaperPtr> papers{paper("p1"), paper("m1", 6, "mechanics"), paper("drawn", 2),
                                       paper("p2")};
    const UsualPapers usual = usual_papers(papers, "pure", {{{"p1", "1"}, {"drawn", "1"}}});
    REQUIRE(usual.papers.size() == 2);
    CHECK(usual.papers[0]->id() == "p1"); // where the copy came from
    CHECK(usual.papers[1]->id() == "p2");
    CHECK(usual_papers(papers, "statistics", {}).papers.empty());
    CHECK(usual_papers(papers, "mechanics", {}).papers.size() == 1);
}

TEST_CASE("an outlook rests on those whose marks are of its subject") {
    const std::vector<PaperPtr> pure{paper("p1")};
    const std::vector<PaperPtr> mechanics{paper("m1", 6, "mechanics")};
    const Outlook outlook({marks_of("K01", pure, {"4 5 4 4 3 5"}),
                           marks_of("K02", mechanics, {"1 1 1 1 1 1"}), marks_of("K03", {}, {})},
                          "pure", usual_papers(pure, "pure", {}));
    CHECK(outlook.candidates() == 1);
    CHECK(outlook.find("K03").has_value()); // of whom nothing is known
    CHECK_FALSE(outlook.find("K04").has_value());
    CHECK(on(outlook, "K03", "logs").share > on(three_candidates(), "K03", "logs").share);
    CHECK(width(on(outlook, "K03", "logs").range) > width(on(outlook, "K01", "logs").range));
}

TEST_CASE("what a topic costs in a paper is its marks there times what is not to be expected") {
    const Outlook outlook = three_candidates();
    for (const char* const code : {"K01", "K02", "K03"}) {
        const TopicOutlook logs = on(outlook, code, "logs");
        CHECK_THAT(logs.marks_a_paper, WithinAbs(10 * (1 - logs.share), 1e-9)); // two parts of 5 marks
        CHECK_THAT(logs.won_back, WithinAbs(0.2 * logs.marks_a_paper, 1e-9));
        CHECK(logs.range.low < logs.share);
        CHECK(logs.share < logs.range.high);
    }
    CHECK(on(outlook, "K01", "logs").share > 0.7);
    CHECK(on(outlook, "K03", "logs").share < 0.35);
    CHECK(on(outlook, "K03", "logs").below > 0.95);
    CHECK(on(outlook, "K01", "logs").below < on(outlook, "K02", "logs").below);
}

TEST_CASE("marks in time count, overtime does not") {
    const std::vector<PaperPtr> papers{paper("p1")};
    const auto share = [&](const std::string& line) {
        return on(Outlook({marks_of("K01", papers, {line})}, "pure", usual_papers(papers, "pure", {})), "K01",
                  "logs")
            .share;
    };
    CHECK(share("2+3 2+3 2+3 2+3 2+3 2+3") == share("2 2 2 2 2 2"));
}

TEST_CASE("an hour wins back no more than is lost, twice as much with twice the gain") {
    const Outlook outlook = three_candidates();
    const TopicOutlook usual = on(outlook, "K02", "surds");
    const TopicOutlook half = on(outlook, "K02", "surds", Gain(10));
    const TopicOutlook twice = on(outlook, "K02", "surds", Gain(40));
    CHECK_THAT(half.won_back, WithinAbs(usual.won_back / 2, 1e-9));
    CHECK_THAT(twice.won_back, WithinAbs(usual.won_back * 2, 1e-9));
    CHECK(twice.marks_a_paper == usual.marks_a_paper);
    const TopicOutlook all = on(outlook, "K02", "surds", Gain(100));
    CHECK_THAT(all.won_back, WithinAbs(all.marks_a_paper, 1e-9));
}

TEST_CASE("halving and doubling the gain leaves every order where it is") {
    std::mt19937 dice(16);
    for (int round = 0; round < 20; ++round) {
        const std::vector<PaperPtr> papers{paper("p1", 12), paper("p2", 12)};
        CandidateMarks marks{"K01", {}};
        for (const PaperPtr& sat : papers) {
            std::string line;
            for (int i = 0; i < 12; ++i)
                line += (i > 0 ? " " : "") + std::to_string(pick(dice, 0, 5));
            marks.papers.push_back({sat, parse_line(*sat, line), {}, day(0)});
        }
        const Outlook outlook({marks}, "pure", usual_papers(papers, "pure", {}));
        const auto order = [&](Gain gain) {
            std::vector<TopicDiagnosis> topics = diagnose({marks.papers});
            for (TopicDiagnosis& topic : topics)
                add_outlook(topic, on(outlook, "K01", topic.topic, gain));
            std::vector<TopicDiagnosis> by_hour = topics;
            sort_by_cost(topics);
            std::stable_sort(by_hour.begin(), by_hour.end(), [](const auto& a, const auto& b) {
                return a.outlook->won_back > b.outlook->won_back;
            });
            std::string text;
            for (const auto& all : {topics, by_hour})
                for (const TopicDiagnosis& topic : all)
                    text += topic.topic + " ";
            return text;
        };
        CAPTURE(round);
        CHECK(order(Gain(10)) == order(Gain()));
        CHECK(order(Gain(40)) == order(Gain()));
    }
}

TEST_CASE("of a topic that no paper has, and of nobody, nothing is told") {
    const Outlook outlook = three_candidates();
    CHECK_FALSE(outlook.find("K01").value().on_topic("vectors", {}));
    CHECK_FALSE(outlook.find("K01").value().on_topic("", {}));
    CHECK_FALSE(outlook.average({"K01"}, "vectors", {}));
    CHECK_FALSE(outlook.average({}, "logs", {}));
    CHECK_FALSE(outlook.average({"K09"}, "logs", {}));
}

TEST_CASE("a topic of a usual paper that nobody sat has an outlook, from all other marks") {
    const std::vector<PaperPtr> sat{paper("p1", 2)}; // logs and surds
    const PaperPtr not_sat = paper("p2", 6);
    const Outlook outlook({marks_of("K01", sat, {"1 1"}), marks_of("K02", sat, {"5 5"})}, "pure",
                          UsualPapers{{sat[0], not_sat}});
    REQUIRE(outlook.find("K01").value().on_topic("proof", {}));
    CHECK(on(outlook, "K01", "proof").share < on(outlook, "K02", "proof").share);
    CHECK(outlook.find("K01").value().next_paper().has_value());
}

TEST_CASE("a class's average lies between its members, and is known better than theirs") {
    const Outlook outlook = three_candidates();
    const TopicOutlook all = outlook.average({"K01", "K02", "K03"}, "logs", {}).value();
    CHECK_THAT(all.share, WithinAbs((on(outlook, "K01", "logs").share + on(outlook, "K02", "logs").share +
                                     on(outlook, "K03", "logs").share) /
                                        3,
                                    0.02));
    CHECK(all.share < on(outlook, "K01", "logs").share);
    CHECK(all.share > on(outlook, "K03", "logs").share);
    CHECK(width(all.range) < width(on(outlook, "K02", "logs").range));
    CHECK_THAT(all.marks_a_paper, WithinAbs(10 * (1 - all.share), 1e-9));
    const TopicOutlook alone = outlook.average({"K03", "K09"}, "logs", {}).value(); // K09 isn't on file
    CHECK_THAT(alone.share, WithinAbs(on(outlook, "K03", "logs").share, 0.005));
}

TEST_CASE("a part that all did badly was hard; of one that nobody else did nothing is told") {
    const std::vector<PaperPtr> papers{paper("p1"), paper("p2")};
    const Outlook outlook({marks_of("K01", papers, {"4 4 0 4 5 4", "4 4 4 4 4 4"}),
                           marks_of("K02", papers, {"4 3 0 4 4 4", "4 4 4 5 4 4"}),
                           marks_of("K03", papers, {"5 4 0 4 4 4"})},
                          "pure", usual_papers(papers, "pure", {}));
    CHECK(outlook.part_ease("p1", 2).value() < -0.2);
    CHECK(outlook.part_ease("p1", 0).value() > -0.1);
    CHECK_FALSE(outlook.part_ease("p9", 0));
    CHECK_FALSE(outlook.part_ease("p1", 6));
    const Outlook alone({marks_of("K01", papers, {"4 4 0 4 5 4"})}, "pure", usual_papers(papers, "pure", {}));
    CHECK_FALSE(alone.part_ease("p1", 2));
}

TEST_CASE("more papers narrow what the next one may bring") {
    std::vector<PaperPtr> papers;
    double before = 1;
    for (const std::size_t count : {1U, 3U, 8U}) {
        while (papers.size() < count)
            papers.push_back(paper("p" + std::to_string(papers.size() + 1)));
        std::vector<std::string> lines;
        for (std::size_t i = 0; i < count; ++i)
            lines.push_back(i % 2 == 0 ? "3 2 4 3 3 2" : "2 3 3 4 2 3");
        const Outlook outlook({marks_of("K01", papers, lines)}, "pure", usual_papers(papers, "pure", {}));
        const UncertainShare next = outlook.find("K01").value().next_paper().value();
        CAPTURE(count);
        CHECK(width(next.range(0.9)) < before);
        CHECK_THAT(next.mean(), WithinAbs(0.57, 0.06));
        before = width(next.range(0.9));
    }
}

TEST_CASE("the next paper may be like any of the usual ones; without one nothing is foreseen") {
    const std::vector<PaperPtr> long_papers{paper("p1", 30), paper("p2", 30)};
    std::string line = "3";
    for (int i = 1; i < 30; ++i)
        line += i % 2 == 0 ? " 3" : " 2";
    const std::vector<CandidateMarks> all{marks_of("K01", long_papers, {line, line})};
    const auto ninety = [&](const std::vector<PaperPtr>& papers) {
        return width(
            Outlook(all, "pure", UsualPapers{papers}).find("K01").value().next_paper().value().range(0.9));
    };
    const double of_long = ninety(long_papers);
    const double of_short = ninety({paper("s1", 3)});
    const double of_either = ninety({long_papers[0], paper("s1", 3)});
    CHECK(of_long < of_short); // a short paper is the more a matter of chance
    CHECK(of_long < of_either);
    CHECK(of_either < of_short);
    CHECK_FALSE(Outlook(all, "pure", {}).find("K01").value().next_paper());
}
