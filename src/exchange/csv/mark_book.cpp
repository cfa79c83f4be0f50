#include "exchange/csv/mark_book.hpp"

#include "exchange/csv/write.hpp"
#include "inkturn/base/day.hpp"

#include <cmath>
#include <ostream>
#include <string>

namespace inkturn {
namespace {

void write_header(CsvWriter& csv, const MarkBook& book, bool has_set) {
    csv.text("candidate");
    for (const auto& paper : book.papers) {
        for (const char* column : {" date", " in time", " unaided", " of"})
            csv.text(paper->id() + column);
        if (has_set)
            csv.text(paper->id() + " grade");
    }
    csv.text("change percent").end_row();
}

std::string grade_text(const BoundarySet& set, const std::optional<GradeResult>& result) {
    if (!result)
        return "";
    return result->grade ? set.grades[*result->grade].grade : "below";
}

void write_marks(CsvWriter& csv, const std::optional<BookMarks>& marks, const std::optional<BoundarySet>& set,
                 bool with_grades) {
    if (marks)
        csv.text(iso(marks->day))
            .number(static_cast<std::size_t>(marks->totals.in_time.count()))
            .number(static_cast<std::size_t>(marks->totals.unaided().count()))
            .number(static_cast<std::size_t>(marks->totals.max.count()));
    else
        csv.text("").text("").text("").text("");
    if (with_grades)
        csv.text(marks && set ? grade_text(*set, marks->unaided) : "");
}

} // namespace

void write_mark_book(std::ostream& out, const MarkBook& book, bool with_grades) {
    CsvWriter csv(out);
    write_header(csv, book, with_grades);
    for (const BookRow& row : book.rows) {
        csv.text(row.candidate);
        for (std::size_t paper = 0; paper < row.marks.size(); ++paper)
            write_marks(csv, row.marks[paper], book.sets[paper], with_grades);
        csv.signed_number(row.change ? std::optional(std::lround(100 * row.change->share)) : std::nullopt);
        csv.end_row();
    }
}

} // namespace inkturn
