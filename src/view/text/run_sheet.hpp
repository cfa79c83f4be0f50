#pragma once

#include "inkturn/lesson/run_sheet.hpp"

#include <string>
#include <vector>

namespace inkturn {

// The words that a run sheet has on the screen and on a page.

/// What to do in the lesson, and for whom it is: one to three sentences.
std::vector<std::string> opening_of(const RunSheet& sheet);

/// `pure-1 question 3`.
std::string question_text(const Retry& retry);
std::string question_text(const Drawable& question);

/// `pure-1 (3, 7)` for each paper; `nothing` if there is none.
std::string bring_text(const ToBring& bring);

/// The whole sheet, in lines of at most 80 columns.
std::string screen_text(const RunSheet& sheet);

} // namespace inkturn
