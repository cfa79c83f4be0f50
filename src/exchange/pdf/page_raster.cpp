#include "exchange/pdf/page_raster.hpp"

#include "exchange/pdf/pages.hpp"
#include "exchange/pdf/program.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <condition_variable>
#include <cstring>
#include <deque>
#include <exception>
#include <iterator>
#include <mutex>
#include <thread>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t no_page = static_cast<std::size_t>(-1);
constexpr std::size_t max_pixels = std::size_t{1} << 24;
constexpr std::size_t max_header_bytes = 64; ///< bytes

[[noreturn]] void refuse_picture() {
    throw Error("pdftoppm's output is not a picture: the file is damaged; use a fresh copy");
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

/// The size that the head of a picture states.
void read_head(std::string_view left, Raster& raster) {
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
                    " pixels, too many for a page of a paper");
    raster.width = width;
    raster.height = height;
    raster.pixels.resize(width * height);
}

} // namespace

void PgmReader::take_head(std::string_view& bytes) {
    constexpr std::size_t blanks_in_head = 4; // after P5 and each number
    std::size_t blanks = 0;
    for (const char c : head_)
        blanks += c == '\n' || c == ' ' ? 1U : 0U;
    while (!bytes.empty() && blanks < blanks_in_head) {
        head_ += bytes.front();
        blanks += bytes.front() == '\n' || bytes.front() == ' ' ? 1U : 0U;
        bytes.remove_prefix(1);
        if (head_.size() > max_header_bytes)
            refuse_picture();
    }
    if (blanks < blanks_in_head)
        return;
    read_head(head_, raster_);
    head_.clear();
    filled_ = 0;
    in_pixels_ = true;
}

Room PgmReader::room() {
    if (!in_pixels_)
        return {};
    return {reinterpret_cast<char*>(raster_.pixels.data()) + filled_, raster_.pixels.size() - filled_};
}

void PgmReader::take(std::string_view bytes) {
    while (!bytes.empty()) {
        if (!in_pixels_) {
            take_head(bytes);
            continue;
        }
        const Room left = room();
        const std::size_t count = std::min(bytes.size(), left.size);
        if (bytes.data() != left.at)
            std::memcpy(left.at, bytes.data(), count);
        filled_ += count;
        bytes.remove_prefix(count);
        if (filled_ == raster_.pixels.size()) {
            in_pixels_ = false;
            done_(raster_);
        }
    }
}

void PgmReader::end() const {
    if (in_pixels_ || !head_.empty())
        refuse_picture();
}

std::vector<Raster> parse_pgm(std::string_view bytes) {
    std::vector<Raster> rasters;
    PgmReader reader([&](Raster& raster) { rasters.push_back(raster); });
    reader.take(bytes);
    reader.end();
    return rasters;
}

/// Pages drawn in one run of the program, in a thread of its own.
class PageRasters::Drawing {
  public:
    Drawing(std::string file, std::size_t first, std::size_t end)
        : next_(first), end_(end), thread_([this, file = std::move(file), first] { draw(file, first); }) {}

    ~Drawing() {
        {
            const std::lock_guard lock(mutex_);
            is_stopped_ = true;
        }
        changed_.notify_all();
        thread_.join();
    }
    Drawing(const Drawing&) = delete;
    Drawing& operator=(const Drawing&) = delete;

    /// Of the page that take() gives.
    std::size_t next() const { return next_; }
    std::size_t end() const { return end_; }

    /// Exchanges the picture for that of the next page.
    void take(Raster& raster) {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return !ready_.empty() || is_done_; });
        if (ready_.empty()) {
            if (failure_)
                std::rethrow_exception(failure_);
            refuse_pages(next_, end_);
        }
        ++next_;
        std::swap(raster, ready_.front());
        spare_.push_back(std::move(ready_.front()));
        ready_.pop_front();
        lock.unlock();
        changed_.notify_all();
    }

  private:
    struct Stopped {};

    [[noreturn]] static void refuse_pages(std::size_t first, std::size_t end) {
        throw Error((end == first + 1 ? "page " + std::to_string(end)
                                      : "pages " + std::to_string(first + 1) + " to " + std::to_string(end)) +
                    " could not be drawn: the PDF is damaged; use a fresh copy");
    }

    void draw(const std::string& file, std::size_t first) {
        constexpr std::chrono::seconds for_a_page{2};
        try {
            PgmReader reader([this](Raster& raster) { give(raster); });
            ProgramStreams streams;
            streams.room = [&] { return reader.room(); };
            streams.take = [&](std::string_view bytes) { reader.take(bytes); };
            ProgramLimits limits;
            limits.output = (end_ - first) * (max_pixels + max_header_bytes);
            limits.time += (end_ - first) * for_a_page;
            run_program({"pdftoppm", "-q", "-gray", "-r", std::to_string(pixels_per_inch), shown_page_only,
                         "-f", std::to_string(first + 1), "-l", std::to_string(end_), file_argument(file)},
                        poppler_package, limits, streams);
            reader.end();
        } catch (const Stopped&) { // nobody wants the rest
        } catch (...) {
            const std::lock_guard lock(mutex_);
            failure_ = std::current_exception();
        }
        const std::lock_guard lock(mutex_);
        is_done_ = true;
        changed_.notify_all();
    }

    /// Waits for room, and leaves a picture that is no longer needed.
    void give(Raster& raster) {
        constexpr std::size_t most_ready = 2;
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return ready_.size() < most_ready || is_stopped_; });
        if (is_stopped_)
            throw Stopped();
        ready_.push_back(std::move(raster));
        raster = Raster();
        if (!spare_.empty()) {
            raster = std::move(spare_.back());
            spare_.pop_back();
        }
        lock.unlock();
        changed_.notify_all();
    }

    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Raster> ready_;
    std::vector<Raster> spare_;
    std::exception_ptr failure_;
    bool is_done_ = false;
    bool is_stopped_ = false;
    std::size_t next_;
    std::size_t end_;
    std::thread thread_; ///< the last, as it uses the others
};

PageRasters::PageRasters(std::string file, std::vector<std::size_t> wanted)
    : file_(std::move(file)), wanted_(std::move(wanted)), held_position_(no_page) {}

PageRasters::~PageRasters() = default;

/// Draws from this page on as long as few pages are left out.
void PageRasters::start_at(std::size_t position) {
    constexpr std::size_t max_left_out = 2; // of pages between two that are wanted
    auto last = std::lower_bound(wanted_.begin(), wanted_.end(), position);
    while (std::next(last) != wanted_.end() && *std::next(last) - *last <= max_left_out + 1)
        ++last;
    drawing_.reset();
    drawing_ = std::make_unique<Drawing>(file_, position, *last + 1);
}

const Raster& PageRasters::page(std::size_t position) {
    if (!std::binary_search(wanted_.begin(), wanted_.end(), position))
        throw Error("page " + std::to_string(position + 1) + " was not requested");
    if (position == held_position_)
        return held_;
    held_position_ = no_page;
    if (!drawing_ || position < drawing_->next() || position >= drawing_->end())
        start_at(position);
    while (drawing_->next() <= position)
        drawing_->take(held_);
    held_position_ = position;
    return held_;
}

} // namespace inkturn
