#include "view/text/award.hpp"

#include "inkturn/base/day.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

using Align = Table::Align;

bool has_weights(const Award& award) {
    return std::any_of(award.components.begin(), award.components.end(),
                       [](const Component& component) { return component.weight != Weight(); });
}

std::string choice_text(const Award& award, std::size_t component) {
    const ComponentChoice* choice = award.choice_of(component);
    return choice == nullptr ? "" : to_text(award, *choice);
}

std::string range_of(Marks low, Marks high) {
    return low == high ? marks_number(low) : marks_number(low) + " to " + marks_number(high);
}

/// `B +4 -6`.
std::string cell_of(const BoundarySet& set, const GradeResult& reached) {
    return grade_text(set, reached) + (reached.clear ? " +" + marks_number(*reached.clear) : "") +
           (reached.short_by ? " -" + marks_number(*reached.short_by) : "");
}

/// `122 to 222: E to A`, `183: B +4 -6`.
std::string cell_of(const BoundarySet& set, const MarksReached& reached) {
    const std::string marks = range_of(reached.low, reached.high) + ": ";
    if (reached.low == reached.high)
        return marks + cell_of(set, reached.low_grade);
    const std::string low = grade_text(set, reached.low_grade);
    const std::string high = grade_text(set, reached.high_grade);
    return marks + (low == high ? low : low + " to " + high);
}

std::string cell_of(const BoundarySet& set, const GradeResult& reached, std::optional<Marks> uniform) {
    return cell_of(set, reached) + (uniform ? ", uniform " + marks_number(*uniform) : "");
}

std::string paper_and_day(const ComponentSitting& sitting) {
    return sitting.paper->id() + ", " + day_text(sitting.day);
}

/// Of the award's first set that was looked at, which say the same of all components but those that lack
/// a scale.
std::string place_text(const AwardStanding& standing, std::size_t component) {
    if (standing.under.empty())
        return "";
    switch (standing.under.front().components[component].place) {
    case ComponentPlace::spare:
        return "spare: others bring more";
    case ComponentPlace::closed:
        return "not needed";
    default:
        return "";
    }
}

std::string open_line(const AwardStanding& standing, std::size_t position) {
    const Component& component = standing.award.components[position];
    const std::string choice = choice_text(standing.award, position);
    std::string text = component.name + (choice.empty() ? "" : " (" + choice + ")") +
                       " is not sat: it may bring 0 to " + counted_marks(component.marks) + ".";
    if (const auto& next = standing.components[position].foreseen)
        text += " By the papers on file it would bring " + range_of(next->most.low, next->most.high) +
                " in time nine times in ten: a range, not a predicted mark.";
    return text_line(visible(text));
}

std::string left_out_lines(const ComponentBasis& basis, const Component& component) {
    std::string lines;
    if (!basis.earlier.empty())
        lines += text_line(component.name + ": " + joined(basis.earlier, " and ") +
                           (basis.earlier.size() == 1 ? " was sat before and doesn't count"
                                                      : " were sat before and don't count") +
                           "; the latest unseen sitting does.");
    if (!basis.out_of_others.empty())
        lines += text_line(component.name + ": " + joined(basis.out_of_others, " and ") +
                           (basis.out_of_others.size() == 1 ? " isn't" : " aren't") + " out of " +
                           marks_number(component.marks) +
                           " and can't count: marks are never rescaled. Correct the paper or the award.");
    return lines;
}

/// Components whose marks some series can't turn into uniform marks.
std::string no_scale_lines(const AwardStanding& standing) {
    std::string lines;
    for (const AwardUnder& under : standing.under)
        for (std::size_t i = 0; i < under.components.size(); ++i)
            if (under.components[i].place == ComponentPlace::no_scale)
                lines += text_line(visible(
                    standing.award.components[i].name + " was sat, but has no boundaries in " +
                    (under.series.empty() ? "any series" : under.series) +
                    ", so its marks can't become uniform marks there and count as open: add the set."));
    return lines;
}

} // namespace

std::string award_title(const Award& award) {
    return visible(award.name) + ", " +
           (award.subject.empty() ? "all subjects" : "subject " + visible(award.subject)) + ", out of " +
           marks_number(award.total()) + (award.is_uniform() ? " uniform marks" : "");
}

Table components_table(const Award& award) {
    std::vector<Table::Column> columns{{"component", Align::left_may_be_cut}, {"marks", Align::right}};
    if (has_weights(award))
        columns.push_back({"weight", Align::right});
    if (award.is_uniform())
        columns.push_back({"uniform", Align::right});
    columns.push_back({"of a choice", Align::left_wrapped, true});
    Table table(std::move(columns));
    for (std::size_t i = 0; i < award.components.size(); ++i) {
        const Component& component = award.components[i];
        std::vector<std::string> row{component.name, marks_number(component.marks)};
        if (has_weights(award))
            row.push_back(to_text(component.weight));
        if (component.uniform)
            row.push_back(marks_number(*component.uniform));
        row.push_back(choice_text(award, i));
        table.add_row(std::move(row));
    }
    return table;
}

Table components_sat_table(const AwardStanding& standing) {
    Table table({{"component", Align::left_may_be_cut},
                 {"of", Align::right},
                 {"what counts", Align::left_may_be_cut},
                 {"in time", Align::right},
                 {"unaided", Align::right},
                 {"all inks", Align::right},
                 {"", Align::left, true}});
    for (std::size_t i = 0; i < standing.award.components.size(); ++i) {
        const Component& component = standing.award.components[i];
        const auto& sitting = standing.components[i].sitting;
        std::vector<std::string> row{component.name, marks_number(component.marks)};
        if (sitting) {
            const Totals& sum = sitting->totals;
            for (const std::string& cell :
                 {paper_and_day(*sitting), marks_number(sum.in_time), marks_number(sum.unaided()),
                  marks_number(sum.unaided() + sum.corrected)})
                row.push_back(cell);
        } else {
            row.insert(row.end(), {"not sat", "", "", ""});
        }
        row.push_back(place_text(standing, i));
        table.add_row(std::move(row));
    }
    return table;
}

Table award_sets_table(const AwardStanding& standing) {
    Table table({{"set", Align::left_may_be_cut}, {"in time"}, {"unaided"}, {"all inks"}});
    for (const AwardUnder& under : standing.under) {
        const BoundarySet& set = standing.sets[under.set];
        table.add_row({set_and_series(set, under.series, under.is_guess), cell_of(set, under.reached.in_time),
                       cell_of(set, under.reached.unaided), cell_of(set, under.reached.with_corrected)});
    }
    return table;
}

Table component_grades_table(const AwardStanding& standing) {
    Table table({{"component", Align::left_may_be_cut},
                 {"set", Align::left_may_be_cut},
                 {"in time"},
                 {"unaided"},
                 {"all inks"}});
    for (const ComponentGrade& grade : standing.grades) {
        const BoundarySet& set = standing.sets[grade.set];
        const auto uniform = [&](Marks ByPhase<Marks>::*phase) {
            return grade.uniform ? std::optional((*grade.uniform).*phase) : std::nullopt;
        };
        table.add_row({standing.award.components[grade.component].name, name_of(set),
                       cell_of(set, grade.reached.in_time, uniform(&ByPhase<Marks>::in_time)),
                       cell_of(set, grade.reached.unaided, uniform(&ByPhase<Marks>::unaided)),
                       cell_of(set, grade.reached.with_corrected, uniform(&ByPhase<Marks>::with_corrected))});
    }
    return table;
}

std::string open_lines(const AwardStanding& standing) {
    std::string lines;
    for (std::size_t i = 0; i < standing.award.components.size(); ++i) {
        const bool is_closed =
            !standing.under.empty() && standing.under.front().components[i].place == ComponentPlace::closed;
        if (!standing.components[i].sitting && !is_closed)
            lines += open_line(standing, i);
        lines += left_out_lines(standing.components[i], standing.award.components[i]);
    }
    return lines + no_scale_lines(standing);
}

std::string award_key(const AwardStanding& standing) {
    if (standing.under.empty())
        return "";
    std::string key;
    const bool any_open = std::any_of(standing.under.begin(), standing.under.end(),
                                      [](const AwardUnder& under) { return !under.gaps.empty(); });
    if (any_open)
        key += text_line("A range runs from nothing to full marks in every component that is open.");
    key += text_line("+: marks clear of the grade's boundary; -: short of the grade above; none: below the "
                     "lowest grade; all inks: unaided and corrected marks together.");
    if (has_weights(standing.award))
        key += text_line("Marks are multiplied by their component's weight, added up and rounded once.");
    return key + text_line("Each component's marks are of one paper on one day.") +
           set_remarks(standing.sets);
}

std::string award_caution() {
    return text_line("Which papers make up the award, with which weights and options, is the awarding body's "
                     "to say: hold this against its specification.");
}

std::string reached_in_words(const BoundarySet& set, const MarksReached& reached) {
    const std::string marks = range_of(reached.low, reached.high) + ": ";
    if (reached.low == reached.high)
        return marks + grade_in_words(set, reached.low_grade);
    return marks + grade_text(set, reached.low_grade) + " to " + grade_text(set, reached.high_grade);
}

std::string reached_in_cell(const BoundarySet& set, const MarksReached& reached) {
    return cell_of(set, reached);
}

std::string set_and_series(const BoundarySet& set, const std::string& series, bool is_guess) {
    return (is_guess && !set.is_guess ? "guess: " : "") + name_of(set) +
           (series.empty() || series == set.name ? "" : " by " + series);
}

HtmlTable award_page_table(const std::vector<AwardStanding>& standings) {
    HtmlTable table{"The award under each boundary set",
                    {{"award"}, {"set"}, {"out of", true}, {"in time"}, {"unaided"}, {"all inks"}},
                    {}};
    for (const AwardStanding& standing : standings)
        for (const AwardUnder& under : standing.under) {
            const BoundarySet& set = standing.sets[under.set];
            table.rows.push_back({standing.award.name, set_and_series(set, under.series, under.is_guess),
                                  marks_number(set.total), reached_in_words(set, under.reached.in_time),
                                  reached_in_words(set, under.reached.unaided),
                                  reached_in_words(set, under.reached.with_corrected)});
        }
    return table;
}

} // namespace inkturn
