#include "exchange/json/mark_book.hpp"

#include "exchange/json/value.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

Json grade_or_null(const std::optional<BoundarySet>& set, const std::optional<GradeResult>& result) {
    if (!set || !result || !result->grade)
        return nullptr;
    return set->grades[*result->grade].grade;
}

Json value_of(const MarkBook& book, const BookRow& row, std::size_t position, bool with_grades) {
    const Paper& paper = *book.papers[position];
    const std::optional<BoundarySet>& set = book.sets[position];
    const std::optional<BookMarks>& marks = row.marks[position];
    if (!marks)
        return {{"paper", paper.id()}, {"has_marks", false}, {"absent", bool(row.absent[position])}};
    Json value{{"paper", paper.id()},
               {"has_marks", true},
               {"absent", false},
               {"date", iso(marks->day)},
               {"max", marks->totals.max.count()},
               {"in_time", marks->totals.in_time.count()},
               {"unaided", marks->totals.unaided().count()}};
    if (with_grades) {
        value["has_grade"] = marks->unaided.has_value();
        value["grade_in_time"] = grade_or_null(set, marks->in_time);
        value["grade"] = grade_or_null(set, marks->unaided);
    }
    return value;
}

Json value_of(const MarkBook& book, const std::optional<BookChange>& change) {
    if (!change)
        return nullptr;
    return {{"since", book.papers[change->from]->id()},
            {"share", thousandths(change->share)},
            {"marks", change->marks ? Json(change->marks->count()) : Json(nullptr)}};
}

Json value_of(const MarkBook& book, const BookRow& row, bool with_grades) {
    Json papers = Json::array();
    for (std::size_t i = 0; i < book.papers.size(); ++i)
        papers.push_back(value_of(book, row, i, with_grades));
    return {
        {"candidate", row.candidate}, {"papers", std::move(papers)}, {"change", value_of(book, row.change)}};
}

Json share_or_null(const std::optional<double>& share) {
    return share ? Json(thousandths(*share)) : Json(nullptr);
}

Json codes_of_rows(const MarkBook& book, const std::vector<std::size_t>& rows) {
    Json codes = Json::array();
    for (const std::size_t row : rows)
        codes.push_back(book.rows[row].candidate);
    return codes;
}

} // namespace

std::string json_of(const MarkBook& book, const std::optional<std::string>& of_class,
                    const std::optional<std::string>& set) {
    const bool any_guess =
        std::any_of(book.sets.begin(), book.sets.end(), [](const auto& one) { return one && one->is_guess; });
    Json compared = Json::array();
    for (const std::size_t paper : book.compared)
        compared.push_back(book.papers[paper]->id());
    Json candidates = Json::array();
    for (const BookRow& row : book.rows)
        candidates.push_back(value_of(book, row, set.has_value()));
    return text_of({{"class", of_class ? Json(*of_class) : Json(nullptr)},
                    {"set", set ? Json(*set) : Json(nullptr)},
                    {"guess", set ? Json(any_guess) : Json(nullptr)},
                    {"papers", ids_of(book.papers)},
                    {"compared", std::move(compared)},
                    {"candidates", std::move(candidates)},
                    {"fell_most", codes_of_rows(book, fell_most(book))},
                    {"missing", codes_of_rows(book, missing_last(book))},
                    {"median_change", share_or_null(book.median_change)},
                    {"by_chance", share_or_null(book.by_chance)}});
}

} // namespace inkturn
