#pragma once

#include "view/page/html_table.hpp"

#include <string>
#include <string_view>

namespace inkturn {

/// A figure on a page: the drawing, and the same in words and numbers.
struct Chart {
    /// Of a drawing, in its own pixels. On a phone 360 pixels wide with a margin of 16 on the page these are
    /// the screen's pixels, so no letter is smaller than 12.
    static constexpr double width = 328;

    std::string title;       ///< plain text
    std::string alternative; ///< plain text: what the drawing shows
    std::string svg;         ///< a whole element
    HtmlTable table;
};

/// A figure element: the title, the drawing, and the table, which a reader can fold away.
std::string to_html(const Chart& chart);

/// The style of all charts, for the page's style.
std::string_view chart_style();

} // namespace inkturn
