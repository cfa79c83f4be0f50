#pragma once

#include "exchange/class/class_cell.hpp"
#include "exchange/class/class_file.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/base/date_orders.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace inkturn {

/// Calls the roll while a class's rows are read: takes each candidate and each sitting once. A wrong code or
/// date goes into the problems with its place.
class ClassRoll {
  public:
    /// All arguments must outlive the roll.
    ClassRoll(HeadedTable& table, const ClassFileOptions& options, ClassFile& csv)
        : table_(table), options_(options), csv_(csv) {}

    /// The position of the candidate whose code is in this column.
    std::size_t candidate(std::size_t column);

    /// The day in this column; nothing if there is none or it is after today. One long ago is doubted.
    std::optional<Day> day(std::size_t column);
    /// Doubts a day more than a year back.
    void doubt_if_old(Day day, Problem at);

    /// Takes what the column says of the candidate's extra time; a blank cell says nothing.
    void extra_time(std::size_t column, std::size_t candidate);

    /// What is wrong with single cells, to be reported at the end.
    CellFaults& faults() { return faults_; }

    struct Found {
        std::size_t position; ///< in ClassFile::sittings
        bool is_new;
    };
    Found sitting(std::size_t candidate, std::size_t paper, Day day);

  private:
    static constexpr std::uint32_t no_sitting = 0xFFFFFFFF;

    /// A slot of the table of sittings: one flat hash table, as shuffled rows use it a lot.
    struct Slot {
        std::uint32_t candidate = 0;
        std::uint32_t paper = 0;
        Day::rep day = 0;
        std::uint32_t sitting = no_sitting;
    };

    Slot& slot_of(const Slot& key);
    void widen();

    HeadedTable& table_;
    const ClassFileOptions& options_;
    ClassFile& csv_;
    std::optional<Day> read_day(std::string_view text);

    CellFaults faults_;
    DateOrders orders_;
    std::set<Day> days_doubted_;
    std::string code_; ///< the one looked for
    std::unordered_map<std::string, std::size_t> candidates_;
    std::vector<Slot> slots_; ///< a power of two of them, at most half in use
};

/// The value of one to three digits; nothing for anything else, which the core's parsers judge.
inline std::optional<int> plain_number(std::string_view text) noexcept {
    if (text.empty() || text.size() > 3)
        return std::nullopt;
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9')
            return std::nullopt;
        value = value * 10 + (c - '0');
    }
    return value;
}

/// The marks of a cell, MARKS[/MAX][:REASON] with the part's maximum, or not-set: a class's file doesn't say
/// which codes were earned. Throws Error.
PartMarks parse_cell_marks(std::string_view text, Marks max);

/// Adds to the faults what is wrong with a cell of marks that parse_cell_marks() refused with this message.
void add_marks_fault(CellFaults& faults, const HeadedTable& table, std::size_t column,
                     const std::string& message, Marks max);

/// Calls the column of the candidates `candidate`, whatever its heading, while the table is at its header.
void name_candidates(HeadedTable& table);

/// Whether a row that starts with `name` is left out: a line on who marked is, what else may be no
/// candidate's is doubted at this place and left out unless it is said to be one. Names go into the list once
/// that is settled.
bool leaves_out_row(const std::string& name, Problem at, FileDoubts& doubts,
                    std::vector<std::string>& left_out);

/// "7b, 8a and 12 more" from any labels.
std::string short_list(const std::vector<std::string_view>& labels);

void read_long_class(HeadedTable& table, const ClassFileOptions& options, const PaperSource& papers,
                     ClassFile& csv);
void read_wide_class(HeadedTable& table, const ClassFileOptions& options, const PaperSource& papers,
                     ClassFile& csv);

} // namespace inkturn
