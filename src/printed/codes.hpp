#pragma once

#include "printed/line.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

/// Codes of one line of a mark scheme that stand in its column of codes.
struct LineCodes {
    std::size_t line;               ///< position in Layout::lines
    std::vector<std::string> codes; ///< as codes.hpp reads them, such as `A1ft`
};

/// The codes of the column in which most stand, in reading order; none where no column has any.
std::vector<LineCodes> recognise_codes(const Layout& layout);

} // namespace inkturn::printed
