// How often the ranges of what candidates can do hold the truth, for candidates made up by several processes:
// prints a line for each. The seeds are fixed, so every run prints the same.

#include "inkturn/statistics/abilities.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr double firm_from = 0.8; // of the marks
constexpr double firm_chance = 0.05;

struct Process {
    std::string name;
    std::size_t class_size = 25;
    int fewest_papers = 3;
    int most_papers = 3;
    std::size_t parts = 14;
    std::size_t topics = 8;
    double candidates = 0.8; ///< deviations, in logits
    double difficulty = 0.8;
    double on_topic = 0.5;
    double weak_topic = 0; ///< logits off one topic of each candidate
    double trend = 0;      ///< logits a paper
    double guessed = 0;    ///< the least chance of a mark
    bool all_or_nothing = false;
    bool linear = false; ///< as the model itself has it
};

double logistic(double x) {
    return 1 / (1 + std::exp(-x));
}

/// Makes up classes by a process and compares what is said of them with what is so.
class Trial {
  public:
    Trial(const Process& process, unsigned seed) : process_(process), random_(seed) {}

    void run(std::size_t candidates) {
        while (done_ < candidates)
            run_class();
        print();
    }

  private:
    double normal(double deviation) { return deviation * normal_(random_); }
    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    double share(double ability) const {
        if (process_.linear)
            return std::clamp(0.6 + 0.2 * ability, 0.0, 1.0);
        return process_.guessed + (1 - process_.guessed) * logistic(ability);
    }

    /// The share that a part of so many marks brings on average.
    double brought(double share, int marks) const {
        if (!process_.linear)
            return share;
        double sum = 0;
        for (int mark = 1; mark <= marks; ++mark) // the chance of so many marks at least
            sum += std::erfc(((mark - 0.5) / marks - share) / rest(marks) / std::sqrt(2.0)) / 2;
        return sum / marks;
    }
    static double rest(int marks) { return 0.3 * std::sqrt(0.35 + 0.65 / marks); }

    /// Over parts of any difficulty.
    double expected(double ability) const {
        double sum = 0;
        double weights = 0;
        for (double z = -4; z <= 4; z += 0.1) {
            const double weight = std::exp(-z * z / 2);
            weights += weight;
            for (int marks = 1; marks <= 7; ++marks)
                sum += weight / 7 * brought(share(ability + process_.difficulty * z), marks);
        }
        return sum / weights;
    }

    int earned(double share, int marks) {
        if (process_.all_or_nothing)
            return std::bernoulli_distribution(share)(random_) ? marks : 0;
        if (process_.linear) {
            const double noise = normal(rest(marks));
            return std::clamp(static_cast<int>(std::lround((share + noise) * marks)), 0, marks);
        }
        constexpr double lean = 4; // marks of a part lean on each other
        const double one = std::gamma_distribution<double>(lean * share, 1)(random_);
        const double other = std::gamma_distribution<double>(lean * (1 - share), 1)(random_);
        return std::binomial_distribution<int>(marks, one / (one + other))(random_);
    }

    void run_class() {
        Evidence evidence;
        evidence.candidates = process_.class_size;
        evidence.topics = process_.topics;
        const std::size_t papers = static_cast<std::size_t>(process_.most_papers);
        std::vector<double> ease;
        std::vector<double> topic_ease;
        for (std::size_t topic = 0; topic < process_.topics; ++topic)
            topic_ease.push_back(0.4 + normal(0.3));
        for (std::size_t part = 0; part < papers * process_.parts; ++part) {
            const auto topic = static_cast<std::size_t>(whole(0, static_cast<int>(process_.topics) - 1));
            evidence.parts.push_back({Marks(whole(1, 7)), topic});
            ease.push_back(normal(process_.difficulty));
        }
        std::vector<std::vector<double>> topics;
        for (std::size_t c = 0; c < process_.class_size; ++c)
            topics.push_back(sit(evidence, c, ease, topic_ease));
        compare(evidence, topics);
    }

    std::vector<double> sit(Evidence& evidence, std::size_t c, const std::vector<double>& ease,
                            const std::vector<double>& topic_ease) {
        const double level = normal(process_.candidates);
        const auto weak = static_cast<std::size_t>(whole(0, static_cast<int>(process_.topics) - 1));
        const int papers = whole(process_.fewest_papers, process_.most_papers);
        std::vector<double> abilities;
        for (std::size_t topic = 0; topic < process_.topics; ++topic)
            abilities.push_back(level + topic_ease[topic] + normal(process_.on_topic) -
                                (topic == weak ? process_.weak_topic : 0));
        for (int paper = 0; paper < papers; ++paper)
            for (std::size_t i = 0; i < process_.parts; ++i) {
                const std::size_t part = static_cast<std::size_t>(paper) * process_.parts + i;
                const int marks = evidence.parts[part].max.count();
                const double ability =
                    abilities[*evidence.parts[part].topic] + process_.trend * (paper - papers + 1);
                evidence.results.push_back(
                    {c, part, Marks(earned(share(ability + ease[part]), marks)), paper * 0.5});
            }
        return abilities;
    }

    std::size_t parts_seen(const Evidence& evidence, std::size_t candidate, std::size_t topic) const {
        return static_cast<std::size_t>(std::count_if(
            evidence.results.begin(), evidence.results.end(), [&](const Evidence::Result& result) {
                return result.candidate == candidate && evidence.parts[result.part].topic == topic;
            }));
    }

    /// Of a new paper, by what the candidate can do on each topic.
    double sit_new(const std::vector<double>& topics, const std::vector<Evidence::Part>& paper) {
        double sum = 0;
        double marks = 0;
        for (const Evidence::Part& part : paper) {
            sum += earned(share(topics[*part.topic] + normal(process_.difficulty)), part.max.count());
            marks += part.max.count();
        }
        return sum / marks;
    }

    void compare_totals(const Abilities& abilities, std::size_t candidate, const std::vector<double>& topics,
                        const std::vector<Evidence::Part>& paper) {
        const UncertainShare foreseen = abilities.of(candidate).in_paper(paper);
        const double total = sit_new(topics, paper);
        const auto within = [&](const Interval& range) { return range.low <= total && total <= range.high; };
        held_half_ += within(foreseen.range(0.5)) ? 1 : 0;
        held_most_ += within(foreseen.range(0.9)) ? 1 : 0;
        total_width_ += foreseen.range(0.9).high - foreseen.range(0.9).low;
    }

    void compare(const Evidence& evidence, const std::vector<std::vector<double>>& topics) {
        const Abilities abilities(evidence);
        const std::vector<Evidence::Part> paper(
            evidence.parts.begin(), evidence.parts.begin() + static_cast<std::ptrdiff_t>(process_.parts));
        std::vector<std::vector<double>> truth = topics;
        for (std::size_t c = 0; c < truth.size(); ++c) {
            compare_totals(abilities, c, topics[c], paper);
            for (double& ability : truth[c])
                ability = expected(ability);
        }
        for (std::size_t c = 0; c < truth.size(); ++c) {
            ++done_;
            const auto weakest = static_cast<std::size_t>(std::min_element(truth[c].begin(), truth[c].end()) -
                                                          truth[c].begin());
            for (std::size_t topic = 0; topic < truth[c].size(); ++topic) {
                const UncertainShare expected = abilities.of(c).on_topic(topic);
                const Interval range = expected.range(0.8);
                const bool holds = range.low <= truth[c][topic] && truth[c][topic] <= range.high;
                ++ranges_;
                held_ += holds ? 1U : 0U;
                held_weakest_ += topic == weakest && holds ? 1U : 0U;
                width_ += range.high - range.low;
                const double off = expected.mean() - truth[c][topic];
                error_ += off * off;
                if (expected.below(firm_from) <= firm_chance && parts_seen(evidence, c, topic) >= 2) {
                    ++firm_;
                    not_firm_ += truth[c][topic] < firm_from ? 1U : 0U;
                }
            }
        }
    }

    void print() const {
        const auto all = static_cast<double>(ranges_);
        const auto done = static_cast<double>(done_);
        std::printf(
            "%-20s topics: 80%% ranges hold %.3f, the weakest %.3f; width %.3f, error %.3f; firm %5zu, "
            "of them below 0.8 %.3f; totals: 50%% hold %.3f, 90%% hold %.3f, width %.2f\n",
            process_.name.c_str(), static_cast<double>(held_) / all,
            static_cast<double>(held_weakest_) / done, width_ / all, std::sqrt(error_ / all), firm_,
            firm_ == 0 ? 0.0 : static_cast<double>(not_firm_) / static_cast<double>(firm_), held_half_ / done,
            held_most_ / done, total_width_ / done);
    }

    const Process& process_;
    std::mt19937 random_;
    std::normal_distribution<double> normal_;
    std::size_t done_ = 0;
    std::size_t ranges_ = 0;
    std::size_t held_ = 0;
    std::size_t held_weakest_ = 0;
    std::size_t firm_ = 0;
    std::size_t not_firm_ = 0;
    double width_ = 0;
    double held_half_ = 0;
    double held_most_ = 0;
    double total_width_ = 0;
    double error_ = 0;
};

std::vector<Process> processes() {
    std::vector<Process> all(8);
    all[0].name = "as the model";
    all[0].linear = true;
    all[1].name = "guessing";
    all[1].guessed = 0.25;
    all[2].name = "all or nothing";
    all[2].all_or_nothing = true;
    all[3].name = "one weak topic";
    all[3].on_topic = 0.2;
    all[3].weak_topic = 2;
    all[4].name = "mixed difficulty";
    all[4].difficulty = 1.6;
    all[5].name = "one candidate alone";
    all[5].class_size = 1;
    all[5].fewest_papers = all[5].most_papers = 4;
    all[6].name = "1 to 12 papers";
    all[6].fewest_papers = 1;
    all[6].most_papers = 12;
    all[7].name = "a trend";
    all[7].trend = 0.25;
    all[7].fewest_papers = all[7].most_papers = 6;
    return all;
}

} // namespace

int main(int count, char** arguments) {
    const std::size_t candidates = count > 1 ? std::stoul(arguments[1]) : 1000;
    unsigned seed = count > 2 ? static_cast<unsigned>(std::stoul(arguments[2])) : 1;
    for (const Process& process : processes())
        Trial(process, seed++).run(candidates);
}
