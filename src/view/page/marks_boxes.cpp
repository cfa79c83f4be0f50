#include "view/page/marks_boxes.hpp"

#include "view/page/html.hpp"
#include "view/text/text.hpp"

namespace inkturn {
namespace {

constexpr Millimetres row_height{7};
constexpr Millimetres head_height{6};
constexpr Millimetres large_row_height{11.5};
constexpr Millimetres large_head_height{10};

constexpr std::string_view boxes_style =
    R"(.boxes { border-collapse: collapse; font-size: 0.85rem; margin-right: 1px; }
.boxes th, .boxes td { border: 0.75pt solid #000; padding: 0.1em 0.5em; text-align: left; font-weight: normal; }
.boxes td { height: 7mm; min-width: 3.2em; }
.boxes thead th { padding: 0.1em 0.5em; white-space: nowrap; }
.boxes .of { text-align: right; min-width: 0; }
@media print { .boxes { font-size: 8.5pt; line-height: 1.1; } .boxes thead th { height: 5.5mm; } }
)";

} // namespace

std::string marks_boxes(const Retry& retry) {
    std::string html =
        "<table class=\"boxes\">\n<thead><tr><th scope=\"col\">part</th>"
        "<th scope=\"col\" class=\"of\">of</th><th scope=\"col\">in time</th>"
        "<th scope=\"col\">overtime</th><th scope=\"col\">corrected</th></tr></thead>\n<tbody>\n";
    for (const std::size_t position : retry.paper_question().parts) {
        const Part& part = retry.paper->part(position);
        html += "<tr><th scope=\"row\">" + escaped(part.label) + "</th><td class=\"of\">" +
                marks_number(part.max) + "</td><td></td><td></td><td></td></tr>\n";
    }
    return html + "</tbody>\n</table>\n";
}

Millimetres height_of_boxes(const Retry& retry, PrintSize size) {
    return by_size(size, head_height, large_head_height) +
           by_size(size, row_height, large_row_height) *
               static_cast<double>(retry.paper_question().parts.size());
}

std::string_view marks_boxes_style() {
    return boxes_style;
}

} // namespace inkturn
