#pragma once

#include "inkturn/seats/lost_marks.hpp"

#include <string>

namespace inkturn {

/// Why candidates have no seat. `wished`: they said what they want.
std::string reason_text(NoSeat why, bool wished);

} // namespace inkturn
