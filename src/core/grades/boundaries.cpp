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

void check_uniform(const BoundarySet& set, const std::vector<Marks>& uniform,
                   std::optional<Marks> uniform_total) {
    if (uniform.size() != set.grades.size())
        throw Error("boundary set '" + set.name + "' has " + std::to_string(set.grades.size()) +
                    " grades, but there are " + std::to_string(uniform.size()) +
                    " uniform marks: give one per grade, from the top down");
    for (std::size_t i = 0; i < uniform.size(); ++i) {
        const std::string grade = "grade " + set.grades[i].grade + ", uniform mark " + text(uniform[i]);
        if (uniform[i] > max_set_marks)
            throw Error(grade + ": give a mark from 0 to " + text(max_set_marks));
        if (i > 0 && uniform[i] >= uniform[i - 1])
            throw Error(grade + " is not below " + text(uniform[i - 1]) +
                        ": give the uniform marks from the top down");
    }
    if (uniform_total && set.grades.front().mark == set.total)
        throw Error("grade " + text(set.grades.front()) +
                    " is the whole total, so its uniform mark is the maximum: leave the maximum out");
    if (uniform_total && (*uniform_total <= uniform.front() || *uniform_total > max_set_marks))
        throw Error("uniform maximum " + text(*uniform_total) + ": give one from " +
                    text(uniform.front() + Marks(1)) + " to " + text(max_set_marks));
}

/// Between two points of which `above` has more raw marks, a half rounded up.
Marks interpolated(const ScalePoint& below, const ScalePoint& above, Marks raw) {
    const std::int64_t run = (above.raw - below.raw).count();
    const std::int64_t rise = (above.uniform - below.uniform).count();
    const std::int64_t part = (raw - below.raw).count();
    return below.uniform + Marks(static_cast<int>((2 * part * rise + run) / (2 * run)));
}

} // namespace

bool operator==(const BoundarySet& a, const BoundarySet& b) {
    return a.name == b.name && a.subject == b.subject && a.total == b.total &&
           std::equal(a.grades.begin(), a.grades.end(), b.grades.begin(), b.grades.end(),
                      [](const GradeBoundary& one, const GradeBoundary& other) {
                          return one.grade == other.grade && one.mark == other.mark;
                      });
}

std::string name_of(const BoundarySet& set) {
    return set.filled ? set.name + ", filled in" : set.name;
}

void check_boundary_set(const BoundarySet& set) {
    if (set.name.empty())
        throw Error("a boundary set needs a name, such as 'Saltmarsh, spring'");
    check_printable(set.name, max_name_length, "the boundary set's name");
    const std::string where = "boundary set '" + set.name + "': ";
    check_printable(set.subject, max_name_length, where + "subject");
    if (set.total < Marks(1) || set.total > max_set_marks)
        throw Error(where + "the total can't be " + text(set.total) + ": give one from 1 to " +
                    text(max_set_marks));
    try {
        check_grades(set.grades, set.total);
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

std::vector<GradeBand> grade_bands(const std::vector<BoundarySet>& sets) {
    std::vector<GradeBand> bands;
    for (const BoundarySet& set : sets) {
        check_boundary_set(set);
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

UniformScale uniform_scale(const BoundarySet& set, const std::vector<Marks>& uniform,
                           std::optional<Marks> uniform_total) {
    check_uniform(set, uniform, uniform_total);
    UniformScale scale;
    if (set.grades.back().mark > Marks(0))
        scale.push_back({Marks(0), Marks(0)});
    for (std::size_t i = uniform.size(); i-- > 0;)
        scale.push_back({set.grades[i].mark, uniform[i]});
    if (uniform_total)
        scale.push_back({set.total, *uniform_total});
    return scale;
}

Marks scaled(const UniformScale& scale, Marks raw) {
    if (scale.empty())
        throw Error("a scale needs at least one point", Error::Kind::misused);
    if (raw < scale.front().raw || raw > scale.back().raw)
        throw Error("mark " + text(raw) + " is not on the scale, which runs from " + text(scale.front().raw) +
                    " to " + text(scale.back().raw) +
                    ": check the mark; above the top grade the scale needs the uniform maximum");
    const auto above = std::find_if(scale.begin() + 1, scale.end(),
                                    [raw](const ScalePoint& point) { return point.raw >= raw; });
    return above == scale.end() ? scale.back().uniform : interpolated(*(above - 1), *above, raw);
}

} // namespace inkturn
