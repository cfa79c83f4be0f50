#pragma once

#include "view/page/html_table.hpp"

#include <string>
#include <string_view>

namespace inkturn {

/// A figure as a page shows it: the drawing, and the same in words and in numbers.
struct Chart {
    /// Of a drawing, in its own pixels: on a phone 360 pixels wide with a page's margin of 16 they are the
    /// screen's, so that no letter is smaller than 12.
    static constexpr double width = 328;

    std::string title;       ///< plain text
    std::string alternative; ///< plain text: what there is to see
    std::string svg;         ///< a whole element
    HtmlTable table;
};

/// A figure element: the title, the drawing, and the table, which a reader may fold away.
std::string to_html(const Chart& chart);

/// The style of all charts, for the page's style.
std::string_view chart_style();

} // namespace inkturn
