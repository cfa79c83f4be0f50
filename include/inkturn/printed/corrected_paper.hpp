#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/printed/paper.hpp"

#include <vector>

namespace inkturn {

/// The printed paper with parts that were corrected by hand in place of those read. Its doubts are what
/// disagrees with the totals that the paper and its questions state, and questions on which the two differ.
/// Pages and strips are those of the parts and questions read under the same label.
PrintedPaper corrected(const PrintedPaper& read, const std::vector<Part>& parts);

/// The mark scheme with the codes that were corrected by hand in place of those read.
PrintedScheme corrected(const PrintedScheme& read, const std::vector<Part>& parts);

} // namespace inkturn
