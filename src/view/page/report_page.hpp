#pragma once

#include "view/figure/chart.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

// The building blocks of report pages.

/// A paragraph for every page that shows boundaries.
std::string grade_caution();

/// The HTML of one figure for every `a_sheet` rows, so that each fits a sheet in letters that can be read.
/// `draw` makes a Chart from some rows and the position of the first, counted from 1.
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
    std::string content;  ///< HTML
    bool is_wide = false; ///< takes the width of the page, not one of two columns
};

/// A page of HTML that stands alone, for a phone, a desk and A4. Title and lead are plain text; each element
/// of the lead is a paragraph below the title.
std::string report_page(const std::string& title, const std::vector<std::string>& lead,
                        const std::vector<ReportSection>& sections);

} // namespace inkturn
