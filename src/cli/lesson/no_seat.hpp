#pragma once

#include "inkturn/seats/lost_marks.hpp"

#include <string>

namespace inkturn {

/// Why candidates have no seat. `wished`: they said what they want; `has_marks`: of anything that counts
/// here.
std::string reason_text(NoSeat why, bool wished, bool has_marks);

} // namespace inkturn
