#pragma once

#include "exchange/class/class_roll.hpp"
#include "exchange/class/wide_layout.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What the cells of a row say about one paper.
enum class RowOf : std::uint8_t { sitting, absence, nothing_tried };

/// One paper of a wide file: reads its cells of a row, its maxima and what was set of it.
class WidePaper {
  public:
    /// All but the columns must outlive it.
    WidePaper(HeadedTable& table, const ClassFileOptions& options, ClassFile& file, CellFaults& faults,
              const WideLayout& layout, WidePaperColumns columns);

    const WidePaperColumns& columns() const { return columns_; }
    const std::shared_ptr<const Paper>& paper() const { return paper_; } ///< null: none is made (yet)

    /// Maxima in the headings make a paper that is not on file, if all have one, and must agree with one that
    /// is.
    void check_header_max();
    void report_missing_columns();
    void report_strangers();

    /// The first number of the row that is not the maximum known, in words; empty if there is none.
    std::string maximum_that_differs() const;
    void read_max_row();
    /// A problem, once, if the paper is neither on file nor made by now.
    void require();

    RowOf row_of() const;
    bool has_no_mark() const; ///< whether the row's cells are 0, empty or say that nothing was tried
    void check_absence() { check_total({}, "the row's unaided marks"); }
    std::optional<std::vector<PartMarks>> read_marks();

    /// At the end of the file: the part of a new paper that is the sum of those before it in maximum and in
    /// every row, if any.
    std::optional<std::size_t> total_among_parts() const;
    void drop_part(std::size_t part);

  private:
    std::vector<bool> set_for_all() const;
    std::optional<Marks> read_max(std::size_t i);
    void make_paper(std::vector<Part> parts);
    std::optional<std::size_t> column_of_words() const;
    void report_words(std::size_t column);
    std::optional<std::vector<bool>> read_set();
    std::optional<PartMarks> read_mark(std::size_t i, bool is_set);
    bool read_choices(std::vector<PartMarks>& parts);
    /// Marks that a column states the sum of, or the percentage.
    struct Summed {
        Marks marks;
        Marks max;
        bool agrees_with_percentage(std::string_view plain) const; ///< such as 85% or 84.6%
    };
    void check_total(Summed sum, const char* of_what);
    void check_sums(const std::vector<PartMarks>& parts);
    void check_sum(std::size_t column, Summed summed, const char* name, const std::string& of_what);
    void watch_for_total(const std::vector<PartMarks>& parts);

    HeadedTable& table_;
    const ClassFileOptions& options_;
    ClassFile& file_;
    CellFaults& faults_;
    std::size_t candidate_;
    std::optional<std::size_t> only_;
    WidePaperColumns columns_;
    std::shared_ptr<const Paper> paper_;
    std::vector<std::size_t> positions_;  ///< of the part columns in the paper
    std::optional<std::size_t> max_line_; ///< of its row of maxima
    bool refused_ = false;                ///< the reason has been reported
    std::vector<bool> may_be_sum_;        ///< by part: those before it have added up to it so far
    std::size_t rows_ = 0;                ///< with marks
    std::vector<bool> strangers_reported_;
};

} // namespace inkturn
