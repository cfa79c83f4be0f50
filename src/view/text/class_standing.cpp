#include "view/text/class_standing.hpp"

#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace inkturn {
namespace {

using Align = Table::Align;

std::string why_none(NoFigure why) {
    switch (why) {
    case NoFigure::few_candidates:
        return "it needs " + std::to_string(PaperAnalysis::min_candidates_to_correlate) + " candidates";
    case NoFigure::one_question:
        return "the paper has one question";
    case NoFigure::choice:
        return "candidates chose between questions";
    case NoFigure::alpha_below_zero:
        return "alpha is below 0, see inkturn class analyse";
    case NoFigure::no_spread_in_total:
        return "every candidate has the same total";
    default:
        return "nobody has sat the paper";
    }
}

std::string error_text(const SharedBasis& basis) {
    if (basis.standard_error.has_value())
        return "standard error " + one_decimal(basis.standard_error.value()) + " marks";
    return "no standard error: " +
           (basis.papers.size() == 1 ? why_none(basis.standard_error.why()) : "one of the papers has none");
}

std::string basis_line(const SharedBasis& basis) {
    std::string papers;
    for (const auto& paper : basis.papers)
        papers += (papers.empty() ? "" : ", ") + paper->id();
    return text_line("Based on " + papers + ", sat by " + count_text(basis.candidates, "candidate") + "; " +
                     error_text(basis) + ".");
}

constexpr std::size_t max_set_width = 20;
constexpr const char* grades_caption =
    "Each column: the boundary, how many have the grade and, in brackets, how many have it or better.";

std::string set_title(const ClassUnder& under) {
    const std::string name = visible(name_of(under.set));
    return columns(name) > max_set_width ? fitted(name, max_set_width) : name;
}

/// Rows that each set has a cell of.
struct SetRows {
    std::vector<Table::Column> heads;            ///< the columns before those of the sets
    std::vector<std::vector<std::string>> cells; ///< of these, a row each
    std::vector<std::vector<std::string>> sets;  ///< a cell a set, a row each
};

std::size_t width_of(const std::string& title, const std::vector<std::vector<std::string>>& rows,
                     std::size_t column) {
    std::size_t width = columns(title);
    for (const std::vector<std::string>& row : rows)
        width = std::max(width, columns(visible(row[column])));
    return width + 2;
}

/// As many sets a table as the width holds, one at least.
std::vector<Table> tables_of(const SetRows& rows, const std::vector<ClassUnder>& alike) {
    std::size_t heads = 0;
    for (std::size_t i = 0; i < rows.heads.size(); ++i)
        heads += std::min(width_of(rows.heads[i].title, rows.cells, i), max_set_width);
    std::vector<Table> tables;
    for (std::size_t first = 0; first < alike.size();) {
        std::vector<Table::Column> titles = rows.heads;
        std::size_t last = first;
        for (std::size_t width = heads; last < alike.size(); ++last) {
            width += width_of(set_title(alike[last]), rows.sets, last);
            if (last > first && width > Table::width() + 2) // none after the last column
                break;
            titles.push_back({set_title(alike[last])});
        }
        Table table(std::move(titles));
        for (std::size_t i = 0; i < rows.cells.size(); ++i) {
            std::vector<std::string> row = rows.cells[i];
            row.insert(row.end(), rows.sets[i].begin() + static_cast<std::ptrdiff_t>(first),
                       rows.sets[i].begin() + static_cast<std::ptrdiff_t>(last));
            table.add_row(std::move(row));
        }
        tables.push_back(std::move(table));
        first = last;
    }
    return tables;
}

/// The grades of all sets, each set's in its order.
std::vector<std::string> grades_of(const std::vector<ClassUnder>& alike) {
    std::vector<std::string> grades;
    for (const ClassUnder& under : alike) {
        auto place = grades.begin();
        for (const GradeBoundary& boundary : under.set.grades) {
            const auto found = std::find(grades.begin(), grades.end(), boundary.grade);
            place = 1 + (found == grades.end() ? grades.insert(place, boundary.grade) : found);
        }
    }
    return grades;
}

std::string grade_cell(const ClassUnder& under, const std::string& grade, std::size_t ClassCount::*by) {
    for (std::size_t i = 0; i < under.grades.size(); ++i)
        if (under.set.grades[i].grade == grade)
            return std::to_string(under.set.grades[i].mark.count()) + ": " +
                   std::to_string(under.grades[i].reached.*by) + " (" +
                   std::to_string(under.grades[i].or_better.*by) + ")";
    return "";
}

std::vector<Table> grades_by(const std::vector<ClassUnder>& alike, std::size_t ClassCount::*by) {
    SetRows rows{{{"grade", Align::left_may_be_cut}}, {}, {}};
    for (const std::string& grade : grades_of(alike)) {
        rows.cells.push_back({grade});
        rows.sets.emplace_back();
        for (const ClassUnder& under : alike)
            rows.sets.back().push_back(grade_cell(under, grade, by));
    }
    rows.cells.push_back({"none"});
    rows.sets.emplace_back();
    for (const ClassUnder& under : alike)
        rows.sets.back().push_back(std::to_string(under.below.*by));
    return tables_of(rows, alike);
}

/// Sets that a table on a page has beside each other: it must be legible on a phone.
constexpr std::size_t max_page_sets = 4;

HtmlTable grades_page_table(const std::vector<ClassUnder>& sets, std::size_t ClassCount::*by) {
    HtmlTable table{grades_caption, {{"grade"}}, {}};
    for (const ClassUnder& under : sets)
        table.columns.push_back({set_title(under), true});
    for (const std::string& grade : grades_of(sets)) {
        table.rows.push_back({grade});
        for (const ClassUnder& under : sets)
            table.rows.back().push_back(grade_cell(under, grade, by));
    }
    table.rows.push_back({"none"});
    for (const ClassUnder& under : sets)
        table.rows.back().push_back(std::to_string(under.below.*by));
    return table;
}

std::string near_cell(const std::optional<NearBoundary>& near, const BoundarySet& set) {
    return near ? visible(set.grades[near->boundary].grade) + " " + with_sign(near->above) : "";
}

std::size_t near_any(const std::vector<ClassUnder>& alike) {
    std::set<std::string> codes;
    for (const ClassUnder& under : alike)
        for (const NearBoundary& near : under.near)
            codes.insert(near.candidate);
    return codes.size();
}

bool has_standard_error(const ClassUnder& under) {
    return std::any_of(under.bases.begin(), under.bases.end(),
                       [](const SharedBasis& basis) { return basis.standard_error.has_value(); });
}

std::string nearly_all(const ClassUnder& wide) {
    double error = 0;
    for (const SharedBasis& basis : wide.bases)
        if (basis.standard_error.has_value())
            error = std::max(error, basis.standard_error.value());
    return "The standard error, " + one_decimal(error) + " marks, is more than half of a grade's width (" +
           one_decimal(wide.grade_width) + " marks in " + set_title(wide) +
           "), so nearly everyone between the boundaries is near one. ";
}

} // namespace

std::vector<Table> grades_tables(const std::vector<ClassUnder>& alike) {
    return grades_by(alike, &ClassCount::unaided);
}

std::vector<Table> grades_in_time_tables(const std::vector<ClassUnder>& alike) {
    return grades_by(alike, &ClassCount::in_time);
}

std::vector<HtmlTable> grades_page_tables(const std::vector<ClassUnder>& alike, std::size_t ClassCount::*by) {
    std::vector<HtmlTable> tables;
    for (auto first = alike.begin(); first != alike.end();) {
        const auto last = first + std::min<std::ptrdiff_t>(max_page_sets, alike.end() - first);
        tables.push_back(grades_page_table({first, last}, by));
        first = last;
    }
    return tables;
}

std::vector<Table> near_tables(const std::vector<ClassUnder>& alike) {
    SetRows rows{{{"candidate", Align::left_may_be_cut}, {"unaided", Align::right}}, {}, {}};
    for (const NearUnder& near : near_boundaries(alike)) {
        rows.cells.push_back({near.candidate, std::to_string(near.unaided.count())});
        rows.sets.emplace_back();
        for (std::size_t i = 0; i < alike.size(); ++i)
            rows.sets.back().push_back(near_cell(near.sets[i], alike[i].set));
    }
    return rows.cells.empty() ? std::vector<Table>() : tables_of(rows, alike);
}

std::string grades_key() {
    return text_line(grades_caption);
}

std::string counted_line(const ClassUnder& under) {
    std::string text = count_text(under.counted, "candidate") + " counted";
    if (under.absent > 0)
        text += "; " + std::to_string(under.absent) + " sat nothing" +
                (under.set.subject.empty() ? "" : " in " + short_name(under.set.subject));
    if (under.not_fitting > 0)
        text += "; " + std::to_string(under.not_fitting) + " whose marks don't fit this total";
    return text_line(text + ".");
}

std::string basis_lines(const ClassUnder& under) {
    std::string lines;
    for (const SharedBasis& basis : under.bases)
        lines += basis_line(basis);
    return lines;
}

std::string near_line(const std::vector<ClassUnder>& alike) {
    if (std::none_of(alike.begin(), alike.end(), has_standard_error))
        return "";
    const std::size_t near = near_any(alike);
    if (near == 0)
        return text_line("Nobody is within the standard error of a boundary.");
    const auto wide = std::find_if(alike.begin(), alike.end(),
                                   [](const ClassUnder& under) { return under.nearly_all_near(); });
    const std::string all = wide == alike.end() ? "" : nearly_all(*wide);
    if (!all.empty() && near > NearUnder::nearest)
        return text_line(all + "The " + std::to_string(NearUnder::nearest) + " nearest, by unaided marks:");
    return text_line(
        all + std::to_string(near) + " of " + std::to_string(alike.front().counted) +
        " within the standard error of the nearest boundary, by unaided marks, the nearest first:");
}

std::string unfit_line(const std::vector<ClassUnder>& all) {
    std::string sets;
    for (const ClassUnder& under : all)
        if (under.counted == 0)
            sets += (sets.empty() ? "" : "; ") + short_name(name_of(under.set)) +
                    (under.set.subject.empty() ? "" : ", " + short_name(under.set.subject)) + ", out of " +
                    std::to_string(under.set.total.count());
    return sets.empty() ? "" : text_line("No marks fit the total of: " + sets + ".");
}

std::string one_set_lines(const std::vector<ClassUnder>& all) {
    std::map<std::string, std::size_t> sets; // that fit, by subject
    for (const ClassUnder& under : all)
        if (under.counted > 0)
            ++sets[under.set.subject];
    std::string lines;
    for (const auto& [subject, count] : sets)
        if (count == 1)
            lines +=
                text_line("There is only one set" + (subject.empty() ? "" : " for " + short_name(subject)) +
                          ", so no range: boundaries move. Add more series with 'inkturn boundaries add'.");
    return lines;
}

std::string class_standing_caution() {
    return standing_caution() +
           wrapped("The standard error (of measurement) is how far totals typically lie from what the same "
                   "candidates would average on papers like these: near a boundary the grade could easily "
                   "have been the next one.",
                   text_width()) +
           '\n';
}

} // namespace inkturn
