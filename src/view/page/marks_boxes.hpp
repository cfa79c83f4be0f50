#pragma once

#include "inkturn/base/length.hpp"
#include "inkturn/retry/candidate.hpp"
#include "view/page/print_size.hpp"

#include <string>
#include <string_view>

namespace inkturn {

/// A table with one row a part of the retry and a box for each ink, to write marks in by hand.
std::string marks_boxes(const Retry& retry);

/// How high it is in print.
Millimetres height_of_boxes(const Retry& retry, PrintSize size = PrintSize::usual);

/// For the page's style.
std::string_view marks_boxes_style();

} // namespace inkturn
