#pragma once

#include "inkturn/printed/raster.hpp"

#include <cstddef>
#include <future>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// How pages are drawn: fine enough to read small print.
constexpr int pixels_per_inch = 150;
constexpr PixelsPerPoint pixels_per_point{pixels_per_inch / 72.0};
constexpr PixelsPerMillimetre pixels_per_mm{pixels_per_inch / 25.4};

/// Grey pictures of a PDF file's pages, drawn by poppler's pdftoppm a few at a time and in advance, so that
/// few are in memory and the two programs run side by side.
class PageRasters {
  public:
    /// `wanted`: positions of pages, from 0, ascending, each once.
    PageRasters(std::string file, const std::vector<std::size_t>& wanted);
    PageRasters(const PageRasters&) = delete; // its program writes to this one
    PageRasters& operator=(const PageRasters&) = delete;

    /// One of the pages wanted, valid until the next call. Fast if each call wants the same page or a later
    /// one. Throws Error if it can't be drawn.
    const Raster& page(std::size_t position);

  private:
    /// Pages drawn in one run.
    struct Run {
        std::size_t first;
        std::size_t count;
    };

    std::vector<Raster> drawn(const Run& run) const;
    void turn_to(std::size_t run);

    std::string file_;
    std::vector<Run> runs_;
    std::size_t held_run_;
    std::vector<Raster> held_;
    std::size_t coming_run_;
    std::future<std::vector<Raster>> coming_;
};

/// Reads pictures one after the other, each in the binary form of PGM with one byte per pixel. Throws Error
/// if one is damaged or larger than a page can be.
std::vector<Raster> parse_pgm(std::string_view bytes);

} // namespace inkturn
