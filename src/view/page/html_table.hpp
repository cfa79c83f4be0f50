#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A table on a page, as plain text.
struct HtmlTable {
    struct Column {
        std::string title;
        bool is_count = false; ///< right-aligned
    };

    std::string caption;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< one cell per column; the first names the row
    std::vector<std::string> notes{}; ///< below the names, one a row, empty ones too; or none at all
    std::size_t marked = 0;           ///< how many rows at the top stand out
};

std::string to_html(const HtmlTable& table);

/// The style of all such tables, for the page's style. On a phone numbers stay whole, and names of rows wrap.
std::string_view table_style();

} // namespace inkturn
