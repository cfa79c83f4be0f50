#pragma once

#include "inkturn/store/changes.hpp"

#include <string>

namespace inkturn {

/// `2026-11-25 22:47`, on this machine's clock.
std::string time_text(const ChangeOnFile& change);

/// When it was made, then what was typed and what that changed: lines of full width.
std::string change_text(const ChangeOnFile& change);

} // namespace inkturn
