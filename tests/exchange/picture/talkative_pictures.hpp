#pragma once

#include "exchange/picture/drawn_pictures.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

namespace inkturn::test {

using namespace std::string_literals;

inline std::optional<Decoded> decoded(const std::string& file) {
    return file.at(0) == '\xFF' ? decoded_jpeg(file) : decoded_png(file);
}

/// The body of Exif of a camera: the maker, the orientation, the place.
inline std::string camera_exif(std::uint32_t orientation, bool least_first = false) {
    const auto in_order = [&](std::uint32_t value, std::size_t size) {
        std::string bytes = number(value, size);
        if (least_first)
            std::reverse(bytes.begin(), bytes.end());
        return bytes;
    };
    const auto entry = [&](std::uint32_t tag, std::uint32_t type, std::uint32_t count,
                           const std::string& value) {
        return in_order(tag, 2) + in_order(type, 2) + in_order(count, 4) + value;
    };
    constexpr std::uint32_t after_directory = 8 + 2 + 3 * 12 + 4;
    return (least_first ? "II" : "MM") + in_order(42, 2) + in_order(8, 4) + in_order(3, 2) +
           entry(0x010F, 2, 13, in_order(after_directory, 4)) +
           entry(0x0112, 3, 1, in_order(orientation, 2) + "\0\0"s) +
           entry(0x8825, 4, 1, in_order(after_directory + 13, 4)) + in_order(0, 4) + "SECRET maker\0"s +
           in_order(1, 2) + entry(0x001D, 2, 12, in_order(after_directory + 13 + 18, 4)) + in_order(0, 4) +
           "SECRET place";
}

inline std::string jpeg_exif(const std::string& body) {
    return jpeg_segment(0xE1, "Exif\0\0"s + body);
}

/// What cameras and programs say beside the pixels.
inline std::string jpeg_secrets() {
    return jpeg_exif(camera_exif(1)) + jpeg_segment(0xE1, "http://ns.adobe.com/xap/1.0/\0<x>SECRET</x>"s) +
           jpeg_segment(0xE2, "ICC_PROFILE\0\x01\x01 SECRET device"s) + jpeg_segment(0xE2, "MPF\0SECRET"s) +
           jpeg_segment(0xED, "Photoshop 3.0\0 8BIM SECRET"s) + jpeg_segment(0xE0, "JFXX\0\x10 SECRET"s) +
           jpeg_segment(0xEE, "Ducky SECRET, and long"s) + jpeg_segment(0xEF, "SECRET") +
           jpeg_segment(0xFE, "SECRET comment");
}

inline std::string png_secrets() {
    return png_chunk("iCCP", "SECRET device\0\0x"s) + png_chunk("tEXt", "Author\0SECRET"s) +
           png_chunk("zTXt", "Title\0\0SECRET"s) + png_chunk("iTXt", "XML\0\0\0\0\0SECRET"s) +
           png_chunk("tIME", "\x07\xEA\x0B\x19\x09\x1E\x01"s) + png_chunk("eXIf", camera_exif(1)) +
           png_chunk("pHYs", number(2835, 4) + number(2835, 4) + "\x01") +
           png_chunk("bKGD", "\0\0\0\0\0\0"s) + png_chunk("sBIT", "SEC") +
           png_chunk("acTL", number(2, 4) + number(0, 4)) + png_chunk("fcTL", std::string(26, '\0')) +
           png_chunk("seCr", "SECRET") + png_chunk("gAMA", "SECRET, not four bytes") +
           png_chunk("sRGB", "SECRET");
}

} // namespace inkturn::test
