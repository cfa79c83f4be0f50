#pragma once

#include "printed/line.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

/// Codes on one line of a mark scheme.
struct LineCodes {
    std::size_t line;               ///< position in Layout::lines
    std::vector<std::string> codes; ///< as codes.hpp reads them, such as `A1ft`
};

/// The codes that stand alone right of the answers, in reading order.
std::vector<LineCodes> recognise_codes(const Layout& layout);

} // namespace inkturn::printed
