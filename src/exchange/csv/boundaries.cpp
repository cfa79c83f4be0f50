#include "exchange/csv/boundaries.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <map>
#include <string>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_sets = 1'000; ///< of a file

/// Stands in for the rest of a set while one cell is checked.
const std::vector<GradeBoundary> any_grade{{"A", Marks(0)}};

/// Reads the rows of a file of boundaries, set by set.
class SetRows {
  public:
    SetRows(HeadedTable& table, std::vector<BoundarySet>& sets) : table_(table), sets_(sets) {
        set_ = required("set");
        total_ = required("total");
        subject_ = table_.find("subject");
        if (table_.names().size() > max_set_grades + 3) {
            table_.report_header("there are " + std::to_string(table_.names().size()) +
                                 " columns, and a set may have " + std::to_string(max_set_grades) +
                                 " grades");
            whole_header_ = false;
            return;
        }
        for (std::size_t i = 0; i < table_.names().size(); ++i)
            read_title(i);
    }

    void read() {
        if (!whole_header_)
            return;
        while (table_.next()) {
            if (sets_.size() == max_sets) {
                table_.report_row("there are more than " + std::to_string(max_sets) +
                                  " boundary sets: split the file");
                return;
            }
            read_row();
        }
        if (sets_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no boundary sets below the header: give each series a row");
    }

  private:
    struct Grade {
        std::size_t column;
        std::string name;
    };

    std::size_t required(const char* name) {
        const auto column = table_.find(name);
        if (!column) {
            table_.report_header(std::string("the header has no column ") + name + ": add it");
            whole_header_ = false;
        }
        return column.value_or(0);
    }

    void read_title(std::size_t column) {
        const std::string& name = table_.names()[column];
        if (name == "set" || name == "total" || name == "subject") {
            if (table_.find(name) != column)
                refuse_title(column, "the column " + name + " appears twice: leave one out");
            return;
        }
        Grade grade{column, without_blanks(table_.written_name(column))};
        if (grade.name.empty())
            refuse_title(column, "the column has no name: name its grade, or leave it out");
        for (const Grade& other : grades_)
            if (other.name == grade.name)
                refuse_title(column, "grade " + grade.name + " appears twice: leave one column out");
        grades_.push_back(std::move(grade));
    }

    void refuse_title(std::size_t column, std::string message) {
        table_.report(column, std::move(message));
        whole_header_ = false;
    }

    /// A refused cell is replaced with a value that passes, so that it is reported only once.
    void read_row() {
        row_is_whole_ = true;
        BoundarySet set{"set", "", max_set_marks, {}};
        in_cell(set_, [&] {
            set.name = checked({std::string(table_.cell(set_)), "", Marks(1), any_grade}).name;
        });
        if (subject_)
            in_cell(*subject_, [&] {
                set.subject =
                    checked({"set", std::string(table_.cell(*subject_)), Marks(1), any_grade}).subject;
            });
        in_cell(total_, [&] {
            set.total = Marks(parse_whole_number(table_.cell(total_), 1, max_set_marks.count(), "total"));
        });
        for (const Grade& grade : grades_)
            if (!table_.cell(grade.column).empty())
                in_cell(grade.column, [&] { read_boundary(grade, set); });
        if (row_is_whole_)
            check_row(set);
        sets_.push_back(std::move(set));
    }

    static BoundarySet checked(BoundarySet set) {
        check_boundary_set(set);
        return set;
    }

    void read_boundary(const Grade& grade, BoundarySet& set) {
        const Marks mark(parse_whole_number(table_.cell(grade.column), 0, max_set_marks.count(),
                                            "grade " + grade.name + ", mark"));
        BoundarySet last_two{set.name, set.subject, set.total, {}};
        if (!set.grades.empty())
            last_two.grades.push_back(set.grades.back());
        last_two.grades.push_back({grade.name, mark});
        set.grades.push_back(checked(std::move(last_two)).grades.back());
    }

    /// Checks that go beyond one cell.
    void check_row(const BoundarySet& set) {
        try {
            check_boundary_set(set);
        } catch (const Error& error) {
            table_.report_row(error.what());
        }
        const auto [first, is_new] = lines_.emplace(std::pair(set.subject, set.name), table_.line());
        if (!is_new)
            table_.report_row("boundary set '" + set.name + "' is already in " +
                              table_.row_text(first->second) + ": give each set one row");
    }

    template <typename Work>
    void in_cell(std::size_t column, Work work) {
        if (!table_.in_cell(column, work))
            row_is_whole_ = false;
    }

    HeadedTable& table_;
    std::vector<BoundarySet>& sets_;
    std::map<std::pair<std::string, std::string>, std::size_t> lines_; ///< of the sets, by subject and name
    bool whole_header_ = true;
    bool row_is_whole_ = true;
    std::size_t set_ = 0;
    std::size_t total_ = 0;
    std::optional<std::size_t> subject_;
    std::vector<Grade> grades_; ///< in the order of the columns
};

} // namespace

std::vector<BoundarySet> read_boundaries_rows(Rows& rows, ProblemList& problems) {
    std::vector<BoundarySet> sets;
    try {
        HeadedTable table(rows, problems);
        SetRows(table, sets).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return sets;
}

} // namespace inkturn
