#include "catch.hpp"
#include "core/statistics/analyses.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr int questions = 10;
constexpr int parts_each = 4;
constexpr int part_marks = 3;

Paper paper_in_parts() {
    std::vector<Part> parts;
    for (int question = 1; question <= questions; ++question)
        for (int part = 0; part < parts_each; ++part)
            parts.push_back({text(question) + static_cast<char>('a' + part), Marks(part_marks), "", ""});
    return Paper({"made-up", "", "", {}, RetryBy::question}, parts);
}

/// About a standard normal number.
double normal(std::mt19937& dice) {
    double sum = 0;
    for (int i = 0; i < 12; ++i)
        sum += pick(dice, 0, 1000) / 1000.0;
    return sum - 6;
}

/// A candidate's marks on a paper whose questions are drawn anew: the parts of a question share how it lies
/// with the candidate, so they lean on each other.
std::vector<PartMarks> sitting_by(double able, std::mt19937& dice) {
    std::vector<PartMarks> marks;
    for (int question = 0; question < questions; ++question) {
        const double lies = normal(dice);
        for (int part = 0; part < parts_each; ++part) {
            const double earned = std::round(1.5 + able + lies + normal(dice));
            marks.push_back(full_marks(Marks(static_cast<int>(std::clamp(earned, 0.0, 3.0)))));
        }
    }
    return marks;
}

int total_of(const std::vector<PartMarks>& marks) {
    int total = 0;
    for (const PartMarks& part : marks)
        total += part.unaided().count();
    return total;
}

} // namespace

TEST_CASE("the standard error over questions is what totals truly vary by where parts lean on each other") {
    std::mt19937 dice(16);
    const Paper in_parts = paper_in_parts();
    ClassMarks over_questions(in_parts);
    ClassMarks over_parts(paper_of(std::vector<int>(questions * parts_each, part_marks)));
    double squares = 0;
    constexpr int candidates = 4000;
    for (int i = 0; i < candidates; ++i) {
        const double able = normal(dice);
        const std::vector<PartMarks> first = sitting_by(able, dice);
        const double difference = total_of(first) - total_of(sitting_by(able, dice));
        squares += difference * difference;
        over_questions.add(first);
        over_parts.add(first);
    }
    const double truth = std::sqrt(squares / candidates / 2);
    const double by_questions = over_questions.analysis().standard_error.value();
    const double by_parts = over_parts.analysis().standard_error.value();
    CAPTURE(truth, by_questions, by_parts);
    CHECK(std::fabs(by_questions - truth) < 0.03 * truth);
    CHECK(by_parts < 0.8 * truth);
}
