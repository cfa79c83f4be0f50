#include "exchange/picture/png_pixels.hpp"

#include "catch.hpp"
#include "exchange/picture/drawn_pictures.hpp"
#include "exchange/picture/picture.hpp"

#include <array>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Bytes packed, those of the text and then so many zeros.
std::string packed(const std::string& text, std::size_t zeros = 0) {
    z_stream stream{};
    REQUIRE(deflateInit(&stream, Z_BEST_COMPRESSION) == Z_OK);
    const std::string blank(1 << 20, '\0');
    std::string bytes;
    std::array<char, 65536> out{};
    const auto take = [&](const std::string& from, std::size_t size, int flush) {
        stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(from.data()));
        stream.avail_in = static_cast<uInt>(size);
        do {
            stream.next_out = reinterpret_cast<Bytef*>(out.data());
            stream.avail_out = out.size();
            deflate(&stream, flush);
            bytes.append(out.data(), out.size() - stream.avail_out);
        } while (stream.avail_out == 0);
    };
    take(text, text.size(), Z_NO_FLUSH);
    for (; zeros > 0; zeros -= std::min(zeros, blank.size()))
        take(blank, std::min(zeros, blank.size()), Z_NO_FLUSH);
    take(text, 0, Z_FINISH);
    deflateEnd(&stream);
    return bytes;
}

/// Two grey rows of three pixels, each after its filter.
const std::string rows{"\0abc\0def", 8};

std::string png_of(const std::string& compressed) {
    return "\x89PNG\r\n\x1A\n" +
           png_chunk("IHDR", number(3, 4) + number(2, 4) + std::string("\x8\0\0\0\0", 5)) +
           png_chunk("IDAT", compressed) + png_chunk("IEND", "");
}

} // namespace

TEST_CASE("the bytes of pixels are those that a decoder asks for") {
    CHECK(packed_bytes({3, 2, 8, 0, 0}) == 8U);
    CHECK(packed_bytes({9, 1, 1, 0, 0}) == 3U);
    CHECK(packed_bytes({5, 1, 16, 6, 0}) == 41U);
    CHECK(packed_bytes({1, 1, 8, 2, 1}) == 4U);
    CHECK(packed_bytes({8, 8, 8, 0, 1}) == 64U + 15U); // 1 + 1 + 1 + 2 + 2 + 4 + 4 rows
    CHECK_FALSE(packed_bytes({1, 1, 8, 5, 0}));
    CHECK_FALSE(packed_bytes({1, 1, 8, 7, 0}));
    CHECK_FALSE(packed_bytes({1, 1, 8, 0, 2}));
    for (const PngLook& look : {rgb, palette, alpha, deep, interlaced, bits}) {
        const std::string file = drawn_png(look);
        CHECK(read_picture(file).bytes == read_picture(read_picture(file).bytes).bytes);
        CHECK(decoded_png(read_picture(file).bytes)->pixels == decoded_png(file)->pixels);
    }
}

TEST_CASE("pixels that are compressed without a surplus are left as they are") {
    const std::string exact = packed(rows);
    CHECK_FALSE(without_surplus({exact}, rows.size()));
    CHECK_FALSE(without_surplus({exact.substr(0, 3), "", exact.substr(3)}, rows.size()));
    CHECK_FALSE(without_surplus({exact.substr(0, exact.size() - 5)}, rows.size()));
    CHECK_FALSE(without_surplus({"this is not compressed"}, rows.size()));
    CHECK_FALSE(without_surplus({}, rows.size()));
}

TEST_CASE("what goes beyond the pixels is not kept") {
    const std::string exact = packed(rows);
    CHECK(without_surplus({exact, "hidden"}, rows.size()) == exact);
    CHECK(without_surplus({exact + "hidden"}, rows.size()) == exact);
    const auto anew = without_surplus({packed(rows + "hidden")}, rows.size());
    REQUIRE(anew);
    CHECK_FALSE(without_surplus({*anew}, rows.size()));
    const Picture picture = read_picture(png_of(packed(rows + "hidden")));
    CHECK(decoded_png(picture.bytes)->pixels == decoded_png(png_of(exact))->pixels);
    CHECK(read_picture(picture.bytes).bytes == picture.bytes);
    CHECK(read_picture(png_of(exact)).bytes == png_of(exact));
}

TEST_CASE("a quarter of a gigabyte behind six pixels is not unpacked") {
    const Picture picture = read_picture(png_of(packed(rows, std::size_t{1} << 28)));
    CHECK(picture.width == 3);
    CHECK(picture.bytes.size() < 100);
}
