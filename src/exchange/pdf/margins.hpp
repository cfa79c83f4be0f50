#pragma once

#include "inkturn/printed/page.hpp"

namespace inkturn {

/// The strip without the outermost columns of the page in which words run up or down, as in a margin not to
/// be written in, or crop marks stand. Columns that other words reach into, or that hold a number, stay.
PageStrip between_margins(const PageStrip& strip, const PrintedPage& page);

/// The box round all words of a page's text; in the page's middle where there are none.
PrintedBox text_box(const PrintedPage& page);

} // namespace inkturn
