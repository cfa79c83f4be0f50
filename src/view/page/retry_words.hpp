#pragma once

#include "inkturn/retry/candidate.hpp"

#include <string>

namespace inkturn {

/// For a question without a picture: the paper as its cover names it, and the parts; a paragraph.
std::string where_to_find(const Retry& retry);

/// When, how long, why, and by when: what stands below the heading of a retry; a paragraph.
std::string said_of(const Retry& retry);

} // namespace inkturn
