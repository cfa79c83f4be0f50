#include "view/page/html_table.hpp"

#include "view/page/html.hpp"

#include <cassert>

namespace inkturn {
namespace {

constexpr std::string_view table_style_text =
    R"(table { border-collapse: collapse; margin: 0 0 0.8em; min-width: min(100%, 18rem); }
caption { text-align: left; font-style: italic; padding: 0 0 0.3em; }
th, td { border-bottom: 0.75pt solid #999; padding: 0.25em 0.7em 0.25em 0; text-align: left; vertical-align: top;
font-weight: normal; }
thead th { border-bottom: 1.5pt solid #000; vertical-align: bottom; font-weight: bold; }
tbody th { width: 33%; min-width: 5em; }
td:not(.count) { min-width: 3em; }
thead th { overflow-wrap: break-word; }
th.count, td.count { text-align: right; }
td.count { white-space: nowrap; }
td:last-child, th:last-child { padding-right: 0; }
.marked th { font-weight: bold; border-left: 4pt solid #a3470d; padding-left: 0.5em; }
.note { display: block; font-weight: normal; font-size: 0.9em; }
@media screen and (max-width: 30em) {
table { font-size: 0.85rem; }
thead th { font-size: 0.75rem; font-weight: normal; }
th, td { padding-right: 0.5em; }
}
@media print {
tr { break-inside: avoid; }
caption, thead { break-after: avoid; }
tbody tr:first-child, tbody tr:nth-child(2), tbody tr:last-child { break-before: avoid; }
thead { display: table-header-group; }
}
)";

std::string cell(const std::string& tag, const std::string& attributes, const HtmlTable::Column& column,
                 const std::string& plain) {
    return "<" + tag + attributes + (column.is_count ? " class=\"count\"" : "") + ">" + escaped(plain) +
           "</" + tag + ">";
}

std::string row_name(const HtmlTable& table, std::size_t position) {
    std::string html = cell("th", " scope=\"row\"", table.columns.front(), table.rows[position].front());
    if (table.notes.empty() || table.notes[position].empty())
        return html;
    const std::string end = "</th>";
    return html.insert(html.size() - end.size(),
                       "<span class=\"note\">" + escaped(table.notes[position]) + "</span>");
}

std::string row(const HtmlTable& table, std::size_t position) {
    const std::vector<std::string>& cells = table.rows[position];
    assert(cells.size() == table.columns.size());
    std::string html =
        (position < table.marked ? "<tr class=\"marked\">" : "<tr>") + row_name(table, position);
    for (std::size_t i = 1; i < cells.size(); ++i)
        html += cell("td", "", table.columns[i], cells[i]);
    return html + "</tr>\n";
}

} // namespace

std::string to_html(const HtmlTable& table) {
    assert(!table.columns.empty());
    std::string html = "<table>\n<caption>" + escaped(table.caption) + "</caption>\n<thead><tr>";
    for (const HtmlTable::Column& column : table.columns)
        html += cell("th", " scope=\"col\"", column, column.title);
    html += "</tr></thead>\n<tbody>\n";
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        html += row(table, i);
    return html + "</tbody>\n</table>\n";
}

std::string_view table_style() {
    return table_style_text;
}

} // namespace inkturn
