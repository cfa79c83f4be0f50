#include "view/page/print_size.hpp"

namespace inkturn {

std::string print_size_style(PrintSize size) {
    if (size == PrintSize::usual)
        return "";
    return R"(html { font-size: 150%; }
body { font-family: Arial, "Liberation Sans", sans-serif; font-weight: 500; }
.boxes td { height: 11mm; }
@media (max-width: 40em) {
.boxes th, .boxes td { padding: 0.1em 0.2em; min-width: 0; }
.boxes thead th { white-space: normal; }
}
@media print {
html { font-size: 18pt; }
body, h1, h2, h3, .top, .how, .said, .find, .retry > div, .work p, .boxes { font-size: 18pt; line-height: 1.3; }
h1, h2, h3 { font-weight: bold; }
.boxes thead th { height: auto; white-space: normal; }
.boxes th, .boxes td { padding: 0.1em 0.25em; min-width: 0; }
.work p { width: 4.2cm; }
.work svg { inset: 0 4.4cm 0 0; width: calc(100% - 4.4cm); }
.head, .retry { display: block; }
.boxes { margin: 0.3em 0 0; }
}
)";
}

} // namespace inkturn
