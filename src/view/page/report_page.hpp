#pragma once

#include "view/figure/chart.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

// What the pages of reports are put together from.

/// What stands wherever a page shows boundaries: a paragraph.
std::string grade_caution();

/// The HTML of as many figures as it takes to have each on a sheet in letters that can be read: one for every
/// `a_sheet` rows. `draw` makes a Chart of some rows and of the position of the first, from 1 on.
template <typename Row, typename Draw>
std::string figures_of(const std::vector<Row>& rows, std::ptrdiff_t a_sheet, const Draw& draw) {
    std::string html;
    for (auto first = rows.begin(); first != rows.end();) {
        const auto last = first + std::min(a_sheet, rows.end() - first);
        html += to_html(draw(std::vector<Row>(first, last), first - rows.begin() + 1));
        first = last;
    }
    return html;
}

struct ReportSection {
    std::string id; ///< also of its heading: letters, digits and `-`
    std::string title;
    std::string content; ///< HTML
};

/// A page of HTML that stands alone, for a phone, a desk and A4. Title and lead are plain text; each element
/// of the lead is a paragraph below the title.
std::string report_page(const std::string& title, const std::vector<std::string>& lead,
                        const std::vector<ReportSection>& sections);

} // namespace inkturn
