// Fits of linear mixed models by R 4.2.2 with lme4 1.1-31 (D. Bates, M. Mächler, B. Bolker & S. Walker 2015,
// "Fitting linear mixed-effects models using lme4", Journal of Statistical Software 67 (1)), by restricted
// maximum likelihood; tests/reference/ability.R made the data and the values.

#include "core/statistics/fit.hpp"

#include "catch.hpp"
#include "lsat6.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using namespace inkturn::test;
using Eigen::Index;

namespace {

std::vector<std::vector<std::string>> rows_of_file(const std::string& name) {
    std::ifstream file(std::string(INKTURN_ABILITY_REFERENCE) + "/" + name);
    REQUIRE(file);
    std::vector<std::vector<std::string>> rows;
    std::string line;
    std::getline(file, line); // the header
    while (std::getline(file, line)) {
        std::vector<std::string> row;
        std::istringstream cells(line);
        for (std::string cell; std::getline(cells, cell, ',');)
            row.push_back(cell);
        rows.push_back(row);
    }
    return rows;
}

/// What lme4 found.
class Fitted {
  public:
    explicit Fitted(const std::string& name) {
        for (const auto& row : rows_of_file(name + ".fitted.csv"))
            if (row[0] != "software")
                values_[row[0] + "," + row[1]] = std::strtod(row[2].c_str(), nullptr);
    }
    double operator()(const std::string& what, const std::string& of = "") const {
        return values_.at(what + "," + of);
    }
    double largest(const std::string& what) const {
        double most = 0;
        for (const auto& [name, value] : values_)
            if (name.rfind(what + ",", 0) == 0)
                most = std::max(most, std::abs(value));
        return most;
    }
    bool has(const std::string& what, const std::string& of) const {
        return values_.count(what + "," + of) > 0;
    }

  private:
    std::map<std::string, double> values_;
};

struct Named {
    Evidence evidence;
    std::vector<std::string> candidates;
    std::vector<std::string> parts;
    std::vector<std::string> topics;
};

std::size_t number_of(std::vector<std::string>& names, const std::string& name) {
    const auto at = std::find(names.begin(), names.end(), name);
    if (at != names.end())
        return static_cast<std::size_t>(at - names.begin());
    names.push_back(name);
    return names.size() - 1;
}

Named read(const std::string& name) {
    Named named;
    for (const auto& row : rows_of_file(name + ".csv")) {
        const std::size_t candidate = number_of(named.candidates, row[0]);
        const std::size_t part = number_of(named.parts, row[2]);
        const std::size_t topic = number_of(named.topics, row[3]);
        if (part == named.evidence.parts.size())
            named.evidence.parts.push_back({Marks(std::atoi(row[4].c_str())), topic});
        named.evidence.results.push_back(
            {candidate, part, Marks(std::atoi(row[5].c_str())), std::strtod(row[6].c_str(), nullptr)});
    }
    named.evidence.candidates = named.candidates.size();
    named.evidence.topics = named.topics.size();
    return named;
}

Named read_lsat6(bool with_topics) {
    Named named;
    named.parts = {"1", "2", "3", "4", "5"};
    if (with_topics)
        named.topics = {"hard", "other"};
    named.evidence.topics = named.topics.size();
    for (std::size_t part = 0; part < 5; ++part) {
        std::optional<std::size_t> topic;
        if (with_topics)
            topic = part == 1 || part == 2 ? 0 : 1;
        named.evidence.parts.push_back({Marks(1), topic});
    }
    for (const Pattern& pattern : lsat6)
        for (int i = 0; i < pattern.candidates; ++i) {
            for (std::size_t part = 0; part < 5; ++part)
                named.evidence.results.push_back(
                    {named.candidates.size(), part, Marks(pattern.answers[part] == '1' ? 1 : 0), 0});
            named.candidates.emplace_back(pattern.answers);
        }
    named.evidence.candidates = named.candidates.size();
    return named;
}

struct Variance {
    const char* name;
    Scatter scatter;
};

/// Fits with nothing but the evidence, from variances of a twentieth, and compares all that lme4 says.
void compare(const std::string& name, const Named& named, const std::vector<Variance>& variances,
             double steady) {
    const Fitted fitted(name);
    const AlikeEvidence together = alike(named.evidence, 0.5, 0.0);
    const MixedModel model(together, named.evidence.topics, {});
    std::vector<Scatter> to_fit;
    Scatters start{};
    start.fill(1e-12); // what is not fitted is hardly there
    for (const Variance& variance : variances) {
        to_fit.push_back(variance.scatter);
        of(start, variance.scatter) = 0.05;
    }
    of(start, Scatter::steady) = steady;
    const SolvedModel solved = model.solve(likeliest(model, start, to_fit, false, 1e-10));

    CHECK_THAT(-solved.deviance / 2, WithinAbs(fitted("log likelihood"), 1e-5));
    CHECK_THAT(solved.paper[0] + 0.5, WithinAbs(fitted("level"), 1e-5));
    for (const Variance& variance : variances) {
        const double value = fitted("variance", variance.name);
        INFO(name << ": " << variance.name);
        CHECK_THAT(of(solved.variances, variance.scatter), WithinAbs(value, 1e-4 * value));
    }
    const double close_to_part = 1e-4 * fitted.largest("part");
    for (std::size_t part = 0; part < named.parts.size(); ++part)
        CHECK_THAT(solved.part_effects[together.part_numbers[part].value()],
                   WithinAbs(fitted("part", named.parts[part]), close_to_part));
    for (std::size_t topic = 0; topic < named.topics.size(); ++topic)
        CHECK_THAT(solved.paper[1 + static_cast<Index>(topic)],
                   WithinAbs(fitted("topic", named.topics[topic]), 1e-4 * fitted.largest("topic")));
    for (std::size_t candidate = 0; candidate < named.candidates.size(); ++candidate) {
        const auto [number, member] = together.places[candidate].value();
        const AlikeEvidence::Pattern& pattern = together.patterns[number];
        const Eigen::VectorXd means = model.known_of(solved, number, member).means;
        const std::string& code = named.candidates[candidate];
        CHECK_THAT(means[0], WithinAbs(fitted("candidate", code), 1e-4 * fitted.largest("candidate")));
        if (fitted.has("trend", code))
            CHECK_THAT(means[1], WithinAbs(fitted("trend", code), 1e-4 * fitted.largest("trend")));
        for (std::size_t i = 0; i < pattern.topics.size(); ++i)
            CHECK_THAT(
                means[static_cast<Index>(i) + (pattern.trend ? 2 : 1)],
                WithinAbs(fitted("candidate on topic", code + " on " + named.topics[pattern.topics[i]]),
                          1e-4 * fitted.largest("candidate on topic")));
    }
}

const std::vector<Variance> with_topics{{"candidate", Scatter::candidate},
                                        {"part", Scatter::part},
                                        {"topic", Scatter::topic},
                                        {"candidate on topic", Scatter::candidate_topic},
                                        {"rest", Scatter::rest}};

} // namespace

TEST_CASE("lme4 1.1-31: a class that sat two papers whole", "[reference]") {
    compare("complete", read("complete"), with_topics, 1);
}

TEST_CASE("lme4 1.1-31: the same, with the rest's variance divided by the marks", "[reference]") {
    compare("weighted", read("complete"), with_topics, 0);
}

TEST_CASE("lme4 1.1-31: a class with absences and parts that were not set", "[reference]") {
    compare("unbalanced", read("unbalanced"), with_topics, 1);
}

TEST_CASE("lme4 1.1-31: candidates who gain over time", "[reference]") {
    std::vector<Variance> variances = with_topics;
    variances.push_back({"trend", Scatter::trend});
    compare("trend", read("trend"), variances, 1);
}

TEST_CASE("lme4 1.1-31: LSAT section 6", "[reference]") {
    compare("lsat6", read_lsat6(false),
            {{"candidate", Scatter::candidate}, {"part", Scatter::part}, {"rest", Scatter::rest}}, 1);
}

TEST_CASE("lme4 1.1-31: LSAT section 6 with its parts in two topics", "[reference]") {
    compare("lsat6_topics", read_lsat6(true), with_topics, 1);
}
