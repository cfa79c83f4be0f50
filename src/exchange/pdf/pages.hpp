#pragma once

#include "inkturn/printed/page.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The most pages a printed paper or mark scheme may have.
constexpr std::size_t max_pages = 200;

/// The words of a PDF file's pages, which poppler's pdftotext finds. Throws Error where that program is
/// missing; the file is none, empty, damaged, locked with a password, without any text (a scan), or has too
/// many pages or pages that are too large. What the message says of the file doesn't name it.
std::vector<PrintedPage> read_pdf_pages(const std::string& file);

/// Reads what `pdftotext -bbox-layout` writes. It is not trusted: words whose box is no box, is far from the
/// page or holds nothing that can be seen are left out, control characters are dropped. Throws Error where
/// it is no UTF-8, a page has no size or a side above 600 mm, or there are more pages or words than a paper
/// has.
std::vector<PrintedPage> parse_printed_pages(std::string_view text);

/// The options for poppler's programs with which words and pixels count from the same corner.
inline const std::string shown_page_only = "-cropbox";

/// The Debian package that has poppler's programs.
inline const std::string poppler_package = "poppler-utils";

/// The last line of a program's messages, to be shown: at most 200 bytes.
std::string last_message(const std::string& messages);

} // namespace inkturn
