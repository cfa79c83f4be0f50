#include "view/text/standing.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <vector>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t min_grade_width = 4; ///< of `none`

/// The cell of one phase, and the widths that line such cells up.
struct PhaseCell {
    std::string grade;
    std::string clear;
    std::string short_by;
};
struct PhaseWidths {
    std::size_t grade = 0;
    std::size_t clear = 0;
    std::size_t short_by = 0;

    std::size_t marks() const { return 2 + clear + short_by; }
};

PhaseCell cell(const BoundarySet& set, const GradeResult& reached) {
    return {grade_text(set, reached), reached.clear ? "+" + marks_number(*reached.clear) : "",
            reached.short_by ? "-" + marks_number(*reached.short_by) : ""};
}

std::array<PhaseCell, 3> cells(const BoundarySet& set, const ByPhase<GradeResult>& reached) {
    return {cell(set, reached.in_time), cell(set, reached.unaided), cell(set, reached.with_corrected)};
}

/// Grades are cut if the row would be wider than 80 columns even with the set's name cut to 8.
PhaseWidths widths(const SubjectStanding& in) {
    PhaseWidths widest;
    std::size_t total = 0;
    for (const StandingUnder& under : in.standing.under) {
        const BoundarySet& set = in.sets[under.set];
        total = std::max(total, marks_number(set.total).size());
        for (const PhaseCell& one : cells(set, under.reached)) {
            widest.grade = std::max(widest.grade, columns(one.grade));
            widest.clear = std::max(widest.clear, one.clear.size());
            widest.short_by = std::max(widest.short_by, one.short_by.size());
        }
    }
    const std::size_t others = 16 + total + 3 * widest.marks();
    const std::size_t room = (text_width() - std::min(text_width(), others)) / 3;
    widest.grade = std::min(widest.grade, std::max(min_grade_width, room));
    return widest;
}

std::string lined_up(const PhaseCell& cell, const PhaseWidths& width) {
    return fitted(cell.grade, width.grade) + " " + right_aligned(cell.clear, width.clear) + " " +
           right_aligned(cell.short_by, width.short_by);
}

std::string reached_text(std::size_t reached, const GradeOutlook& outlook) {
    return std::to_string(reached) + " of " + std::to_string(outlook.sets);
}

/// `1 of 4   -3`.
std::string outlook_cell(std::size_t reached, MarksDifference cushion, const GradeOutlook& outlook,
                         std::size_t width) {
    return reached_text(reached, outlook) + "  " + right_aligned(with_sign(cushion), width);
}

std::size_t cushion_width(const std::vector<GradeOutlook>& grades) {
    std::size_t width = 0;
    for (const GradeOutlook& grade : grades)
        for (const MarksDifference cushion :
             {grade.cushion.in_time, grade.cushion.unaided, grade.cushion.with_corrected})
            width = std::max(width, with_sign(cushion).size());
    return width;
}

/// The sets of one total: they share papers and prediction.
using SameTotal = std::vector<const StandingUnder*>;

std::vector<SameTotal> by_total(const Standing& standing) {
    std::vector<SameTotal> all;
    for (const StandingUnder& under : standing.under) {
        const auto found = std::find_if(all.begin(), all.end(), [&](const SameTotal& same) {
            return same.front()->basis.totals.max == under.basis.totals.max;
        });
        if (found == all.end())
            all.push_back({&under});
        else
            found->push_back(&under);
    }
    return all;
}

std::string out_of(const SameTotal& same) {
    return "out of " + marks_number(same.front()->basis.totals.max);
}

std::string basis_line(const SameTotal& same) {
    const Basis& basis = same.front()->basis;
    std::string papers;
    for (const auto& paper : basis.papers) {
        const bool again =
            std::find(basis.again.begin(), basis.again.end(), paper->id()) != basis.again.end();
        papers += (papers.empty() ? "" : ", ") + paper->id() + (again ? " sat again" : "");
    }
    const Totals& sum = basis.totals;
    return text_line("Based on " + papers + " (" + out_of(same) + "), " +
                     (basis.papers.size() > 1 ? "the last sat" : "sat") + " on " + day_text(basis.day) +
                     ": " + marks_number(sum.in_time) + " in time, " + marks_number(sum.unaided()) +
                     " unaided, " + marks_number(sum.corrected) + " corrected." +
                     (basis.again.empty() ? ""
                                          : " A paper sat again is not unseen: its marks say less about the "
                                            "exam."));
}

/// `22 is E, 2 clear, 3 short of D; 50 is B, 1 clear, 9 short of A`.
std::string ends_in_words(const BoundarySet& set, const Prediction::Range& range) {
    const auto end = [&](Marks marks) {
        return marks_number(marks) + " is " + grade_in_words(set, grade_of(set, marks));
    };
    return end(range.low) + "; " + end(range.high);
}

std::string range_text(const Prediction::Range& range) {
    return marks_number(range.low) + " to " + marks_number(range.high);
}

std::string no_prediction_text(const std::set<std::string>& subjects) {
    if (subjects.size() <= 1 || subjects.count("") > 0)
        return "nothing yet; it takes three different papers of one subject, each sat whole for the first "
               "time.";
    const std::vector<std::string> names(subjects.begin(), subjects.end());
    return "nothing, as the papers sat whole are of several subjects, " + visible(joined(names, " and ")) +
           ": name one with --subject.";
}

std::string prediction_line(const SubjectStanding& in, const SameTotal& same,
                            const std::set<std::string>& subjects) {
    if (same.front()->basis.papers.size() > 1)
        return ""; // several papers together are no next paper
    const std::string start = "Next unseen paper, " + out_of(same) + ": ";
    if (!same.front()->prediction)
        return text_line(start + no_prediction_text(subjects));
    const Prediction& next = *same.front()->prediction;
    std::string lines =
        text_line(start + range_text(next.half) + " marks in time as often as not, " + range_text(next.most) +
                  " nine times in ten, if it is like the papers on file. Ranges, not a predicted grade.");
    for (const StandingUnder* under : same) {
        const BoundarySet& set = in.sets[under->set];
        lines += "  " +
                 wrapped(short_name(name_of(set)) + ": " + visible(ends_in_words(set, next.most)) + ".",
                         text_width() - 4, 4) +
                 '\n';
    }
    return lines;
}

std::string grades_over(const SameTotal& same, Worth StandingUnder::*worth) {
    int least = (same.front()->*worth).grades;
    int most = least;
    for (const StandingUnder* under : same) {
        least = std::min(least, (under->*worth).grades);
        most = std::max(most, (under->*worth).grades);
    }
    if (least < most)
        return std::to_string(least) + " to " + std::to_string(most) + " grades by set";
    return (least == 0 ? "no grade" : count_text(static_cast<std::size_t>(least), "grade")) +
           (same.size() == 1 ? " under the one set" : " under every set");
}

std::string worth_line(const SameTotal& same) {
    const StandingUnder& any = *same.front();
    return text_line("Pace, " + out_of(same) + ": worth " + counted_marks(any.pace.marks) + " (overtime), " +
                     grades_over(same, &StandingUnder::pace) + ".") +
           text_line("Corrections, " + out_of(same) + ": worth " + counted_marks(any.corrections.marks) +
                     ", " + grades_over(same, &StandingUnder::corrections) + ".");
}

std::string totals_there(const Unmatched& any, const std::string& subject) {
    if (any.totals.empty())
        return "No paper" + (subject.empty() ? "" : " in " + short_name(subject)) +
               " has been sat as a whole.";
    std::vector<std::string> totals;
    for (const Marks total : any.totals)
        totals.push_back(marks_number(total));
    return "The papers sat have " + joined(totals, " and ") + " marks" +
           (any.together > any.totals.back() ? ", " + marks_number(any.together) + " together." : ".");
}

/// `44 to 66: 44 is D, 66 is B`, with what they are clear or short by.
std::string prediction_in_words(const BoundarySet& set, const std::optional<Prediction>& prediction) {
    if (!prediction)
        return "needs three papers";
    return range_text(prediction->most) + ": " + ends_in_words(set, prediction->most);
}

} // namespace

std::string grade_text(const BoundarySet& set, const GradeResult& reached) {
    return reached.grade ? visible(set.grades[*reached.grade].grade) : "none";
}

std::string grade_in_words(const BoundarySet& set, const GradeResult& reached) {
    std::string words = reached.grade ? set.grades[*reached.grade].grade : "no grade";
    if (reached.clear)
        words += ", " + marks_number(*reached.clear) + " clear";
    if (reached.short_by) {
        const std::size_t above = reached.grade ? *reached.grade - 1 : set.grades.size() - 1;
        words += ", " + marks_number(*reached.short_by) + " short of " + set.grades[above].grade;
    }
    return words;
}

std::string set_remarks(const std::vector<BoundarySet>& sets) {
    const auto any = [&](auto has) { return std::any_of(sets.begin(), sets.end(), has); };
    std::string remarks;
    if (any([](const BoundarySet& set) { return set.filled.has_value(); }))
        remarks +=
            text_line("Filled in: of these boundaries only the top and the bottom one were stated; the "
                      "others are arithmetic.");
    if (any([](const BoundarySet& set) { return set.is_guess; }))
        remarks += text_line("A guess: nobody set these boundaries. They are a past set and some marks, and "
                             "next year's may be anything else.");
    return remarks;
}

Table sets_table(const SubjectStanding& in) {
    Table table(
        {{"set", Align::left_may_be_cut}, {"of", Align::right}, {"in time"}, {"unaided"}, {"all inks"}});
    const PhaseWidths width = widths(in);
    for (const StandingUnder& under : in.standing.under) {
        const BoundarySet& set = in.sets[under.set];
        std::vector<std::string> row{name_of(set), marks_number(set.total)};
        for (const PhaseCell& one : cells(set, under.reached))
            row.push_back(lined_up(one, width));
        table.add_row(std::move(row));
    }
    return table;
}

Table outlook_table(const SubjectStanding& in) {
    Table table({{"grade", Align::left_may_be_cut},
                 {"in time", Align::right},
                 {"unaided", Align::right},
                 {"all inks", Align::right},
                 {"hardest set", Align::left_may_be_cut}});
    const std::size_t width = cushion_width(in.standing.grades);
    for (const GradeOutlook& grade : in.standing.grades)
        table.add_row({grade.grade, outlook_cell(grade.reached.in_time, grade.cushion.in_time, grade, width),
                       outlook_cell(grade.reached.unaided, grade.cushion.unaided, grade, width),
                       outlook_cell(grade.reached.with_corrected, grade.cushion.with_corrected, grade, width),
                       name_of(in.sets[grade.hardest])});
    return table;
}

std::string outlook_title(const SubjectStanding& in) {
    const auto is_guess = [&](const StandingUnder& under) { return in.sets[under.set].is_guess; };
    const auto& under = in.standing.under;
    const bool any_left_out = std::any_of(under.begin(), under.end(), is_guess) &&
                              !std::all_of(under.begin(), under.end(), is_guess);
    return text_line(std::string("Sets in which each grade is reached, and the cushion above the hardest") +
                     (any_left_out ? "; guesses are not counted:" : ":"));
}

std::string basis_lines(const SubjectStanding& in) {
    std::string lines;
    for (const SameTotal& same : by_total(in.standing))
        lines += basis_line(same);
    return lines;
}

std::string sets_key(const SubjectStanding& in) {
    if (in.standing.under.empty())
        return "";
    const std::string key = text_line(
        "+: marks clear of the grade's boundary; -: short of the grade above; none: below the lowest "
        "grade; all inks: unaided and corrected marks together.");
    const std::string all = key + set_remarks(in.sets);
    return in.standing.under.size() > 1
               ? all
               : all + text_line("One set shows no range: boundaries move, so add more "
                                 "series with 'inkturn boundaries add'.");
}

std::string prediction_lines(const SubjectStanding& in, const std::set<std::string>& subjects) {
    std::string lines;
    for (const SameTotal& same : by_total(in.standing))
        lines += prediction_line(in, same, subjects);
    return lines;
}

std::string worth_lines(const SubjectStanding& in) {
    std::string lines;
    for (const SameTotal& same : by_total(in.standing))
        lines += worth_line(same);
    return lines;
}

std::string unmatched_lines(const SubjectStanding& in) {
    if (in.standing.unmatched.empty())
        return "";
    std::map<Marks, std::vector<std::string>> names; // of the sets, by total
    for (const Unmatched& unmatched : in.standing.unmatched)
        names[in.sets[unmatched.set].total].push_back(short_name(name_of(in.sets[unmatched.set])));
    std::string lines;
    for (const auto& [total, sets] : names)
        lines += text_line("Out of " + marks_number(total) +
                           ", which fits nothing sat: " + joined(sets, ", ") + ".");
    lines += text_line(totals_there(in.standing.unmatched.front(), in.subject));
    return lines +
           text_line("A set is compared with a paper of as many marks, or with all papers of its subject "
                     "together if they add up to it: log what is missing, or correct the set "
                     "('inkturn boundaries list').");
}

HtmlTable standing_page_table(const CandidateStanding& standing) {
    HtmlTable table{"Grades under each boundary set",
                    {{"set"}, {"out of", true}, {"in time"}, {"unaided"}, {"all inks"}},
                    {}};
    const bool any_foreseen =
        std::any_of(standing.subjects.begin(), standing.subjects.end(), [](const SubjectStanding& in) {
            return std::any_of(in.standing.under.begin(), in.standing.under.end(),
                               [](const StandingUnder& under) { return under.prediction.has_value(); });
        });
    if (any_foreseen)
        table.columns.push_back({"next paper, 90%"});
    for (const SubjectStanding& in : standing.subjects)
        for (const StandingUnder& under : in.standing.under) {
            const BoundarySet& set = in.sets[under.set];
            table.rows.push_back({name_of(set) + (in.subject.empty() ? "" : ", " + in.subject),
                                  marks_number(set.total), grade_in_words(set, under.reached.in_time),
                                  grade_in_words(set, under.reached.unaided),
                                  grade_in_words(set, under.reached.with_corrected)});
            if (any_foreseen)
                table.rows.back().push_back(prediction_in_words(set, under.prediction));
        }
    return table;
}

std::string in_part_text(const CandidateStanding& standing) {
    if (standing.in_part == 0)
        return "";
    return wrapped(count_text(standing.in_part, "sitting") + " of parts of a paper " +
                       (standing.in_part == 1 ? "is" : "are") +
                       " compared with no boundary: marks are never scaled up to a whole paper.",
                   text_width()) +
           "\n";
}

std::string drawn_text(std::size_t sittings) {
    if (sittings == 0)
        return "";
    return text_line(count_text(sittings, "sitting") + " of a set of questions, or of another drawn paper, " +
                     (sittings == 1 ? "is" : "are") +
                     " compared with no boundary: boundaries are of whole papers.");
}

std::string standing_caution() {
    return wrapped(
               "This is arithmetic on past series, not a promise, and not a predicted grade. Boundaries move "
               "from year to year: the next set may be harder than all of these. Unaided marks include "
               "overtime, which no exam gives.",
               text_width()) +
           '\n';
}

} // namespace inkturn
