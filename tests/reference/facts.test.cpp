#include "exchange/csv/facts.hpp"
#include "exchange/csv/csv.hpp"

#include "catch.hpp"

#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

/// Exponents of the base units: `kg m^2 s^-2`. Those that are 0 are left out.
using Unit = std::map<std::string, int>;

Unit product(const Unit& left, const Unit& right, int power = 1) {
    Unit unit = left;
    for (const auto& [base, exponent] : right)
        if ((unit[base] += power * exponent) == 0)
            unit.erase(base);
    return unit;
}

Unit parse_unit(const std::string& text) {
    Unit unit;
    std::istringstream in(text);
    for (std::string factor; in >> factor;) {
        const auto caret = factor.find('^');
        const int exponent = caret == std::string::npos ? 1 : std::stoi(factor.substr(caret + 1));
        unit = product(unit, {{factor.substr(0, caret), exponent}});
    }
    return unit;
}

std::vector<Fact> facts_in(const char* file) {
    std::ifstream in(file);
    CsvReader rows(in, {});
    ProblemList problems;
    std::vector<Fact> facts = read_facts_rows(rows, {}, problems);
    REQUIRE(problems.empty());
    return facts;
}

std::map<std::string, std::string> answers_in(const char* file) {
    std::map<std::string, std::string> answers;
    for (const Fact& fact : facts_in(file))
        answers[fact.prompt] = fact.answer;
    return answers;
}

struct Law {
    std::string answer;
    std::function<double(double a, int m, int n)> asked;
    std::function<double(double a, int m, int n)> answered;
};

} // namespace

TEST_CASE("BIPM, The International System of Units, 9th edition 2019, Table 4, from memory: a sheet of units "
          "is read as it stands there",
          "[reference]") {
    CHECK(answers_in(INKTURN_SI_UNITS) == std::map<std::string, std::string>{{"newton", "kg m s^-2"},
                                                                             {"pascal", "kg m^-1 s^-2"},
                                                                             {"joule", "kg m^2 s^-2"},
                                                                             {"watt", "kg m^2 s^-3"},
                                                                             {"coulomb", "A s"},
                                                                             {"volt", "kg m^2 s^-3 A^-1"},
                                                                             {"hertz", "s^-1"}});
}

TEST_CASE("BIPM, The International System of Units, 9th edition 2019, Table 4, from memory: the units of the "
          "sheet agree with each other",
          "[reference]") {
    std::map<std::string, Unit> units;
    for (const auto& [prompt, answer] : answers_in(INKTURN_SI_UNITS))
        units[prompt] = parse_unit(answer);
    const Unit metre{{"m", 1}};
    const Unit second{{"s", 1}};
    const Unit ampere{{"A", 1}};
    CHECK(units["joule"] == product(units["newton"], metre));
    CHECK(units["pascal"] == product(units["newton"], metre, -2));
    CHECK(units["watt"] == product(units["joule"], second, -1));
    CHECK(units["watt"] == product(units["joule"], units["hertz"]));
    CHECK(units["volt"] == product(units["watt"], ampere, -1));
    CHECK(units["volt"] == product(units["joule"], units["coulomb"], -1));
    CHECK(units["coulomb"] == product(ampere, second));
}

TEST_CASE("each answer of the demo's sheet, laws of indices, is worth what its prompt asks for") {
    const std::map<std::string, Law> laws{
        {"a^m times a^n",
         {"a^(m + n)", [](double a, int m, int n) { return std::pow(a, m) * std::pow(a, n); },
          [](double a, int m, int n) { return std::pow(a, m + n); }}},
        {"a^m divided by a^n",
         {"a^(m - n)", [](double a, int m, int n) { return std::pow(a, m) / std::pow(a, n); },
          [](double a, int m, int n) { return std::pow(a, m - n); }}},
        {"(a^m)^n",
         {"a^(mn)", [](double a, int m, int n) { return std::pow(std::pow(a, m), n); },
          [](double a, int m, int n) { return std::pow(a, m * n); }}},
        {"a^0 where a is not 0",
         {"1", [](double a, int, int) { return std::pow(a, 0); }, [](double, int, int) { return 1.0; }}},
        {"a^(-n)",
         {"1/a^n", [](double a, int, int n) { return std::pow(a, -n); },
          [](double a, int, int n) { return 1 / std::pow(a, n); }}},
        {"a^(m/n)",
         {"nth root of a^m", [](double a, int m, int n) { return std::pow(a, static_cast<double>(m) / n); },
          [](double a, int m, int n) { return std::exp(std::log(std::pow(a, m)) / n); }}}};
    const std::vector<Fact> facts = facts_in(INKTURN_DEMO_FACTS);
    CHECK(facts.size() == laws.size());
    for (const Fact& fact : facts) {
        CAPTURE(fact.prompt, fact.answer);
        const Law& law = laws.at(fact.prompt);
        CHECK(fact.answer == law.answer);
        CHECK(fact.topic == "indices");
        for (const double a : {0.5, 2.0, 3.5})
            for (const int m : {-2, 1, 3})
                for (const int n : {2, 5}) {
                    const double asked = law.asked(a, m, n);
                    CHECK(std::abs(law.answered(a, m, n) - asked) < 1e-9 * (1 + asked));
                }
    }
}
