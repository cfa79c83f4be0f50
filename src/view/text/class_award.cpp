#include "view/text/class_award.hpp"

#include "view/text/award.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_title = 20;

/// Its title, then a cell for each candidate.
using CellColumn = std::vector<std::string>;

template <typename Value>
const Value& by(const ByPhase<Value>& phases, MarksShown shown) {
    return shown == MarksShown::unaided ? phases.unaided : phases.in_time;
}

CellColumn column_of(const std::string& title) {
    return {columns(title) > max_title ? fitted(title, max_title) : title};
}

std::size_t width_of_column(const CellColumn& cells) {
    std::size_t width = 0;
    for (const std::string& cell : cells)
        width = std::max(width, columns(visible(cell)));
    return width;
}

/// As many columns a table as have room beside the candidates.
std::vector<Table> tables_beside_candidates(const ClassAward& of, const std::vector<CellColumn>& cells) {
    constexpr std::size_t beside = 12; // columns for the candidates: most codes are shorter
    std::vector<Table> tables;
    for (std::size_t from = 0; from < cells.size();) {
        std::vector<Table::Column> titles{{"candidate", Table::Align::left_may_be_cut}};
        std::size_t to = from;
        for (std::size_t width = beside;
             to < cells.size() && (to == from || width + 2 + width_of_column(cells[to]) <= Table::width());
             ++to) {
            width += 2 + width_of_column(cells[to]);
            titles.push_back({cells[to].front()});
        }
        Table table(std::move(titles));
        for (std::size_t row = 0; row < of.candidates.size(); ++row) {
            std::vector<std::string> line{of.candidates[row].candidate};
            for (std::size_t i = from; i < to; ++i)
                line.push_back(cells[i][row + 1]);
            table.add_row(std::move(line));
        }
        tables.push_back(std::move(table));
        from = to;
    }
    return tables;
}

std::string marks_that_count(const AwardStanding& standing, std::size_t component, MarksShown shown) {
    const auto& sitting = standing.components[component].sitting;
    if (!sitting)
        return "not sat";
    const bool is_spare = !standing.under.empty() &&
                          standing.under.front().components[component].place == ComponentPlace::spare;
    return marks_number(shown == MarksShown::unaided ? sitting->totals.unaided() : sitting->totals.in_time) +
           (is_spare ? ", spare" : "");
}

/// Of a candidate who sat the component; empty for others.
std::string grade_in_component(const AwardStanding& standing, std::size_t component, std::size_t set,
                               MarksShown shown) {
    for (const ComponentGrade& grade : standing.grades)
        if (grade.component == component && grade.set == set)
            return grade_text(standing.sets[set], by(grade.reached, shown));
    return "";
}

void add_sums(const ClassAward& of, MarksShown shown, std::vector<CellColumn>& cells) {
    const AwardStanding& any = of.candidates.front().standing;
    for (std::size_t i = 0; i < any.under.size(); ++i) {
        cells.push_back(column_of(
            set_and_series(any.sets[any.under[i].set], any.under[i].series, any.under[i].is_guess)));
        for (const auto& [code, standing] : of.candidates)
            cells.back().push_back(
                reached_in_cell(standing.sets[standing.under[i].set], by(standing.under[i].reached, shown)));
    }
}

void add_components(const ClassAward& of, MarksShown shown, std::vector<CellColumn>& cells) {
    const AwardStanding& any = of.candidates.front().standing;
    for (std::size_t component = 0; component < of.award.components.size(); ++component)
        for (std::size_t set = 0; set < any.sets.size(); ++set) {
            if (any.sets[set].component != of.award.components[component].name)
                continue;
            cells.push_back(column_of(of.award.components[component].name + ", " + name_of(any.sets[set])));
            for (const auto& [code, standing] : of.candidates)
                cells.back().push_back(grade_in_component(standing, component, set, shown));
        }
}

} // namespace

std::vector<Table> component_marks_tables(const ClassAward& of, MarksShown shown) {
    std::vector<CellColumn> cells;
    for (std::size_t i = 0; i < of.award.components.size(); ++i) {
        const Component& component = of.award.components[i];
        cells.push_back(column_of(component.name + " (" + marks_number(component.marks) + ")"));
        for (const auto& [code, standing] : of.candidates)
            cells.back().push_back(marks_that_count(standing, i, shown));
    }
    return tables_beside_candidates(of, cells);
}

std::vector<Table> class_award_tables(const ClassAward& of, MarksShown shown) {
    std::vector<CellColumn> cells;
    if (!of.candidates.empty()) {
        add_sums(of, shown, cells);
        add_components(of, shown, cells);
    }
    return tables_beside_candidates(of, cells);
}

std::string class_award_key(const ClassAward& of) {
    if (of.candidates.empty() || of.candidates.front().standing.sets.empty())
        return "";
    const bool any_open =
        std::any_of(of.candidates.begin(), of.candidates.end(), [](const CandidateInAward& one) {
            return std::any_of(one.standing.under.begin(), one.standing.under.end(),
                               [](const AwardUnder& under) { return !under.gaps.empty(); });
        });
    return (any_open
                ? text_line("A range runs from nothing to full marks in every component that is not sat.")
                : "") +
           text_line("+: marks clear of the grade's boundary; -: short of the grade above; none: below the "
                     "lowest grade. Each component's marks are of the latest paper that was unseen.") +
           set_remarks(of.candidates.front().standing.sets);
}

} // namespace inkturn
