#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A table of a page, as plain text.
struct HtmlTable {
    struct Column {
        std::string title;
        bool is_count = false; ///< to the right
    };

    std::string caption;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< a cell a column; the first names the row
};

std::string to_html(const HtmlTable& table);

/// The style of all such tables, for the page's style. Numbers stay whole on a phone, what names a row
/// breaks.
std::string_view table_style();

} // namespace inkturn
