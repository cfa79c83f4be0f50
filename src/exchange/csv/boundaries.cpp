#include "exchange/csv/boundaries.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_sets = 1'000; ///< of a file

/// Stands in for the rest of a set while one cell is checked.
std::vector<GradeBoundary> any_grade() {
    return {{"A", Marks(0)}};
}

/// What the title of a column with a grade's uniform marks begins with.
constexpr std::string_view uniform_title = "uniform ";

/// Reads the rows of a file of boundaries, set by set.
class SetRows {
  public:
    SetRows(HeadedTable& table, std::vector<BoundarySet>& sets) : table_(table), sets_(sets) {
        set_ = required("set");
        total_ = required("total");
        subject_ = table_.find("subject");
        award_ = table_.find("award");
        component_ = table_.find("component");
        cap_ = table_.find("cap");
        for (std::size_t i = 0; i < table_.names().size() && grades_.size() <= max_set_grades; ++i)
            read_title(i);
        if (grades_.size() > max_set_grades) {
            table_.report_header("there are too many columns of grades, and a set may have " +
                                 std::to_string(max_set_grades) + " grades");
            whole_header_ = false;
            return;
        }
        place_uniform_columns();
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
        std::optional<std::size_t> uniform{}; ///< the column of its uniform marks
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
        if (name == "set" || name == "total" || name == "subject" || name == "award" || name == "component" ||
            name == "cap") {
            if (table_.find(name) != column)
                refuse_title(column, "the column " + name + " appears twice: leave one out");
            return;
        }
        Grade grade{column, without_blanks(table_.written_name(column))};
        if (name.rfind(uniform_title, 0) == 0) {
            grade.name = without_blanks(grade.name.substr(uniform_title.size()));
            uniform_columns_.push_back(std::move(grade));
            return;
        }
        if (grade.name.empty())
            refuse_title(column, "the column has no name: name its grade, or leave it out");
        for (const Grade& other : grades_)
            if (other.name == grade.name)
                refuse_title(column, "grade " + grade.name + " appears twice: leave one column out");
        grades_.push_back(std::move(grade));
    }

    void place_uniform_columns() {
        for (const Grade& uniform : uniform_columns_) {
            const auto grade = std::find_if(grades_.begin(), grades_.end(),
                                            [&](const Grade& one) { return one.name == uniform.name; });
            if (grade == grades_.end())
                refuse_title(uniform.column, "there is no column of grade " + uniform.name +
                                                 ", whose uniform marks these are: add it");
            else
                grade->uniform = uniform.column;
        }
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
            set.name = checked({name_in(table_.cell(set_)), "", Marks(1), any_grade()}).name;
        });
        if (subject_)
            in_cell(*subject_, [&] {
                set.subject =
                    checked({"set", name_in(table_.cell(*subject_)), Marks(1), any_grade()}).subject;
            });
        in_cell(total_, [&] {
            set.total = Marks(parse_whole_number(table_.cell(total_), 1, max_set_marks.count(), "total"));
        });
        read_owner(set);
        for (const Grade& grade : grades_)
            if (!table_.cell(grade.column).empty())
                in_cell(grade.column, [&] { read_boundary(grade, set); });
        read_uniform_marks(set);
        if (row_is_whole_)
            check_row(set);
        sets_.push_back(std::move(set));
    }

    void read_owner(BoundarySet& set) {
        if (award_)
            in_cell(*award_, [&] { set.award = name_in(table_.cell(*award_)); });
        if (component_)
            in_cell(*component_, [&] { set.component = name_in(table_.cell(*component_)); });
        if (!set.component.empty() && set.award.empty())
            table_.report(*component_, "a component belongs to an award: name it in a column award");
        if (cap_ && !table_.cell(*cap_).empty())
            in_cell(*cap_, [&] { cap_of_row_ = read_marks(*cap_, 1, "cap"); });
        else
            cap_of_row_.reset();
    }

    Marks read_marks(std::size_t column, int min, const std::string& what) const {
        return Marks(parse_whole_number(table_.cell(column), min, max_set_marks.count(), what));
    }

    /// Comes after the boundaries: a set is checked whole.
    void read_uniform_marks(BoundarySet& set) {
        for (const Grade& grade : grades_)
            if (grade.uniform && !table_.cell(*grade.uniform).empty())
                in_cell(*grade.uniform, [&] {
                    set.uniform.push_back(
                        read_marks(*grade.uniform, 0, "grade " + grade.name + ", uniform mark"));
                });
        set.cap = cap_of_row_;
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
        const auto [first, is_new] =
            lines_.emplace(std::tuple(set.subject, set.award, set.component, set.name), table_.line());
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
    /// Of the sets, by subject, award, component and name.
    std::map<std::tuple<std::string, std::string, std::string, std::string>, std::size_t> lines_;
    bool whole_header_ = true;
    bool row_is_whole_ = true;
    std::size_t set_ = 0;
    std::size_t total_ = 0;
    std::optional<std::size_t> subject_;
    std::optional<std::size_t> award_;
    std::optional<std::size_t> component_;
    std::optional<std::size_t> cap_;
    std::optional<Marks> cap_of_row_;
    std::vector<Grade> uniform_columns_; ///< by their grades' names
    std::vector<Grade> grades_;          ///< in the order of the columns
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
