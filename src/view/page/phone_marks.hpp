#pragma once

#include "inkturn/retry/candidate.hpp"

#include <string>

namespace inkturn {

/// A field for the day, and for each part of the retry one for each ink and one for the reason, as
/// phone_script() reads them.
std::string phone_marks(const Retry& retry);

} // namespace inkturn
