#pragma once

#include "inkturn/base/error.hpp"

#include <cstddef>
#include <string>

namespace inkturn {

/// Something wrong at a place in a file that was read.
struct Problem {
    std::size_t line;   ///< from 1; 0: the file as a whole
    std::size_t column; ///< of the field's first character, in characters from 1; 0: the line as a whole
    std::string message;
    Error::Remedy remedy = Error::Remedy::none; ///< what would help, as in an Error
    std::string about{};
    std::string cell{}; ///< in a workbook, such as B7: line and column are then its row and column
};

} // namespace inkturn
