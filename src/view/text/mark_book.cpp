#include "view/text/mark_book.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace inkturn {
namespace {

using Set = std::optional<BoundarySet>;

constexpr std::size_t max_named = 8;

/// `K05, K07 and 3 more`.
std::string names_of_rows(const MarkBook& book, const std::vector<std::size_t>& rows) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < rows.size() && i < max_named; ++i)
        names.push_back(short_name(book.rows[rows[i]].candidate));
    if (rows.size() > max_named)
        names.push_back(std::to_string(rows.size() - max_named) + " more");
    return joined(names, " and ");
}

std::string points_text(double share) {
    const auto points = std::lround(100 * share);
    return (points > 0 ? "+" : "") + std::to_string(points) + "%";
}

std::string change_text(const BookChange& change) {
    if (!change.marks)
        return points_text(change.share);
    return change.marks->count() == 0 ? "0" : with_sign(*change.marks);
}

std::size_t last_compared(const MarkBook& book) {
    return book.compared.empty() ? book.papers.size() - 1 : book.compared.back();
}

std::string name_of_last(const MarkBook& book) {
    return visible(book.papers[last_compared(book)]->id());
}

/// `31 to 17 of 40`, or with both totals where they differ.
std::string fall_text(const MarkBook& book, const BookRow& row) {
    const Totals& before = row.marks[row.change->from]->totals;
    const Totals& last = row.marks[last_compared(book)]->totals;
    return marks_number(before.unaided()) +
           (before.max == last.max ? "" : " of " + marks_number(before.max)) + " to " +
           marks_number(last.unaided()) + " of " + marks_number(last.max);
}

std::string fallen_line(const MarkBook& book, const std::vector<std::size_t>& fallen) {
    const BookRow& first = book.rows[fallen.front()];
    std::string text = "Look first at " + names_of_rows(book, fallen) + ", who fell most: ";
    text += fallen.size() == 1
                ? fall_text(book, first) + " since " + visible(book.papers[first.change->from]->id())
                : "by " + std::to_string(std::lround(-100 * first.change->share)) +
                      "% of the marks since the paper before";
    if (book.median_change)
        text += ", where the middle change is " + points_text(*book.median_change) + " of the marks";
    return text + ".";
}

double share_in(const BookRow& row, std::size_t paper) {
    const Totals& last = row.marks[paper]->totals;
    return static_cast<double>(last.unaided().count()) / std::max(last.max.count(), 1);
}

std::string least_line(const MarkBook& book) {
    const std::size_t paper = last_compared(book);
    std::vector<std::size_t> least; // all who have it
    std::size_t counted = 0;
    for (std::size_t i = 0; i < book.rows.size(); ++i) {
        if (!book.rows[i].marks[paper])
            continue;
        ++counted;
        const double more =
            least.empty() ? 0 : share_in(book.rows[i], paper) - share_in(book.rows[least.front()], paper);
        if (more < 0)
            least.clear();
        if (more <= 0)
            least.push_back(i);
    }
    if (counted == 0)
        return "Nobody has marks for " + name_of_last(book) + ".";
    if (counted > 1 && least.size() == counted)
        return "Nobody stands out in " + name_of_last(book) + ": all have the same share of its marks.";
    const Totals& last = book.rows[least.front()].marks[paper]->totals;
    return "Look first at " + names_of_rows(book, least) + ", who " + (least.size() == 1 ? "has" : "have") +
           " least in " + name_of_last(book) + ": " + marks_number(last.unaided()) + " of " +
           marks_number(last.max) + ".";
}

bool any_change(const MarkBook& book) {
    return std::any_of(book.rows.begin(), book.rows.end(),
                       [](const BookRow& row) { return row.change.has_value(); });
}

std::string grade_in_cell(const Set& set, const std::optional<GradeResult>& result) {
    if (!set || !result)
        return "";
    return " " + (result->grade ? set->grades[*result->grade].grade : "below");
}

/// What a table shows of a candidate's marks.
struct BookColumn {
    Marks (*marks)(const Totals&);
    const std::optional<GradeResult> BookMarks::*grade;
};

constexpr BookColumn unaided_column{[](const Totals& totals) { return totals.unaided(); },
                                    &BookMarks::unaided};
constexpr BookColumn in_time_column{[](const Totals& totals) { return totals.in_time; }, &BookMarks::in_time};

std::string book_cell(const MarkBook& book, const BookRow& row, std::size_t position,
                      const BookColumn& column) {
    const Paper& paper = *book.papers[position];
    const std::optional<BookMarks>& marks = row.marks[position];
    if (!marks)
        return row.absent[position] ? "absent" : "no marks";
    return marks_number(column.marks(marks->totals)) +
           (marks->totals.max == paper.marks() ? "" : " of " + marks_number(marks->totals.max)) +
           grade_in_cell(book.sets[position], (*marks).*(column.grade));
}

std::string paper_title(const Paper& paper) {
    constexpr std::size_t max_width = 14;
    const std::string id = visible(paper.id());
    return (columns(id) > max_width ? fitted(id, max_width) : id) + " (" + marks_number(paper.marks()) + ")";
}

/// The cells of the first rows, a column a paper, with its title on top.
std::vector<std::vector<std::string>> paper_columns(const MarkBook& book, const BookColumn& column,
                                                    std::size_t rows) {
    std::vector<std::vector<std::string>> cells;
    for (std::size_t paper = 0; paper < book.papers.size(); ++paper) {
        cells.push_back({paper_title(*book.papers[paper])});
        for (std::size_t row = 0; row < rows; ++row)
            cells.back().push_back(book_cell(book, book.rows[row], paper, column));
    }
    return cells;
}

std::vector<std::string> change_column(const MarkBook& book, std::size_t rows) {
    std::vector<std::string> cells{"change"};
    for (std::size_t row = 0; row < rows; ++row)
        cells.push_back(book.rows[row].change ? change_text(*book.rows[row].change) : "");
    return cells;
}

std::size_t width_of(const std::vector<std::string>& cells) {
    std::size_t width = 0;
    for (const std::string& cell : cells)
        width = std::max(width, columns(visible(cell)));
    return width;
}

/// The candidates and the columns from one position up to another.
Table book_table(const MarkBook& book, const std::vector<std::vector<std::string>>& cells, std::size_t from,
                 std::size_t to, std::size_t rows) {
    std::vector<Table::Column> titles{{"candidate", Table::Align::left_may_be_cut}};
    for (std::size_t i = from; i < to; ++i)
        titles.push_back({cells[i].front(), Table::Align::right});
    Table table(std::move(titles));
    for (std::size_t row = 0; row < rows; ++row) {
        std::vector<std::string> line{book.rows[row].candidate};
        for (std::size_t i = from; i < to; ++i)
            line.push_back(cells[i][row + 1]);
        table.add_row(std::move(line));
    }
    return table;
}

/// As many columns a table as have room beside the candidates.
std::vector<Table> book_tables(const MarkBook& book, const std::vector<std::vector<std::string>>& cells,
                               std::size_t rows) {
    constexpr std::size_t beside = 12; // columns for the candidates: most codes are shorter
    std::vector<Table> tables;
    for (std::size_t from = 0; from < cells.size();) {
        std::size_t to = from;
        std::size_t width = beside;
        while (to < cells.size() && (to == from || width + 2 + width_of(cells[to]) <= Table::width()))
            width += 2 + width_of(cells[to++]);
        tables.push_back(book_table(book, cells, from, to, rows));
        from = to;
    }
    return tables;
}

} // namespace

std::string mark_book_findings(const MarkBook& book) {
    if (book.papers.empty() || book.rows.empty())
        return "";
    const std::vector<std::size_t> fallen = fell_most(book);
    std::string text = !fallen.empty()    ? fallen_line(book, fallen)
                       : any_change(book) ? "Nobody fell since the paper before."
                                          : least_line(book);
    const std::vector<std::size_t> missing = missing_last(book);
    text += missing.empty()
                ? " Nobody is missing from " + name_of_last(book) + "."
                : " No marks for " + name_of_last(book) + " from " + names_of_rows(book, missing) + ".";
    return text_line(text);
}

std::vector<Table> unaided_tables(const MarkBook& book, std::size_t rows) {
    auto cells = paper_columns(book, unaided_column, rows);
    if (any_change(book))
        cells.push_back(change_column(book, rows));
    return book_tables(book, cells, rows);
}

std::vector<Table> in_time_tables(const MarkBook& book, std::size_t rows) {
    return book_tables(book, paper_columns(book, in_time_column, rows), rows);
}

std::string change_key(const MarkBook& book) {
    if (!any_change(book))
        return "";
    std::string text = "change: in unaided marks since the paper that the candidate sat before; with %, in "
                       "the share of the marks, where the papers have different totals. A harder paper "
                       "lowers everybody's.";
    if (book.by_chance && book.compared.size() > 1)
        text += " From " + visible(book.papers[book.compared[book.compared.size() - 2]]->id()) + " to " +
                name_of_last(book) + ", a change of up to " +
                std::to_string(std::lround(100 * *book.by_chance)) +
                "% of the marks either way may be chance (in 19 of 20, by the papers' standard errors).";
    return text_line(text);
}

std::string compared_line(const MarkBook& book) {
    if (book.compared.empty() || book.compared.size() == book.papers.size())
        return "";
    std::vector<std::string> few;
    for (std::size_t paper = 0; paper < book.papers.size(); ++paper)
        if (!std::binary_search(book.compared.begin(), book.compared.end(), paper))
            few.push_back(visible(book.papers[paper]->id()) + " (" + std::to_string(sat_by(book, paper)) +
                          ")");
    return text_line("Compared by " + name_of_last(book) + ", the latest paper that enough sat (" +
                     std::to_string(sat_by(book, last_compared(book))) + " of " +
                     std::to_string(book.rows.size()) + "). Too few sat " + joined(few, " and ") + ".");
}

std::string unfit_papers_line(const MarkBook& book) {
    std::vector<std::string> unfit;
    for (std::size_t paper = 0; paper < book.papers.size(); ++paper)
        if (!book.sets[paper])
            unfit.push_back(visible(book.papers[paper]->id()));
    if (unfit.empty())
        return "";
    return text_line("No grade for " + joined(unfit, ", ") + ": no set of this name is for " +
                     (unfit.size() == 1 ? "its" : "their") + " subject and total.");
}

} // namespace inkturn
