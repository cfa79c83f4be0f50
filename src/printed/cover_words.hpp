#pragma once

#include "printed/line.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

/// A run of letters or of digits, in lower case; `1.5`, `1/2` and `1:30` are one, and fractions however they
/// are set are `1/2`.
struct CoverWord {
    std::string text;
    std::size_t line;
    std::size_t piece; ///< of its line: wide blanks divide it
    Points left;       ///< of the piece
};
using CoverWords = std::vector<CoverWord>;

/// Those of the lines before the one at `end`.
CoverWords cover_words(const Layout& layout, std::size_t end);

} // namespace inkturn::printed
