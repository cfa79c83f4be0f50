#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/grades/award.hpp"
#include "inkturn/grades/boundaries.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/comparison.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A paper and at most one sitting of it for each candidate.
struct PaperInBook {
    std::shared_ptr<const Paper> paper;
    std::vector<SittingOfPaper> sittings;
    std::set<std::string> absent{};   ///< of whom it was said that they did not sit it
    std::optional<BoundarySet> set{}; ///< for its grades
};

/// A candidate's marks for one paper.
struct BookMarks {
    Day day;
    Totals totals;
    /// What the marks get under the paper's set; nothing where there is none, or only some of the paper was
    /// set.
    std::optional<GradeResult> in_time;
    std::optional<GradeResult> unaided;
};

/// From the compared paper that the candidate sat last before to the last compared one, by unaided marks.
struct BookChange {
    std::size_t from;                     ///< position in MarkBook::papers
    double share;                         ///< of the marks, -1 to 1
    std::optional<MarksDifference> marks; ///< where both are out of the same total
};

struct BookRow {
    std::string candidate;
    std::vector<std::optional<BookMarks>> marks; ///< as the papers; nothing: no marks on file
    std::optional<BookChange> change;            ///< nothing without two papers, or without the last
    std::vector<bool> absent{}; ///< as the papers: no marks, and it was said that they did not sit it
};

enum class BookOrder : std::uint8_t {
    code,
    mark ///< by the share of unaided marks in the last compared paper, the highest first; those without last,
         ///< by code
};

struct MarkBook {
    std::vector<std::shared_ptr<const Paper>> papers; ///< by the first day on which they were sat, then by id
    std::vector<std::optional<BoundarySet>> sets;     ///< as the papers
    std::vector<BookRow> rows;
    /// Positions of the papers by which candidates are compared, ascending: those that at least half of the
    /// rows sat; if there is none, at least half as many as sat the paper that most sat.
    std::vector<std::size_t> compared;
    std::optional<double> median_change; ///< share, of those whose change is from the last but one compared
    /// Changes of this share or less either way from the last compared but one are within what chance brings
    /// in 19 of 20, by the papers' standard errors of measurement. Nothing where one has none.
    std::optional<double> by_chance;
};

/// The marks of candidates, ascending by code. Of papers that nobody sat only the name is there.
MarkBook mark_book(std::vector<PaperInBook> papers, const std::vector<std::string>& candidates,
                   BookOrder order);

/// That of the sets that is for the paper: by subject and total, or of the component to which it belongs.
/// Nothing where none is; of a whole award none is.
std::optional<BoundarySet> set_for_paper(const Paper& paper, const std::vector<BoundarySet>& sets,
                                         const std::vector<Award>& awards);

/// Positions of the rows whose change is the least, if that is below 0.
std::vector<std::size_t> fell_most(const MarkBook& book);

/// Positions of the rows without marks in the last compared paper.
std::vector<std::size_t> missing_last(const MarkBook& book);

/// Rows with marks in the paper at a position.
std::size_t sat_by(const MarkBook& book, std::size_t paper);

/// The book with as many papers as `count`: the last ones compared, then the last of the others.
MarkBook last_papers(MarkBook book, std::size_t count);

} // namespace inkturn
