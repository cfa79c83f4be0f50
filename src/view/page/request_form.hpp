#pragma once

#include "inkturn/base/day.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A form on which candidates ask for a place in a lesson.
struct RequestForm {
    std::string of_class;                ///< empty: none
    std::vector<std::string> candidates; ///< a slip each; empty: one slip with room for a code
    std::vector<std::string> topics;
    std::vector<Day> dates; ///< may be empty
};

/// A page of HTML that stands alone: slips to cut apart, several on a side of A4, with boxes for the topics
/// and the dates and a line for remarks.
std::string to_html(const RequestForm& form);

} // namespace inkturn
