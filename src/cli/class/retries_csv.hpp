#pragma once

#include "cli/class/class_work.hpp"
#include "inkturn/retry/due_question.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A row, so a letter, for each candidate with retries (docs/formats/retries-csv.md).
std::string letters_csv(const ClassWork& work, Day today);

/// A row for each retry.
std::string retries_csv(const ClassWork& work, Day today);

/// A row for each part of each retry, to be filled in and read by `class retried`.
std::string sheet_csv(const ClassWork& work);

/// A row for each question that is due.
std::string questions_csv(const std::vector<DueQuestion>& questions);

} // namespace inkturn
