#pragma once

#include "exchange/class/class_file.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>
#include <utility>

namespace inkturn {

struct ClassImportOptions {
    ClassFileOptions file;
    bool replace = false; ///< a different sitting of the same candidate, paper and day takes the place of the
                          ///< one on file
    std::optional<std::string> of_class{}; ///< its candidates become members; added if it doesn't exist
    std::optional<std::string> doubt_of_subject{}; ///< why the subject of papers it makes may be a slip
};

/// How an import understood its file.
struct ClassUnderstood {
    std::vector<ClassFile::SatPaper> papers; ///< null where there are problems
    std::vector<Day> days;                   ///< of the sittings, ascending
    std::size_t candidates_new = 0;
    std::size_t candidates_known = 0;
    std::vector<std::string> absent;                            ///< codes, as their rows come
    std::vector<std::pair<std::string, ExtraTime>> extra_times; ///< codes, those stated in the file
    std::vector<std::string> columns_ignored;
    std::vector<std::string> rows_left_out;
    std::size_t rows_above = 0; ///< the header
};

/// What an import did, or would have done if there are problems or doubts.
struct ClassImport {
    ClassUnderstood understood;
    std::size_t rows = 0;
    std::size_t sittings_added = 0;
    std::size_t sittings_unchanged = 0;
    std::size_t sittings_replaced = 0;
    std::size_t absent = 0;
    std::size_t retries_added = 0;
    std::vector<std::string> papers_added; ///< ids of those made from the file's maxima
    bool class_added = false;
    std::size_t members_added = 0;
    std::size_t extra_times_set = 0; ///< candidates whose extra time on file is another now
    FileDoubts doubts;               ///< if any is open, nothing must be stored
    ProblemList problems;            ///< the same if there are any
};

/// Reads a class's sittings and puts them, their papers and the days of their retries into the store by
/// a Change that the caller commits only if there are no problems and no open doubts.
ClassImport import_class(Store::Change& change, Rows& rows, const ClassImportOptions& options);

std::string json_of(const ClassImport& import);

} // namespace inkturn
