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
    bool is_guess = false;             ///< nobody set these boundaries: they were worked out from other ones
    std::string award{};               ///< whose total the marks are; empty: of papers of as many marks
    std::string component{};           ///< of the award, whose papers the marks are of; empty: of all of it
    std::vector<Marks> uniform{};      ///< for the grades' boundaries, as grades; empty: there are none
    std::optional<Marks> cap{};        ///< from here on a mark gets the uniform maximum; nothing: the total
};

/// Whether all agrees but how the boundaries between two were filled in.
bool operator==(const BoundarySet& a, const BoundarySet& b);

/// `Saltmarsh, spring`; with `, filled in` where boundaries were worked out; `guess: Saltmarsh, spring`.
std::string name_of(const BoundarySet& set);

/// Whether they have the same name, subject, award and component, of which no two sets on file may be.
bool is_same_series(const BoundarySet& a, const BoundarySet& b);

/// ` of pure`, ` of award A level maths`, ` of Paper 1, award A level maths`: whose boundaries they are;
/// empty where they are of any subject.
std::string owner_text(const BoundarySet& set);

constexpr Marks max_set_marks{1'000'000};

/// Throws Error unless the set can be worked with: a name, at least one grade, each of 1 to 16 printable
/// characters and named once, marks from 0 to the total that fall from each grade to the next; uniform marks,
/// if any, that fall too, one a grade; a cap above the top boundary, at most the total.
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

/// The set that a past one becomes if every boundary lies some marks higher, or lower where `harder_by` is
/// below 0: marked as a guess. It keeps the uniform marks; a cap moves along, to the total at most. Throws
/// Error where a boundary would leave 0 to the total, or for a move by 0.
BoundarySet guess_from(BoundarySet past, int harder_by, std::string name);

/// Where the boundary of a grade lies, from the lowest to the highest over sets, as shares of their totals.
struct GradeBand {
    std::string grade;
    double low;  ///< 0 to high
    double high; ///< at most 1
};

/// The bands of all grades that the sets have, without guesses, from the top down by their middles.
std::vector<GradeBand> grade_bands(const std::vector<BoundarySet>& sets);

/// The fewest marks that buy the grade; nothing where the set doesn't have it.
std::optional<Marks> find_boundary(const BoundarySet& set, const std::string& grade);

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

} // namespace inkturn
