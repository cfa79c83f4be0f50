#include "exchange/pdf/page_raster.hpp"

#include "exchange/pdf/pages.hpp"
#include "exchange/pdf/program.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t pages_a_run = 8;
constexpr std::size_t no_run = static_cast<std::size_t>(-1);
constexpr std::size_t max_pixels = std::size_t{1} << 24;
constexpr std::size_t max_header_bytes = 64; ///< bytes

[[noreturn]] void refuse_picture() {
    throw Error("pdftoppm gave a picture that is none: the file is damaged; take a fresh copy");
}

/// A number and the blank after it.
std::size_t take_number(std::string_view& left) {
    std::size_t number = 0;
    const auto [after, failure] = std::from_chars(left.data(), left.data() + left.size(), number);
    const auto length = static_cast<std::size_t>(after - left.data());
    if (failure != std::errc() || length >= left.size() || (*after != '\n' && *after != ' '))
        refuse_picture();
    left.remove_prefix(length + 1);
    return number;
}

Raster take_raster(std::string_view& left) {
    constexpr std::string_view magic = "P5\n";
    if (left.substr(0, magic.size()) != magic)
        refuse_picture();
    left.remove_prefix(magic.size());
    const std::size_t width = take_number(left);
    const std::size_t height = take_number(left);
    const std::size_t white = take_number(left);
    if (width == 0 || height == 0 || white != 255)
        refuse_picture();
    if (width > max_pixels || height > max_pixels / width)
        throw Error("a page has " + std::to_string(width) + " by " + std::to_string(height) +
                    " pixels, more than one of a paper");
    if (left.size() < width * height)
        refuse_picture();
    Raster raster{width, height, {left.begin(), left.begin() + static_cast<std::ptrdiff_t>(width * height)}};
    left.remove_prefix(width * height);
    return raster;
}

} // namespace

std::vector<Raster> parse_pgm(std::string_view bytes) {
    std::vector<Raster> rasters;
    while (!bytes.empty())
        rasters.push_back(take_raster(bytes));
    return rasters;
}

PageRasters::PageRasters(std::string file, const std::vector<std::size_t>& wanted)
    : file_(std::move(file)), held_run_(no_run), coming_run_(no_run) {
    for (const std::size_t position : wanted) {
        if (!runs_.empty() && position == runs_.back().first + runs_.back().count &&
            runs_.back().count < pages_a_run)
            ++runs_.back().count;
        else
            runs_.push_back({position, 1});
    }
}

const Raster& PageRasters::page(std::size_t position) {
    const auto run = std::find_if(runs_.begin(), runs_.end(), [&](const Run& pages) {
        return position >= pages.first && position < pages.first + pages.count;
    });
    if (run == runs_.end())
        throw Error("page " + std::to_string(position + 1) + " was not asked for");
    turn_to(static_cast<std::size_t>(run - runs_.begin()));
    return held_[position - run->first];
}

void PageRasters::turn_to(std::size_t run) {
    if (run == held_run_)
        return;
    held_.clear();
    held_run_ = no_run;
    const std::size_t came = std::exchange(coming_run_, no_run);
    std::vector<Raster> pages = coming_.valid() ? coming_.get() : std::vector<Raster>();
    held_ = came == run ? std::move(pages) : drawn(runs_[run]);
    held_run_ = run;
    if (run + 1 < runs_.size()) {
        coming_ = std::async(std::launch::async, [this, run] { return drawn(runs_[run + 1]); });
        coming_run_ = run + 1;
    }
}

std::vector<Raster> PageRasters::drawn(const Run& run) const {
    ProgramLimits limits;
    limits.output = run.count * (max_pixels + max_header_bytes);
    const ProgramResult result = run_program(
        {"pdftoppm", "-q", "-gray", "-r", std::to_string(pixels_per_inch), shown_page_only, "-f",
         std::to_string(run.first + 1), "-l", std::to_string(run.first + run.count), file_argument(file_)},
        poppler_package, limits);
    std::vector<Raster> pages;
    if (result.code == 0)
        pages = parse_pgm(result.output);
    if (pages.size() != run.count)
        throw Error((run.count == 1 ? "page " + std::to_string(run.first + 1)
                                    : "pages " + std::to_string(run.first + 1) + " to " +
                                          std::to_string(run.first + run.count)) +
                    " could not be drawn: the PDF is damaged; take a fresh copy");
    return pages;
}

} // namespace inkturn
