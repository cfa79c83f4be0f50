#pragma once

#include "exchange/pdf/pages.hpp"
#include "inkturn/base/length.hpp"
#include "inkturn/printed/page.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The most pages of a scan that are read: each takes a few seconds.
constexpr std::size_t max_scanned_pages = 60;

/// Reads the words of pages that are pictures, by tesseract, at most a minute each. `pages` have the pages'
/// sizes. Throws as run_program() does, and Error if there are too many.
std::vector<PrintedPage> read_scanned_pages(const std::string& file, std::vector<PrintedPage> pages,
                                            const PageCount& count);

/// Reads what tesseract writes of a page as TSV. Each word is as high as its line. Words that are nothing but
/// strokes, or that tesseract hardly trusts, are left out, and so is what can't be read.
std::vector<PrintedWord> parse_tesseract_words(std::string_view tsv, PixelsPerPoint scale);

} // namespace inkturn
