#pragma once

#include "inkturn/lesson/run_sheet.hpp"

#include <string>

namespace inkturn {

/// A page of HTML that stands alone, one A4 side for a lesson of a dozen: what to do first, the retries that
/// those who come share, fresh questions, and what each should bring, with a box to tick who is there.
std::string to_html(const RunSheet& sheet);

} // namespace inkturn
