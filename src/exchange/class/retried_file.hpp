#pragma once

#include "exchange/class/class_file.hpp"
#include "exchange/class/doubts.hpp"
#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/retry/retry.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct RetriedFileOptions {
    std::optional<Day> date; ///< of rows that don't say
    Day today;               ///< no re-attempt is later
    std::optional<DateOrder> date_order{};
    std::vector<std::string> accepted{}; ///< the answers to doubts, see doubts.hpp
};

/// A part's marks as written, MARKS[:REASON] without blanks; empty: the row or cell says nothing.
struct RetriedMarks {
    std::string part; ///< short label; empty: the question's only one
    std::string marks;
    std::optional<int> max; ///< as a column states it
    Problem at;             ///< place
};

/// What a file says of one re-attempt.
struct RetriedEntry {
    std::string candidate;
    std::optional<RetryId> id;
    std::string paper;    ///< id; empty where only the retry is named
    std::string question; ///< label; likewise
    std::optional<Day> day;
    std::vector<RetriedMarks> marks;
    bool full = false;    ///< all its marks in time
    bool refused = false; ///< something wrong with its marks or its name is among the problems
    Problem at;           ///< place of its first row
    bool bad_day = false; ///< something wrong with its day is among them

    /// Whether it is left blank, as on a sheet that was not filled in.
    bool is_blank() const;
};

struct RetriedFile {
    std::size_t rows = 0;
    std::size_t repeated = 0;          ///< lines from the phone that were there already, and count once
    std::vector<RetriedEntry> entries; ///< in the order of their first rows
    std::vector<std::string> columns_ignored;
    std::vector<std::string> rows_left_out; ///< what they start with
    FileDoubts doubts;
    ProblemList problems;
};

/// Reads re-attempts (docs/formats/retried-csv.md): a row for each part if the header has `part`, else a row
/// for each retry. Whether they fit what is on file is not looked at. Throws Error where what is accepted
/// answers no doubt.
RetriedFile read_retried(Rows& rows, const RetriedFileOptions& options);

} // namespace inkturn
