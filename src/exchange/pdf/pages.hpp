#pragma once

#include "inkturn/printed/page.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The most pages a printed paper or mark scheme may have.
constexpr std::size_t max_pages = 200;

/// Told of each page before it is worked on: its position, and how many there are.
using PageCount = std::function<void(std::size_t, std::size_t)>;

/// What can be read of a PDF file.
struct PdfText {
    std::vector<PrintedPage> pages;
    bool is_damaged = false; ///< poppler reports it: words may be missing
    bool is_scan = false;    ///< the words were read from pictures
};

/// The most bytes that a PDF file may have.
constexpr std::uintmax_t max_pdf_bytes = 256'000'000;

/// Throws Error if there is something of this name that can't be a PDF file that is read: it is no regular
/// file, such as a pipe, or too large. It is not opened.
void check_may_be_pdf(const std::string& file);

/// The words of a PDF file's pages, found by poppler's pdftotext; where no page has text, by tesseract.
/// Throws MissingProgram if a program is missing, Error if the file is not a PDF, empty, damaged, locked with
/// a password, without text, or has too many pages or pages that are too large. The message doesn't name the
/// file.
PdfText read_pdf(const std::string& file, const PageCount& count);

/// Reads what `pdftotext -bbox-layout` writes. It is not trusted: words whose box is invalid, far off the
/// page or without visible text are left out, and control characters are dropped. Throws Error if it is not
/// UTF-8, a page has no size or a side above 600 mm, or there are more pages or words than a paper has.
std::vector<PrintedPage> parse_printed_pages(std::string_view text);

/// The option of poppler's programs that makes words and pixels count from the same corner.
inline constexpr const char* shown_page_only = "-cropbox";

/// The Debian package that has poppler's programs.
inline constexpr const char* poppler_package = "poppler-utils";

} // namespace inkturn
