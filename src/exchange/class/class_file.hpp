#pragma once

#include "exchange/class/doubts.hpp"
#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Finds a paper on file by its id; null if there is none.
using PaperSource = std::function<std::shared_ptr<const Paper>(const std::string& id)>;

struct ClassFileOptions {
    std::optional<std::string> paper;      ///< the paper of a wide file; long files name theirs
    std::optional<Day> date;               ///< the day of rows in a wide file without one
    Day today;                             ///< no sitting is later
    std::string subject{};                 ///< of papers made from the file's maxima; empty: none
    std::string only{};                    ///< the parts that were set, see positions_named(); empty: all
    std::optional<DateOrder> date_order{}; ///< of dates that are not ISO; without one they are problems
    std::vector<std::string> accepted{};   ///< the answers to doubts, see doubts.hpp
};

/// Where a cell is, see Rows.
struct CellPlace {
    std::size_t line;
    std::size_t column;
    std::string cell;
};

/// That somebody did not sit a paper, as the file says.
struct AbsenceInFile {
    std::size_t candidate;  ///< position in ClassFile::candidates
    std::size_t paper;      ///< position in ClassFile::papers
    std::optional<Day> day; ///< nothing: the row has none
    std::size_t line;       ///< of its first row
};

/// What a reader should be told about how a file was understood.
struct ClassFileReading {
    std::size_t rows_above = 0;               ///< the header
    std::vector<std::string> columns_ignored; ///< their headings
    std::vector<std::string> rows_left_out;   ///< what stands in place of their candidate
    std::vector<AbsenceInFile> absent;        ///< as their rows come
    std::map<std::string, Problem> classes;   ///< named in a column of them, and the first place
    std::map<std::string, Problem> groups;    ///< the same of sets and groups, which may be classes
    bool codes_headed_as_names = false;
};

/// What a file says of a candidate's extra time.
struct ExtraTimeInFile {
    ExtraTime extra;
    Problem at; ///< place of the cell, without a message
};

/// One candidate's marks for one paper on one day.
struct ClassSitting {
    std::size_t candidate; ///< position in ClassFile::candidates
    std::size_t paper;     ///< position in ClassFile::papers
    Day day;
    std::vector<PartMarks> parts; ///< in the paper's order
    std::size_t line;             ///< of its first row
};

struct ClassFile {
    std::size_t rows = 0;                               ///< below the header, the `max` row left out
    std::size_t absent = 0;                             ///< rows without a mark
    std::vector<std::string> candidates;                ///< in the order of their first rows
    std::vector<CellPlace> places;                      ///< of the candidates' codes there
    std::map<std::size_t, ExtraTimeInFile> extra_times; ///< by position in candidates
    struct SatPaper {
        std::shared_ptr<const Paper> paper;
        bool on_file; ///< false: made from the file's maxima
    };
    std::vector<SatPaper> papers;       ///< in the order of their first rows
    std::vector<ClassSitting> sittings; ///< in the order of their first rows
    ClassFileReading reading;
    FileDoubts doubts;
    ProblemList problems; ///< everything else is whole only if this is empty
};

/// Why a text of the shape of a date is none in the order of --date-order.
std::string why_not_in_order(std::string_view text);

/// What can be doubted in a class's file.
std::vector<DoubtKind> doubts_about_class_file();

/// Reads a class's sittings (docs/formats/class-csv.md): long if the header has `part` or `in_time`,
/// otherwise wide. A wide file's `total` is the row's unaided marks. Everything wrong with the file is a
/// problem, what may be meant otherwise a doubt; what the paper source throws is passed on. Throws Error
/// where what is accepted answers no doubt.
ClassFile read_class(Rows& rows, const ClassFileOptions& options, const PaperSource& papers);

} // namespace inkturn
