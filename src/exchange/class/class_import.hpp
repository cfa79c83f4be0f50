#pragma once

#include "exchange/class/class_file.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>

namespace inkturn {

struct ClassImportOptions {
    ClassFileOptions file;
    bool replace = false; ///< a different sitting of the same candidate, paper and day takes the place of the
                          ///< one on file
    std::optional<std::string> of_class{}; ///< its candidates become members; added if it doesn't exist
};

/// What an import did, or would have done if there are problems.
struct ClassImport {
    std::size_t rows = 0;
    std::size_t sittings_added = 0;
    std::size_t sittings_unchanged = 0;
    std::size_t sittings_replaced = 0;
    std::size_t absent = 0;
    std::size_t retries_added = 0;
    std::vector<std::string> papers_added; ///< ids of those made from the file's maxima
    bool class_added = false;
    std::size_t members_added = 0;
    ProblemList problems; ///< if there are any, nothing must be stored
};

/// Reads a class's sittings and puts them, their papers and the days of their retries into the store by
/// a Change that the caller commits only if there are no problems.
ClassImport import_class(Store::Change& change, Rows& rows, const ClassImportOptions& options);

std::string json_of(const ClassImport& import);

} // namespace inkturn
