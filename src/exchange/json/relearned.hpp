#pragma once

#include "inkturn/retry/planned_work.hpp"

#include <string>

namespace inkturn {

/// What is on file of a topic's day; `noted` is false where the note was taken back.
std::string json_of(const Relearned& relearned, bool noted);

} // namespace inkturn
