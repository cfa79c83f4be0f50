#pragma once

#include "cli/class/class_work.hpp"
#include "inkturn/retry/due_question.hpp"

#include <cstddef>
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

/// Marks missed, over those for whom it is due, in tenths of a mark; 0 where there is nobody.
std::size_t mean_in_tenths(const DueQuestion& due);

} // namespace inkturn
