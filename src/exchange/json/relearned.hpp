#pragma once

#include "inkturn/retry/planned_work.hpp"

#include <string>

namespace inkturn {

/// A topic relearned on a day; `noted` is false if the note was undone.
std::string json_of(const Relearned& relearned, bool noted);

} // namespace inkturn
