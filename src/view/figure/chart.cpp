#include "view/figure/chart.hpp"

#include "view/page/html.hpp"

namespace inkturn {
namespace {

/// Without colour the first ink is dark, the second a middle grey and the third light.
constexpr std::string_view style =
    R"(.chart { display: block; width: 100%; max-width: 27.5rem; height: auto; }
.chart text { font: 12px sans-serif; fill: #000; }
.chart .on-solid { fill: #fff; }
.chart .marked { font-weight: bold; }
.chart .on-pattern { paint-order: stroke; stroke: #fff; stroke-width: 4px; stroke-linejoin: round; }
.chart line, .chart path { fill: none; stroke: #000; stroke-width: 1px; }
.chart .grid { stroke: #ddd; }
.chart .solid { fill: #1d3d6e; stroke: #1d3d6e; }
.chart .hatch { stroke: #a3470d; }
.chart pattern path { stroke: #a3470d; stroke-width: 1.6px; }
.chart .dots { stroke: #0a7a66; }
.chart pattern circle { fill: #0a7a66; }
.chart .outline { fill: none; stroke: #666; }
.chart .bar { fill: #1d3d6e; fill-opacity: 0.6; stroke: #1d3d6e; }
.chart .band { fill: #000; fill-opacity: 0.12; }
.chart .edge { stroke: #000; stroke-width: 0.8px; stroke-dasharray: 1 2; }
.chart .curve { stroke: #1d3d6e; stroke-width: 2.5px; }
.chart .paid { stroke: #555; stroke-width: 1.5px; stroke-dasharray: 5 4; }
.chart .change { stroke: #a3470d; stroke-width: 2px; }
.chart .interval { stroke: #555; stroke-width: 2px; }
.chart .share { fill: #1d3d6e; stroke: #fff; stroke-width: 1px; }
figure { margin: 0 0 1.5rem; }
figcaption { font-weight: bold; margin: 0 0 0.5em; }
details { margin: 0.6em 0 0; }
summary { padding: 0.3em 0; }
@media print {
.chart { max-width: 87mm; max-height: 225mm; break-inside: avoid; break-before: avoid; }
figcaption, summary { break-inside: avoid; break-after: avoid; }
details:not([open]) { display: none; }
}
)";

} // namespace

std::string to_html(const Chart& chart) {
    return "<figure>\n<figcaption>" + escaped(chart.title) + "</figcaption>\n" + chart.svg +
           folded("In numbers", to_html(chart.table)) + "</figure>\n";
}

std::string_view chart_style() {
    return style;
}

} // namespace inkturn
