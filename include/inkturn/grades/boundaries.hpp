#pragma once

#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The most grades that a boundary set may have: a series with a grade for each per cent, and room to spare.
constexpr std::size_t max_set_grades = 120;

/// The fewest marks that bought a grade.
struct GradeBoundary {
    std::string grade;
    Marks mark;
};

/// How the grades between two judged ones are set.
enum class FillRule : std::uint8_t {
    quarters, ///< whole steps as even as possible, the longer ones at the top; of A to E
    thirds,   ///< even steps in fractions of a mark, each boundary rounded down; of B to E
    halves    ///< as thirds; one grade between two
};

/// The marks that bought each grade in one series of an exam.
struct BoundarySet {
    std::string name;                  ///< of the series, such as `Saltmarsh, spring`
    std::string subject;               ///< empty: all subjects
    Marks total;                       ///< what the marks are out of, 1 to max_set_marks
    std::vector<GradeBoundary> grades; ///< from the top down
    std::optional<FillRule> filled{};  ///< how those between the top and the bottom one were worked out
};

/// Whether name, subject, total and boundaries agree, however they were found.
bool operator==(const BoundarySet& a, const BoundarySet& b);

/// `Saltmarsh, spring`; with `, filled in` where boundaries were worked out.
std::string name_of(const BoundarySet& set);

constexpr Marks max_set_marks{1'000'000};

/// Throws Error unless the set can be worked with: a name, at least one grade, each of 1 to 16 printable
/// characters and named once, marks from 0 to the total that fall from each grade to the next.
void check_boundary_set(const BoundarySet& set);

std::string_view name(FillRule rule) noexcept;
std::optional<FillRule> fill_rule_named(std::string_view name) noexcept;

/// The steps from the top to the bottom grade that a rule is named for.
std::size_t steps_of(FillRule rule) noexcept;

/// The boundaries from the top grade down to the bottom one, those between them set by the rule. Grades may
/// be named, three or more, all of them from the top down; else they are capital letters that follow one
/// another, as many as the rule has steps. The rule may be left out where there are four steps: quarters.
/// Throws Error where grades and rule don't fit, the bottom is not below the top, or there are fewer marks
/// between them than steps.
std::vector<GradeBoundary> fill(const GradeBoundary& top, const GradeBoundary& bottom,
                                std::optional<FillRule> rule = {}, std::vector<std::string> grades = {});

/// Where the boundary of a grade lies, from the lowest to the highest over sets, as shares of their totals.
struct GradeBand {
    std::string grade;
    double low;  ///< 0 to high
    double high; ///< at most 1
};

/// The bands of all grades that the sets have, from the top down by their middles.
std::vector<GradeBand> grade_bands(const std::vector<BoundarySet>& sets);

/// What a mark gets under a set.
struct GradeResult {
    std::optional<std::size_t> grade; ///< position in BoundarySet::grades; nothing: below the lowest
    std::optional<Marks> clear;       ///< above the boundary of that grade; nothing below the lowest
    std::optional<Marks> short_by;    ///< of the grade above; nothing with the top grade
};

/// The mark is out of the set's total.
GradeResult grade_of(const BoundarySet& set, Marks mark);

/// How many grades lie from one to another under the same set, below the lowest counting as a grade too;
/// below 0 where `to` is the lower.
int grades_gained(const BoundarySet& set, const GradeResult& from, const GradeResult& to);

/// A raw mark and the uniform mark it stands for.
struct ScalePoint {
    Marks raw;
    Marks uniform;
};

/// Scales raw marks to uniform marks, linearly between points; made by uniform_scale().
using UniformScale = std::vector<ScalePoint>; ///< raw marks ascend, uniform marks don't fall

/// The scale through 0, a set's boundaries with the uniform marks given for them (one per grade, from the top
/// down) and, if the uniform maximum is given, the set's total. Throws Error unless there is one uniform mark
/// per grade, or if they don't fall, are below 0 or not below the maximum, or a maximum is given although the
/// top boundary is the total.
UniformScale uniform_scale(const BoundarySet& set, const std::vector<Marks>& uniform,
                           std::optional<Marks> uniform_total = {});

/// The uniform mark, a half rounded up. Throws Error where the raw mark lies below or above the scale.
Marks scaled(const UniformScale& scale, Marks raw);

} // namespace inkturn
