#include "exchange/csv/facts.hpp"

#include "catch.hpp"

#include <cctype>
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <stdexcept>
#include <string>

namespace {

using namespace inkturn;
using Function = std::function<double(double)>;

const std::map<std::string, Function> functions{
    {"sin", [](double x) { return std::sin(x); }},     {"cos", [](double x) { return std::cos(x); }},
    {"tan", [](double x) { return std::tan(x); }},     {"csc", [](double x) { return 1 / std::sin(x); }},
    {"sec", [](double x) { return 1 / std::cos(x); }}, {"cot", [](double x) { return 1 / std::tan(x); }}};

/// `sin x`, `-csc x cot x`, `sec^2 x`: an optional sign, then factors, each a function, perhaps squared, of
/// x.
class Product {
  public:
    Product(const std::string& text, double x) : text_(text), x_(x) {}

    double value() {
        double product = takes("-") ? -1 : 1;
        do
            product *= factor();
        while (takes(" "));
        if (at_ != text_.size())
            throw std::runtime_error("'" + text_ + "' is no product of functions");
        return product;
    }

  private:
    bool takes(const std::string& piece) {
        if (text_.compare(at_, piece.size(), piece) != 0)
            return false;
        at_ += piece.size();
        return true;
    }

    double factor() {
        std::string name;
        while (at_ < text_.size() && std::isalpha(static_cast<unsigned char>(text_[at_])))
            name += text_[at_++];
        const double value = functions.at(name)(x_);
        const bool is_squared = takes("^2");
        if (!takes(" x"))
            throw std::runtime_error("'" + text_ + "': no x after " + name);
        return is_squared ? value * value : value;
    }

    const std::string& text_;
    double x_;
    std::size_t at_ = 0;
};

double central_difference(const Function& function, double x) {
    const double step = 1e-5;
    return (function(x + step) - function(x - step)) / (2 * step);
}

std::vector<Fact> demo_facts() {
    std::ifstream in(INKTURN_DEMO_FACTS);
    ProblemList problems;
    std::vector<Fact> facts = read_facts_csv(in, {}, {}, problems);
    REQUIRE(problems.empty());
    return facts;
}

} // namespace

TEST_CASE("Abramowitz & Stegun, NBS Applied Mathematics Series 55, p. 77, 4.3.105-110: each answer of the "
          "demo's sheet is the derivative that its prompt asks for, by a central difference",
          "[reference]") {
    const std::string prompt = "derivative of ";
    const std::vector<Fact> facts = demo_facts();
    std::map<std::string, int> asked;
    for (const Fact& fact : facts) {
        CAPTURE(fact.prompt, fact.answer);
        CHECK(fact.topic == "derivatives");
        REQUIRE(fact.prompt.compare(0, prompt.size(), prompt) == 0);
        const std::string of = fact.prompt.substr(prompt.size());
        const Function function = [&](double x) { return Product(of, x).value(); };
        for (const double x : {0.3, 0.7, 1.1, 1.9, 2.6, 4.0, 5.5}) { // off the poles
            CAPTURE(x);
            const double slope = central_difference(function, x);
            CHECK(std::abs(Product(fact.answer, x).value() - slope) < 1e-6 * (1 + std::abs(slope)));
        }
        ++asked[of];
    }
    CHECK(facts.size() == 6);
    CHECK(asked == std::map<std::string, int>{
                       {"sin x", 1}, {"cos x", 1}, {"tan x", 1}, {"csc x", 1}, {"sec x", 1}, {"cot x", 1}});
}

TEST_CASE("Abramowitz & Stegun, NBS Applied Mathematics Series 55, p. 77, 4.3.105-110: the demo's answers as "
          "they stand there",
          "[reference]") {
    std::map<std::string, std::string> answers;
    for (const Fact& fact : demo_facts())
        answers[fact.prompt.substr(14)] = fact.answer;
    CHECK(answers == std::map<std::string, std::string>{{"sin x", "cos x"},
                                                        {"cos x", "-sin x"},
                                                        {"tan x", "sec^2 x"},
                                                        {"csc x", "-csc x cot x"},
                                                        {"sec x", "sec x tan x"},
                                                        {"cot x", "-csc^2 x"}});
}
