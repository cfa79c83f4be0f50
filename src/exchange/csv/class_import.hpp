#pragma once

#include "exchange/csv/class_file.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>

namespace inkturn {

struct ClassImportOptions {
    ClassCsvOptions csv;
    bool replace = false; ///< a different sitting of the same candidate, paper and day takes the place of the
                          ///< one on file
    std::optional<std::string> of_class{}; ///< its candidates become members; made where it is not there
};

/// What an import did, or, where there are problems, would have met.
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
    ProblemList problems; ///< with one or more of these nothing is to be stored
};

/// Reads a class's sittings and puts them, their papers and the days of their retries into the store by
/// a Change that the caller commits only where there are no problems.
ClassImport import_class(Store::Change& change, std::istream& in, const ClassImportOptions& options);

std::string json_of(const ClassImport& import);

} // namespace inkturn
