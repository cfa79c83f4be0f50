#include "inkturn/statistics/diagnosis.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <algorithm>
#include <array>
#include <bitset>
#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

std::vector<std::string> names_of(const std::vector<TopicDiagnosis>& topics) {
    std::vector<std::string> names;
    for (const TopicDiagnosis& topic : topics)
        names.push_back(topic.topic);
    return names;
}

/// Random papers and marks, drawn with a seed of their own.
class Drawn {
  public:
    explicit Drawn(unsigned seed) : dice_(seed) {}

    std::vector<std::vector<PaperMarks>> candidates() {
        std::vector<std::shared_ptr<const Paper>> papers;
        for (int i = pick(1, 3); i > 0; --i)
            papers.push_back(paper(std::to_string(i)));
        std::vector<std::vector<PaperMarks>> candidates(static_cast<std::size_t>(pick(1, 4)));
        for (auto& unseen : candidates)
            for (const auto& sat : papers)
                if (pick(0, 3) > 0)
                    unseen.push_back({sat, marks(*sat), ExtraTime(25 * pick(0, 2))});
        return candidates;
    }

  private:
    int pick(int least, int most) { return test::pick(dice_, least, most); }

    std::shared_ptr<const Paper> paper(const std::string& id) {
        const std::array<std::string, 6> schemes{"", "M1 A1", "M1 A1 B1", "B2", "M2 A1ft E1 B1", "A1 dM1 A2"};
        const std::array<std::string, 4> topics{"", "series", "surds", "vectors"};
        std::vector<Part> parts;
        for (int i = pick(1, 15); i > 0; --i) {
            const std::string& codes = schemes[static_cast<std::size_t>(pick(0, 5))];
            parts.push_back({std::to_string(i), codes.empty() ? Marks(pick(1, 9)) : marks_of_codes(codes),
                             topics[static_cast<std::size_t>(pick(0, 3))], codes});
        }
        std::optional<Seconds> duration;
        if (pick(0, 1) == 0)
            duration = Seconds(pick(600, 7200));
        return std::make_shared<const Paper>(PaperHead{id, "", "pure", duration, RetryBy::question}, parts);
    }

    std::vector<PartMarks> marks(const Paper& paper) {
        std::vector<PartMarks> all;
        const bool good = pick(0, 3) == 0; // loses next to nothing
        for (const Part& part : paper.parts()) {
            if (good && pick(0, 19) > 0) {
                all.push_back(full_marks(part.max));
                continue;
            }
            PartMarks marks;
            const bool attempted = pick(0, 4) > 0;
            if (attempted && !part.codes.empty() && pick(0, 1) == 0) {
                const std::bitset<32> by_code(static_cast<unsigned>(pick(0, (1 << part.max.count()) - 1)));
                marks = PartMarks({Marks(static_cast<int>(by_code.count()))}, part.max);
                marks.state_by_code(static_cast<std::uint32_t>(by_code.to_ulong()), part.max);
            } else if (attempted) {
                const Marks in_time(pick(0, part.max.count()));
                marks = PartMarks({in_time, Marks(pick(0, (part.max - in_time).count()))}, part.max);
            }
            if (marks.in_time() < part.max && pick(0, 1) == 0)
                marks.state_reason(all_reasons[static_cast<std::size_t>(pick(0, 4))], part.max);
            all.push_back(marks);
        }
        return all;
    }

    std::mt19937 dice_;
};

/// What every topic has to add up to, found part by part.
struct Naive {
    std::size_t parts = 0;
    int marks = 0, in_time = 0, overtime = 0, stated = 0, coded = 0;
    std::set<std::pair<std::string, std::size_t>> distinct;
};

std::map<std::string, Naive> naively(const std::vector<std::vector<PaperMarks>>& candidates) {
    std::map<std::string, Naive> topics;
    for (const auto& candidate : candidates)
        for (const PaperMarks& unseen : candidate)
            for (std::size_t i = 0; i < unseen.parts.size(); ++i) {
                const Part& part = unseen.paper->parts()[i];
                const PartMarks& marks = unseen.parts[i];
                const int max = part.max.count();
                Naive& topic = topics[part.topic];
                ++topic.parts;
                topic.marks += max;
                topic.in_time += marks.in_time().count();
                topic.overtime += marks.overtime().count();
                topic.stated += marks.reason() ? max - marks.unaided().count() : 0;
                topic.coded += lost_by_code(part, marks) ? max - marks.unaided().count() : 0;
                topic.distinct.emplace(unseen.paper->id(), i);
            }
    return topics;
}

int sum_of(const LostByCode& lost) {
    return (lost.method + lost.accuracy + lost.independent + lost.other).count();
}

} // namespace

TEST_CASE("marks add up in every topic, by reason, by code and by cause") {
    Drawn drawn(7);
    std::size_t seen = 0;
    for (int round = 0; round < 600; ++round) {
        const auto candidates = drawn.candidates();
        const auto topics = diagnose(candidates);
        auto expected = naively(candidates);
        REQUIRE(topics.size() == expected.size());
        for (const TopicDiagnosis& topic : topics) {
            const Naive& naive = expected.at(topic.topic);
            CAPTURE(round, topic.topic);
            REQUIRE(topic.parts == naive.parts);
            REQUIRE(topic.distinct_parts == naive.distinct.size());
            REQUIRE(topic.marks.count() == naive.marks);
            REQUIRE(topic.in_time.count() == naive.in_time);
            REQUIRE(topic.overtime.count() == naive.overtime);
            const Marks lost = topic.marks - topic.unaided();
            REQUIRE(topic.lost.all() == lost);
            REQUIRE((lost - topic.lost.unstated).count() == naive.stated);
            REQUIRE(sum_of(topic.lost_by_code) == naive.coded);
            REQUIRE(topic.lost_code_unknown.count() == lost.count() - naive.coded);
            REQUIRE(topic.lost_by_cause.all() == topic.lost_in_time());
            ++seen;
        }
    }
    CHECK(seen > 1000);
}

TEST_CASE("an interval of a topic's own marks holds their share") {
    Drawn drawn(8);
    for (int round = 0; round < 400; ++round)
        for (const TopicDiagnosis& topic : diagnose(drawn.candidates())) {
            const double share = static_cast<double>(topic.unaided().count()) / topic.marks.count();
            CAPTURE(round, topic.topic, share);
            REQUIRE(topic.unaided_interval.low > 0);
            REQUIRE(topic.unaided_interval.high < 1);
            if (share > 0.02 && share < 0.98) {
                REQUIRE(topic.unaided_interval.low < share);
                REQUIRE(topic.unaided_interval.high > share);
            }
        }
}

TEST_CASE("advice keeps to its thresholds, whatever the marks") {
    Drawn drawn(10);
    std::mt19937 dice(10);
    std::map<std::pair<Advice, bool>, int> seen;
    for (int round = 0; round < 600; ++round)
        for (TopicDiagnosis& topic : diagnose(drawn.candidates())) {
            if (topic.topic.empty())
                continue;
            const double share = test::pick(dice, 0, 100) / 100.0;
            const double below = std::clamp(1.6 - share + test::pick(dice, -80, 80) / 100.0, 0.0, 1.0);
            add_outlook(topic, {share, {share, share}, below, 1, 0.2});
            REQUIRE(topic.advice.has_value());
            ++seen[{topic.advice->what, topic.advice->sure}];
            CAPTURE(round, topic.topic, share, below, topic.parts);
            if (topic.advice->sure && topic.advice->what != Advice::firm)
                REQUIRE(below >= TopicDiagnosis::advised_chance);
            if (topic.advice->sure && topic.advice->what == Advice::firm)
                REQUIRE(below <= TopicDiagnosis::firm_chance);
            if (topic.distinct_parts < TopicDiagnosis::min_parts && topic.advice->sure)
                REQUIRE((topic.advice->what != Advice::firm && topic.advice->what != Advice::relearn));
        }
    CHECK(seen.size() == 12);
}

TEST_CASE("the order of papers and of candidates makes no difference") {
    Drawn drawn(9);
    std::mt19937 dice(9);
    for (int round = 0; round < 300; ++round) {
        auto candidates = drawn.candidates();
        const auto topics = diagnose(candidates);
        std::shuffle(candidates.begin(), candidates.end(), dice);
        for (auto& unseen : candidates)
            std::shuffle(unseen.begin(), unseen.end(), dice);
        const auto shuffled = diagnose(candidates);
        REQUIRE(names_of(shuffled) == names_of(topics));
        for (std::size_t i = 0; i < topics.size(); ++i) {
            CAPTURE(round, topics[i].topic);
            REQUIRE(shuffled[i].marks == topics[i].marks);
            REQUIRE(shuffled[i].lost_by_cause.known == topics[i].lost_by_cause.known);
            REQUIRE((!topics[i].topic.empty() || i + 1 == topics.size()));
        }
    }
}
