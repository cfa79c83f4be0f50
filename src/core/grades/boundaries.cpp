#include "inkturn/grades/boundaries.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

constexpr std::size_t max_grade_length = 16;
constexpr std::size_t max_name_length = 200;

struct NamedRule {
    std::string_view name;
    std::size_t steps;
};

/// In the order of FillRule.
constexpr std::array<NamedRule, 3> rules{{{"quarters", 4}, {"thirds", 3}, {"halves", 2}}};

const NamedRule& named(FillRule rule) {
    return rules[static_cast<std::size_t>(rule)];
}

std::string text(Marks marks) {
    return std::to_string(marks.count());
}

/// `A at 39`.
std::string text(const GradeBoundary& boundary) {
    return boundary.grade + " at " + text(boundary.mark);
}

void check_grade(const std::string& grade) {
    check_printable(grade, max_grade_length, "grade '" + grade + "'");
    if (grade.empty() || grade.front() == ' ' || grade.back() == ' ')
        throw Error("grade '" + grade + "': give 1 to " + std::to_string(max_grade_length) +
                    " characters, no spaces at either end");
}

void check_not_doubled(const std::vector<std::string>& grades) {
    for (std::size_t i = 0; i < grades.size(); ++i)
        if (std::find(grades.begin(), grades.begin() + static_cast<std::ptrdiff_t>(i), grades[i]) !=
            grades.begin() + static_cast<std::ptrdiff_t>(i))
            throw Error("grade " + grades[i] + " appears twice: name each grade once");
}

void check_in_total(const GradeBoundary& boundary, Marks total) {
    if (boundary.mark > total)
        throw Error("grade " + text(boundary) + " is above the total of " + text(total) +
                    ": give a mark up to it, or the total that the boundaries are out of");
}

void check_grades(const std::vector<GradeBoundary>& grades, Marks total) {
    if (grades.empty())
        throw Error("there are no grades: give at least one with its mark");
    if (grades.size() > max_set_grades)
        throw Error("there are " + std::to_string(grades.size()) + " grades, and a set may have " +
                    std::to_string(max_set_grades));
    std::vector<std::string> names;
    for (const GradeBoundary& boundary : grades) {
        check_grade(boundary.grade);
        check_in_total(boundary, total);
        names.push_back(boundary.grade);
    }
    check_not_doubled(names);
    for (std::size_t i = 1; i < grades.size(); ++i)
        if (grades[i].mark >= grades[i - 1].mark)
            throw Error("grade " + text(grades[i]) + " is not below " + text(grades[i - 1]) +
                        ": give the grades from the top down, each with fewer marks than the one before");
}

void check_uniform_marks(const BoundarySet& set) {
    if (!set.uniform.empty() && set.uniform.size() != set.grades.size())
        throw Error("uniform marks: " + std::to_string(set.uniform.size()) + " for " +
                    std::to_string(set.grades.size()) + " grades; give one per grade, or none");
    for (std::size_t i = 1; i < set.uniform.size(); ++i)
        if (set.uniform[i] >= set.uniform[i - 1])
            throw Error("grade " + set.grades[i].grade + ", uniform mark " + text(set.uniform[i]) +
                        ", is not below " + text(set.uniform[i - 1]) +
                        ": give the uniform marks from the top down");
    if (set.cap && (set.uniform.empty() || *set.cap <= set.grades.front().mark || *set.cap > set.total))
        throw Error("the cap of " + text(*set.cap) +
                    (set.uniform.empty() ? " needs uniform marks beside the boundaries"
                                         : " must lie above grade " + text(set.grades.front()) +
                                               ", at the total of " + text(set.total) + " at most"));
}

bool is_capital(const std::string& grade) {
    return grade.size() == 1 && grade[0] >= 'A' && grade[0] <= 'Z';
}

std::vector<std::string> letters(const std::string& top, const std::string& bottom) {
    if (!is_capital(top) || !is_capital(bottom) || top >= bottom)
        throw Error("which grades lie between " + top + " and " + bottom +
                    " is not known: name all of them from the top down, such as A*,A,B,C,D,E");
    std::vector<std::string> grades;
    for (char letter = top[0]; letter <= bottom[0]; ++letter)
        grades.emplace_back(1, letter);
    return grades;
}

/// The grades to fill where none were named.
std::vector<std::string> letters_for(std::optional<FillRule> rule, const std::string& top,
                                     const std::string& bottom) {
    std::vector<std::string> grades = letters(top, bottom);
    const std::size_t steps = grades.size() - 1;
    if (rule && steps != steps_of(*rule))
        throw Error("from " + top + " to " + bottom + " there are " + std::to_string(steps) +
                    " steps, but the rule of " + std::string(name(*rule)) + " has " +
                    std::to_string(steps_of(*rule)) + ": use another rule, or name all grades");
    return grades;
}

void check_named(const std::vector<std::string>& grades, const std::string& top, const std::string& bottom) {
    for (const std::string& grade : grades)
        check_grade(grade);
    check_not_doubled(grades);
    if (grades.front() != top || grades.back() != bottom)
        throw Error("the grades named run from " + grades.front() + " to " + grades.back() +
                    ", but the marks given are for " + top + " and " + bottom +
                    ": name all grades from the top down, with both of these");
}

FillRule rule_for(std::size_t steps) {
    if (steps != steps_of(FillRule::quarters))
        throw Error("name a rule for " + std::to_string(steps) + " steps: quarters, thirds or halves");
    return FillRule::quarters;
}

void check_room(const GradeBoundary& top, const GradeBoundary& bottom, std::size_t steps) {
    check_in_total(top, max_set_marks);
    check_in_total(bottom, max_set_marks);
    if (top.mark <= bottom.mark)
        throw Error("grade " + text(top) + " is not above " + text(bottom) +
                    ": give the higher mark to the top grade");
    if (static_cast<std::size_t>((top.mark - bottom.mark).count()) < steps)
        throw Error("from " + text(top) + " to " + text(bottom) + " there are fewer marks than the " +
                    std::to_string(steps) + " steps between the grades: check both marks");
}

/// The boundary `i` steps below the top: of the steps, the first `longer` ones have a mark more.
int spread_from_top(int top, int bottom, int steps, int i) {
    const int shorter = (top - bottom) / steps;
    const int longer = (top - bottom) % steps;
    return top - i * shorter - std::min(i, longer);
}

/// ⌊top - i · (top - bottom) / steps⌋.
int rounded_down(int top, int bottom, int steps, int i) {
    const std::int64_t parts = std::int64_t{top} * steps - std::int64_t{i} * (top - bottom);
    return static_cast<int>(parts / steps);
}

} // namespace

bool operator==(const BoundarySet& a, const BoundarySet& b) {
    return a.name == b.name && a.subject == b.subject && a.total == b.total && a.is_guess == b.is_guess &&
           a.award == b.award && a.component == b.component && a.uniform == b.uniform && a.cap == b.cap &&
           std::equal(a.grades.begin(), a.grades.end(), b.grades.begin(), b.grades.end(),
                      [](const GradeBoundary& one, const GradeBoundary& other) {
                          return one.grade == other.grade && one.mark == other.mark;
                      });
}

std::string name_of(const BoundarySet& set) {
    return (set.is_guess ? "guess: " : "") + set.name + (set.filled ? ", filled in" : "");
}

bool is_same_series(const BoundarySet& a, const BoundarySet& b) {
    return a.name == b.name && a.subject == b.subject && a.award == b.award && a.component == b.component;
}

std::string owner_text(const BoundarySet& set) {
    if (!set.component.empty())
        return " of " + set.component + ", award " + set.award;
    if (!set.award.empty())
        return " of award " + set.award;
    return set.subject.empty() ? "" : " of " + set.subject;
}

void check_boundary_set(const BoundarySet& set) {
    if (set.name.empty())
        throw Error("a boundary set needs a name, such as 'Saltmarsh, spring'");
    check_printable(set.name, max_name_length, "the boundary set's name");
    const std::string where = "boundary set '" + set.name + "': ";
    check_printable(set.subject, max_name_length, where + "subject");
    check_printable(set.award, max_name_length, where + "award");
    check_printable(set.component, max_name_length, where + "component");
    if (set.total < Marks(1) || set.total > max_set_marks)
        throw Error(where + "the total can't be " + text(set.total) + ": give one from 1 to " +
                    text(max_set_marks));
    try {
        check_grades(set.grades, set.total);
        check_uniform_marks(set);
    } catch (const Error& error) {
        throw error.within(where);
    }
}

std::string_view name(FillRule rule) noexcept {
    return named(rule).name;
}

std::optional<FillRule> fill_rule_named(std::string_view name) noexcept {
    for (std::size_t i = 0; i < rules.size(); ++i)
        if (rules[i].name == name)
            return static_cast<FillRule>(i);
    return std::nullopt;
}

std::size_t steps_of(FillRule rule) noexcept {
    return named(rule).steps;
}

std::vector<GradeBoundary> fill(const GradeBoundary& top, const GradeBoundary& bottom,
                                std::optional<FillRule> rule, std::vector<std::string> grades) {
    check_grade(top.grade);
    check_grade(bottom.grade);
    if (grades.empty())
        grades = letters_for(rule, top.grade, bottom.grade);
    else
        check_named(grades, top.grade, bottom.grade);
    if (grades.size() < 3)
        throw Error("no grade lies between " + top.grade + " and " + bottom.grade +
                    ": there is nothing to fill in");
    const std::size_t steps = grades.size() - 1;
    if (!rule)
        rule = rule_for(steps);
    check_room(top, bottom, steps);

    const auto boundary = *rule == FillRule::quarters ? spread_from_top : rounded_down;
    std::vector<GradeBoundary> filled;
    for (std::size_t i = 0; i < grades.size(); ++i)
        filled.push_back(
            {std::move(grades[i]), Marks(boundary(top.mark.count(), bottom.mark.count(),
                                                  static_cast<int>(steps), static_cast<int>(i)))});
    return filled;
}

BoundarySet guess_from(BoundarySet past, int harder_by, std::string name) {
    check_boundary_set(past);
    if (harder_by == 0)
        throw Error("a guess by 0 marks is the set itself: say by how many marks the boundaries move");
    past.name = std::move(name);
    past.is_guess = true;
    for (GradeBoundary& boundary : past.grades) {
        const int moved = boundary.mark.count() + harder_by;
        if (moved < 0 || moved > past.total.count())
            throw Error("grade " + text(boundary) + " would move to " + std::to_string(moved) +
                        ", which is not from 0 to " + text(past.total) + ": move by fewer marks");
        boundary.mark = Marks(moved);
    }
    if (past.cap)
        past.cap = Marks(std::min(past.cap->count() + harder_by, past.total.count()));
    check_boundary_set(past);
    return past;
}

std::vector<GradeBand> grade_bands(const std::vector<BoundarySet>& sets) {
    std::vector<GradeBand> bands;
    for (const BoundarySet& set : sets) {
        check_boundary_set(set);
        if (set.is_guess)
            continue;
        for (const GradeBoundary& boundary : set.grades) {
            const double share = static_cast<double>(boundary.mark.count()) / set.total.count();
            const auto known = std::find_if(bands.begin(), bands.end(), [&](const GradeBand& band) {
                return band.grade == boundary.grade;
            });
            if (known == bands.end()) {
                bands.push_back({boundary.grade, share, share});
            } else {
                known->low = std::min(known->low, share);
                known->high = std::max(known->high, share);
            }
        }
    }
    std::stable_sort(bands.begin(), bands.end(),
                     [](const GradeBand& a, const GradeBand& b) { return a.low + a.high > b.low + b.high; });
    return bands;
}

std::optional<Marks> find_boundary(const BoundarySet& set, const std::string& grade) {
    for (const GradeBoundary& boundary : set.grades)
        if (boundary.grade == grade)
            return boundary.mark;
    return std::nullopt;
}

GradeResult grade_of(const BoundarySet& set, Marks mark) {
    const auto is_reached = [mark](const GradeBoundary& boundary) { return boundary.mark <= mark; };
    const auto found = std::find_if(set.grades.begin(), set.grades.end(), is_reached);
    GradeResult reached;
    if (found != set.grades.end()) {
        reached.grade = static_cast<std::size_t>(found - set.grades.begin());
        reached.clear = mark - found->mark;
    }
    if (found != set.grades.begin())
        reached.short_by = (found - 1)->mark - mark;
    return reached;
}

int grades_gained(const BoundarySet& set, const GradeResult& from, const GradeResult& to) {
    const auto steps_down = [&](const GradeResult& reached) {
        return static_cast<int>(reached.grade.value_or(set.grades.size()));
    };
    return steps_down(from) - steps_down(to);
}

} // namespace inkturn
