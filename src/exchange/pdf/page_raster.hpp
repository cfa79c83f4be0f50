#pragma once

#include "exchange/pdf/program.hpp"
#include "exchange/picture/raster.hpp"

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// How pages are drawn: fine enough to read small print.
constexpr int pixels_per_inch = 150;
constexpr PixelsPerPoint pixels_per_point{pixels_per_inch / 72.0};
constexpr PixelsPerMillimetre pixels_per_mm{pixels_per_inch / 25.4};

/// Grey pictures of a PDF file's pages, drawn by poppler's pdftoppm while others are worked on. A few are in
/// memory, in the same places one after the other.
class PageRasters {
  public:
    /// `wanted`: positions of pages, from 0, ascending, each once.
    PageRasters(std::string file, std::vector<std::size_t> wanted);
    ~PageRasters();
    PageRasters(const PageRasters&) = delete; // its program writes to this one
    PageRasters& operator=(const PageRasters&) = delete;

    /// One of the pages wanted, valid until the next call. Fast if each call wants the same page or a later
    /// one. Throws Error if it can't be drawn.
    const Raster& page(std::size_t position);

  private:
    class Drawing;

    void start_at(std::size_t position);

    std::string file_;
    std::vector<std::size_t> wanted_;
    std::unique_ptr<Drawing> drawing_;
    Raster held_;
    std::size_t held_position_;
};

/// Reads pictures one after the other, each in the binary form of PGM with one byte per pixel, as their bytes
/// come. Throws Error if one is damaged or larger than a page can be.
class PgmReader {
  public:
    /// `done` gets each picture when it is whole, and may leave another there to be filled.
    explicit PgmReader(std::function<void(Raster&)> done) : done_(std::move(done)) {}

    /// For the rest of the pixels of a picture that has begun.
    Room room();
    /// What comes next, in that room or elsewhere.
    void take(std::string_view bytes);
    /// Throws Error if the last picture isn't whole.
    void end() const;

  private:
    void take_head(std::string_view& bytes);

    std::function<void(Raster&)> done_;
    std::string head_;
    Raster raster_;
    std::size_t filled_ = 0; ///< pixels
    bool in_pixels_ = false;
};

/// The same of bytes that are all there.
std::vector<Raster> parse_pgm(std::string_view bytes);

} // namespace inkturn
