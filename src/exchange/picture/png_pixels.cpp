#include "exchange/picture/png_pixels.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include <zlib.h>

namespace inkturn {
namespace {

constexpr std::size_t bytes_a_piece = 65'536;

using Piece = std::array<Bytef, bytes_a_piece>;

/// Samples of a pixel, by colour type; 0: there is no such type.
constexpr std::array<unsigned, 7> samples{1, 0, 3, 1, 2, 0, 4};

struct Pass {
    std::uint32_t left, top, across, down;
};
constexpr std::array<Pass, 7> passes{
    {{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}}};

std::uint64_t packed_bytes_of(const PngSize& size, const Pass& pass) {
    if (size.width <= pass.left || size.height <= pass.top)
        return 0;
    const std::uint64_t columns = (std::uint64_t{size.width} - pass.left + pass.across - 1) / pass.across;
    const std::uint64_t rows = (std::uint64_t{size.height} - pass.top + pass.down - 1) / pass.down;
    return rows * (1 + (columns * samples[size.colour] * size.depth + 7) / 8); // a filter's byte a row
}

/// Unpacks pieces of a stream, and hands on what comes out.
class Inflating {
  public:
    explicit Inflating(const std::vector<std::string_view>& compressed) : left_(compressed) {
        is_whole_ = inflateInit(&stream_) == Z_OK;
    }
    ~Inflating() { inflateEnd(&stream_); }
    Inflating(const Inflating&) = delete;
    Inflating& operator=(const Inflating&) = delete;

    /// The next bytes, as many as fit; none at the end of the stream, or where it is damaged.
    std::size_t next(Piece& piece) {
        stream_.next_out = piece.data();
        stream_.avail_out = static_cast<uInt>(piece.size());
        while (is_whole_ && !is_ended_ && stream_.avail_out > 0 && refilled()) {
            const int code = inflate(&stream_, Z_NO_FLUSH);
            is_ended_ = code == Z_STREAM_END;
            is_whole_ = is_ended_ || code == Z_OK || code == Z_BUF_ERROR;
        }
        return piece.size() - stream_.avail_out;
    }

    bool is_ended() const { return is_ended_; }
    std::size_t bytes_taken() const { return stream_.total_in; }

  private:
    bool refilled() {
        while (stream_.avail_in == 0 && at_ < left_.size()) {
            stream_.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(left_[at_].data()));
            stream_.avail_in = static_cast<uInt>(left_[at_].size());
            ++at_;
        }
        return stream_.avail_in > 0;
    }

    const std::vector<std::string_view>& left_;
    std::size_t at_ = 0;
    z_stream stream_{};
    bool is_whole_ = false;
    bool is_ended_ = false;
};

/// The first bytes of the stream's content, packed anew.
std::string packed_anew(const std::vector<std::string_view>& compressed, std::uint64_t bytes) {
    Inflating from(compressed);
    z_stream to{};
    std::string packed;
    if (deflateInit(&to, Z_DEFAULT_COMPRESSION) != Z_OK)
        return packed;
    Piece piece;
    Piece out;
    while (bytes > 0) {
        const std::size_t count = std::min<std::uint64_t>(from.next(piece), bytes);
        if (count == 0)
            break; // no memory: what is there is no whole picture
        bytes -= count;
        to.next_in = piece.data();
        to.avail_in = static_cast<uInt>(count);
        do {
            to.next_out = out.data();
            to.avail_out = static_cast<uInt>(out.size());
            deflate(&to, bytes == 0 ? Z_FINISH : Z_NO_FLUSH);
            packed.append(reinterpret_cast<const char*>(out.data()), out.size() - to.avail_out);
        } while (to.avail_out == 0);
    }
    deflateEnd(&to);
    return packed;
}

std::string first_bytes(const std::vector<std::string_view>& compressed, std::size_t bytes) {
    std::string first;
    for (const std::string_view piece : compressed)
        first += piece.substr(0, bytes - first.size());
    return first;
}

} // namespace

std::optional<std::uint64_t> packed_bytes(const PngSize& size) {
    if (size.colour >= samples.size() || samples[size.colour] == 0 || size.interlace > 1 || size.depth > 16)
        return std::nullopt;
    if (size.interlace == 0)
        return packed_bytes_of(size, {0, 0, 1, 1});
    std::uint64_t sum = 0;
    for (const Pass& pass : passes)
        sum += packed_bytes_of(size, pass);
    return sum;
}

std::optional<std::string> without_surplus(const std::vector<std::string_view>& compressed,
                                           std::uint64_t packed) {
    Inflating stream(compressed);
    Piece piece;
    std::uint64_t unpacked = 0;
    while (const std::size_t count = stream.next(piece)) {
        unpacked += count;
        if (unpacked > packed)
            return packed_anew(compressed, packed);
    }
    std::size_t all = 0;
    for (const std::string_view each : compressed)
        all += each.size();
    if (!stream.is_ended() || stream.bytes_taken() == all)
        return std::nullopt;
    return first_bytes(compressed, stream.bytes_taken());
}

} // namespace inkturn
