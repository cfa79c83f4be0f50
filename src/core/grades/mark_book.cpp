#include "inkturn/grades/mark_book.hpp"

#include "inkturn/statistics/analysis.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

double share(const Totals& totals) {
    return totals.max == Marks(0) ? 0 : static_cast<double>(totals.unaided().count()) / totals.max.count();
}

std::optional<Day> first_day(const PaperInBook& paper) {
    std::optional<Day> first;
    for (const SittingOfPaper& sitting : paper.sittings)
        first = std::min(first.value_or(sitting.day), sitting.day);
    return first;
}

void sort_by_day(std::vector<PaperInBook>& papers) {
    std::sort(papers.begin(), papers.end(), [](const PaperInBook& a, const PaperInBook& b) {
        return std::tuple(first_day(a), a.paper->id()) < std::tuple(first_day(b), b.paper->id());
    });
}

bool fits(const BoundarySet& set, const Paper& paper, const Totals& totals) {
    return totals.max == set.total && (set.subject.empty() || set.subject == paper.subject());
}

BookMarks book_marks(const Paper& paper, const SittingOfPaper& sitting,
                     const std::optional<BoundarySet>& set) {
    BookMarks marks{sitting.day, totals(paper, sitting.parts), {}, {}};
    if (set && fits(*set, paper, marks.totals) && is_whole(paper, sitting.parts)) {
        marks.in_time = grade_of(*set, marks.totals.in_time);
        marks.unaided = grade_of(*set, marks.totals.unaided());
    }
    return marks;
}

std::optional<BookChange> change_of(const BookRow& row) {
    if (row.marks.empty() || !row.marks.back())
        return std::nullopt;
    const Totals& last = row.marks.back()->totals;
    for (std::size_t from = row.marks.size() - 1; from-- > 0;) {
        if (!row.marks[from])
            continue;
        const Totals& before = row.marks[from]->totals;
        BookChange change{from, share(last) - share(before), {}};
        if (before.max == last.max)
            change.marks = MarksDifference(last.unaided(), before.unaided());
        return change;
    }
    return std::nullopt;
}

/// Those from the last paper but one.
std::vector<double> changes_of(const MarkBook& book) {
    std::vector<double> changes;
    for (const BookRow& row : book.rows)
        if (row.change && row.change->from + 2 == book.papers.size())
            changes.push_back(row.change->share);
    return changes;
}

std::optional<double> median(std::vector<double> values) {
    if (values.empty())
        return std::nullopt;
    std::sort(values.begin(), values.end());
    const std::size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

/// Of measurement, as a share of the paper's marks.
std::optional<double> standard_error(const PaperInBook& paper) {
    std::vector<std::vector<PartMarks>> sittings;
    for (const SittingOfPaper& sitting : paper.sittings)
        if (is_whole(*paper.paper, sitting.parts))
            sittings.push_back(sitting.parts);
    const Figure error = analyse(*paper.paper, sittings).standard_error;
    if (!error.has_value())
        return std::nullopt;
    return error.value() / paper.paper->marks().count();
}

std::optional<double> by_chance(const std::vector<PaperInBook>& papers) {
    constexpr double in_19_of_20 = 1.96;
    if (papers.size() < 2)
        return std::nullopt;
    const auto before = standard_error(papers[papers.size() - 2]);
    const auto last = standard_error(papers.back());
    if (!before || !last)
        return std::nullopt;
    return in_19_of_20 * std::hypot(*before, *last);
}

void sort_by_mark(std::vector<BookRow>& rows) {
    const auto last = [](const BookRow& row) {
        return row.marks.empty() || !row.marks.back() ? -1 : share(row.marks.back()->totals);
    };
    std::stable_sort(rows.begin(), rows.end(),
                     [&](const BookRow& a, const BookRow& b) { return last(a) > last(b); });
}

} // namespace

MarkBook mark_book(std::vector<PaperInBook> papers, const std::vector<std::string>& candidates,
                   const std::optional<BoundarySet>& set, BookOrder order) {
    sort_by_day(papers);
    MarkBook book;
    std::map<std::string, std::size_t> rows;
    for (const std::string& code : candidates) {
        rows.emplace(code, book.rows.size());
        book.rows.push_back({code, std::vector<std::optional<BookMarks>>(papers.size()), {}});
    }
    for (std::size_t i = 0; i < papers.size(); ++i) {
        book.papers.push_back(papers[i].paper);
        for (const SittingOfPaper& sitting : papers[i].sittings)
            if (const auto row = rows.find(sitting.candidate); row != rows.end())
                book.rows[row->second].marks[i] = book_marks(*papers[i].paper, sitting, set);
    }
    for (BookRow& row : book.rows)
        row.change = change_of(row);
    book.median_change = median(changes_of(book));
    book.by_chance = by_chance(papers);
    if (order == BookOrder::mark)
        sort_by_mark(book.rows);
    return book;
}

std::vector<std::size_t> fell_most(const MarkBook& book) {
    constexpr double rounding = 1e-9; // of shares that are equal
    double least = -rounding;
    for (const BookRow& row : book.rows)
        if (row.change)
            least = std::min(least, row.change->share);
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < book.rows.size(); ++i)
        if (const auto& change = book.rows[i].change;
            change && change->share < -rounding && change->share <= least + rounding)
            rows.push_back(i);
    return rows;
}

std::vector<std::size_t> missing_last(const MarkBook& book) {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < book.rows.size(); ++i)
        if (!book.papers.empty() && !book.rows[i].marks.back())
            rows.push_back(i);
    return rows;
}

MarkBook last_papers(MarkBook book, std::size_t count) {
    if (book.papers.size() <= count)
        return book;
    const auto dropped = static_cast<std::ptrdiff_t>(book.papers.size() - count);
    book.papers.erase(book.papers.begin(), book.papers.begin() + dropped);
    for (BookRow& row : book.rows) {
        row.marks.erase(row.marks.begin(), row.marks.begin() + dropped);
        if (row.change && row.change->from < static_cast<std::size_t>(dropped))
            row.change.reset();
        else if (row.change)
            row.change->from -= static_cast<std::size_t>(dropped);
    }
    return book;
}

} // namespace inkturn
