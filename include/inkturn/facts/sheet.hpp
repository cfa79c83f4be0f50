#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/facts/fact.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

enum class SheetId : std::int64_t {};

/// 30 seconds to write a fact down, 15 to check it. Ours, no source.
constexpr Seconds time_for_fact{45};

/// Facts that a candidate is asked to write down from memory, and what came of it.
struct Sheet {
    static constexpr std::size_t max_rows = 20;

    struct Row {
        int number; ///< 1 to max_rows, as printed; that of a fact since removed stays free
        FactId fact;
    };
    struct Log {
        Day day;                      ///< on which it was filled in
        std::vector<int> missed_rows; ///< numbers of rows, ascending
    };

    SheetId id{};
    Day day;                ///< for which it was made
    std::vector<Row> rows;  ///< by number; no fact twice
    std::optional<Log> log; ///< nothing: not filled in yet

    bool is_missed(int row) const;
    Seconds duration() const { return time_for_fact * static_cast<int>(rows.size()); }
};

/// A sheet of these facts, in rows from 1 on.
Sheet sheet_of(const std::vector<FactId>& facts, Day day);

/// Throws Error unless the sheet is as its fields say, with one row at least, and its log fits it.
void check_sheet(const Sheet& sheet);

/// Throws Error where the sheet has no row of a number, a row is there twice, they don't ascend, or the day
/// lies before the sheet's own.
void check_log(const Sheet& sheet, const Sheet::Log& log);

/// A candidate's sheet with what it asks.
struct CandidateSheet {
    std::string candidate;
    Sheet sheet;
    std::vector<Fact> facts; ///< one a row
};

/// The latest sheet that asks the same facts, in whatever order, and is not logged; null where there is none.
const Sheet* find_open_sheet(const std::vector<Sheet>& sheets, const Sheet& same);

/// The log of a sheet on which these rows were missed. Throws Error where it is logged already, it has no
/// such row, a row is named twice, or the day lies before the sheet's own or after today.
Sheet::Log take_log(const Sheet& sheet, std::vector<int> missed, Day day, Day today);

/// Throws Error where the sheet is not logged, or one that was filled in on a later day asks a fact of it
/// again.
void check_log_can_be_undone(const std::vector<Sheet>& of_candidate, const Sheet& sheet);

/// How a fact fared on the last sheet that asked it.
struct LastRecall {
    Day day;
    SheetId sheet;
    bool missed;
};

/// Of each fact that a logged sheet asks: by the day on which it was filled in, then the sheet's number.
std::map<FactId, LastRecall> last_recalls(const std::vector<Sheet>& of_candidate);

/// The sheet's number as people type it.
std::string to_text(SheetId id);
SheetId parse_sheet_id(const std::string& text);

} // namespace inkturn
