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

bool fits(const BoundarySet& set, const Paper& paper, Marks total) {
    return total == set.total && (set.subject.empty() || set.subject == paper.subject());
}

BookMarks book_marks(const Paper& paper, const SittingOfPaper& sitting,
                     const std::optional<BoundarySet>& set) {
    BookMarks marks{sitting.day, totals(paper, sitting.parts), {}, {}};
    if (set && fits(*set, paper, marks.totals.max) && is_whole(paper, sitting.parts)) {
        marks.in_time = grade_of(*set, marks.totals.in_time);
        marks.unaided = grade_of(*set, marks.totals.unaided());
    }
    return marks;
}

std::vector<std::size_t> sat_by_enough(const MarkBook& book) {
    std::vector<std::size_t> sat;
    for (std::size_t paper = 0; paper < book.papers.size(); ++paper)
        sat.push_back(sat_by(book, paper));
    const std::size_t most = sat.empty() ? 0 : *std::max_element(sat.begin(), sat.end());
    const std::size_t least = 2 * most >= book.rows.size() ? book.rows.size() : most;
    std::vector<std::size_t> enough;
    for (std::size_t paper = 0; paper < sat.size(); ++paper)
        if (sat[paper] > 0 && 2 * sat[paper] >= least)
            enough.push_back(paper);
    return enough;
}

std::optional<BookChange> change_of(const BookRow& row, const std::vector<std::size_t>& compared) {
    if (compared.empty() || !row.marks[compared.back()])
        return std::nullopt;
    const Totals& last = row.marks[compared.back()]->totals;
    for (std::size_t i = compared.size() - 1; i-- > 0;) {
        const std::size_t from = compared[i];
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

/// Those from the last compared paper but one.
std::vector<double> changes_of(const MarkBook& book) {
    std::vector<double> changes;
    for (const BookRow& row : book.rows)
        if (row.change && row.change->from == book.compared[book.compared.size() - 2])
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

std::optional<double> by_chance(const std::vector<PaperInBook>& papers,
                                const std::vector<std::size_t>& compared) {
    constexpr double in_19_of_20 = 1.96;
    if (compared.size() < 2)
        return std::nullopt;
    const auto before = standard_error(papers[compared[compared.size() - 2]]);
    const auto last = standard_error(papers[compared.back()]);
    if (!before || !last)
        return std::nullopt;
    return in_19_of_20 * std::hypot(*before, *last);
}

void sort_by_mark(MarkBook& book) {
    if (book.compared.empty())
        return;
    const auto last = [paper = book.compared.back()](const BookRow& row) {
        return row.marks[paper] ? share(row.marks[paper]->totals) : -1;
    };
    std::stable_sort(book.rows.begin(), book.rows.end(),
                     [&](const BookRow& a, const BookRow& b) { return last(a) > last(b); });
}

/// As many of the positions as `count`: the last ones compared, then the last of the others; ascending.
std::vector<std::size_t> shown_first(const MarkBook& book, std::size_t count) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < book.papers.size(); ++i)
        order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const auto is_compared = [&](std::size_t paper) {
            return std::binary_search(book.compared.begin(), book.compared.end(), paper);
        };
        return std::pair(is_compared(a), a) > std::pair(is_compared(b), b);
    });
    order.resize(std::min(order.size(), count));
    std::sort(order.begin(), order.end());
    return order;
}

template <typename Of>
std::vector<Of> at_positions(const std::vector<Of>& all, const std::vector<std::size_t>& positions) {
    std::vector<Of> some;
    for (const std::size_t position : positions)
        some.push_back(all[position]);
    return some;
}

/// Where a position has gone to; nothing if it isn't among those kept.
std::optional<std::size_t> position_in(const std::vector<std::size_t>& kept, std::size_t position) {
    const auto found = std::lower_bound(kept.begin(), kept.end(), position);
    if (found == kept.end() || *found != position)
        return std::nullopt;
    return static_cast<std::size_t>(found - kept.begin());
}

} // namespace

MarkBook mark_book(std::vector<PaperInBook> papers, const std::vector<std::string>& candidates,
                   BookOrder order) {
    sort_by_day(papers);
    MarkBook book;
    std::map<std::string, std::size_t> rows;
    for (const std::string& code : candidates) {
        rows.emplace(code, book.rows.size());
        book.rows.push_back({code, std::vector<std::optional<BookMarks>>(papers.size()), {}, {}});
    }
    for (std::size_t i = 0; i < papers.size(); ++i) {
        book.papers.push_back(papers[i].paper);
        book.sets.push_back(papers[i].set);
        for (const SittingOfPaper& sitting : papers[i].sittings)
            if (const auto row = rows.find(sitting.candidate); row != rows.end())
                book.rows[row->second].marks[i] = book_marks(*papers[i].paper, sitting, papers[i].set);
    }
    for (BookRow& row : book.rows)
        for (std::size_t i = 0; i < papers.size(); ++i)
            row.absent.push_back(!row.marks[i] && papers[i].absent.count(row.candidate) > 0);
    book.compared = sat_by_enough(book);
    for (BookRow& row : book.rows)
        row.change = change_of(row, book.compared);
    book.median_change = median(changes_of(book));
    book.by_chance = by_chance(papers, book.compared);
    if (order == BookOrder::mark)
        sort_by_mark(book);
    return book;
}

std::optional<BoundarySet> set_for_paper(const Paper& paper, const std::vector<BoundarySet>& sets,
                                         const std::vector<Award>& awards) {
    const auto of = component_of(paper, awards);
    const BoundarySet* found = nullptr;
    for (const BoundarySet& set : sets) {
        const bool is_of_component =
            of && set.award == of->award->name && set.component == of->award->components[of->component].name;
        if (fits(set, paper, paper.marks()) && (set.award.empty() || (is_of_component && !found)))
            found = &set;
    }
    return found == nullptr ? std::nullopt : std::optional(*found);
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
        if (!book.compared.empty() && !book.rows[i].marks[book.compared.back()])
            rows.push_back(i);
    return rows;
}

std::size_t sat_by(const MarkBook& book, std::size_t paper) {
    return static_cast<std::size_t>(
        std::count_if(book.rows.begin(), book.rows.end(),
                      [&](const BookRow& row) { return row.marks[paper].has_value(); }));
}

MarkBook last_papers(MarkBook book, std::size_t count) {
    const std::vector<std::size_t> kept = shown_first(book, count);
    book.papers = at_positions(book.papers, kept);
    book.sets = at_positions(book.sets, kept);
    for (BookRow& row : book.rows) {
        row.marks = at_positions(row.marks, kept);
        row.absent = at_positions(row.absent, kept);
        const auto from = row.change ? position_in(kept, row.change->from) : std::nullopt;
        if (from)
            row.change->from = *from;
        else
            row.change.reset();
    }
    std::vector<std::size_t> compared;
    for (const std::size_t paper : book.compared)
        if (const auto position = position_in(kept, paper))
            compared.push_back(*position);
    book.compared = std::move(compared);
    return book;
}

} // namespace inkturn
