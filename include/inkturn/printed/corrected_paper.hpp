#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/printed/paper.hpp"

#include <vector>

namespace inkturn {

/// The printed paper with parts that were corrected by hand in place of those read. Its doubts are sums that
/// disagree with the totals stated by the paper and its questions, and questions that only one of the two
/// has. Pages and strips are those read under the same label.
PrintedPaper corrected(const PrintedPaper& read, const std::vector<Part>& parts);

/// The mark scheme with the codes that were corrected by hand in place of those read.
PrintedScheme corrected(const PrintedScheme& read, const std::vector<Part>& parts);

} // namespace inkturn
