#pragma once

#include "exchange/class/class_cell.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace inkturn {

/// Where the columns of a long file are.
struct LongColumns {
    std::size_t candidate, paper, date, part, in_time;
    std::optional<std::size_t> overtime, corrected, reason, max, extra_time;
};

/// The marks in the current row of a long file.
class LongMarks {
  public:
    /// All must outlive it.
    LongMarks(HeadedTable& table, const LongColumns& columns, CellFaults& faults)
        : table_(table), columns_(columns), faults_(faults) {}

    /// Of the part with this label; nothing if there is something wrong, which is reported.
    std::optional<PartMarks> read(const std::string& label, Marks max);

    /// Whether the row says that the candidate was not there, which is read as a part not attempted.
    bool says_absent() const { return says_absent_; }

  private:
    std::string_view cell(std::optional<std::size_t> column) const {
        return column ? table_.cell(*column) : std::string_view();
    }
    std::optional<PartMarks> read_unusual(const std::string& label, Marks max);
    std::optional<int> read_ink(std::optional<std::size_t> column, const char* name, const std::string& label,
                                Marks max);
    std::optional<PartMarks> judge(const std::string& text, Marks max, std::size_t column);

    HeadedTable& table_;
    const LongColumns& columns_;
    CellFaults& faults_;
    bool says_absent_ = false;
};

} // namespace inkturn
