#include "fuzz/packing.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

#include <zlib.h>

namespace inkturn::fuzz {
namespace {

std::uint32_t sum_of(std::string_view bytes) {
    return static_cast<std::uint32_t>(
        crc32(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size())));
}

std::uint32_t big_endian_at(std::string_view bytes, std::size_t at) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < 4; ++i)
        number = number << 8U | static_cast<unsigned char>(bytes[at + i]);
    return number;
}

std::string little_endian(std::uint32_t number, std::size_t size) {
    std::string bytes;
    for (; size > 0; --size, number >>= 8U)
        bytes += static_cast<char>(number & 0xFFU);
    return bytes;
}

struct Part {
    std::string_view name;
    std::string_view bytes;
};

std::vector<Part> parts_of(std::string_view text) {
    constexpr std::string_view mark = "--- ";
    std::vector<Part> parts;
    while (text.substr(0, mark.size()) == mark) {
        text.remove_prefix(mark.size());
        const std::size_t line = std::min(text.find('\n'), text.size());
        const std::string_view name = text.substr(0, line);
        text.remove_prefix(std::min(line + 1, text.size()));
        const std::size_t end = std::min(text.find("\n--- "), text.size());
        parts.push_back({name, text.substr(0, end)});
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

/// What the header of a part, and its entry in the directory, both say.
std::string about(const Part& part) {
    const auto size = static_cast<std::uint32_t>(part.bytes.size());
    return little_endian(20, 2) + std::string(8, '\0') + little_endian(sum_of(part.bytes), 4) +
           little_endian(size, 4) + little_endian(size, 4) +
           little_endian(static_cast<std::uint32_t>(part.name.size()), 2) + little_endian(0, 2);
}

} // namespace

std::string with_sums(std::string_view png) {
    constexpr std::size_t signature = 8;
    std::string bytes(png);
    for (std::size_t at = signature; at + 12 <= bytes.size();) {
        const std::size_t length = big_endian_at(bytes, at);
        if (length > bytes.size() - at - 12)
            break;
        const std::uint32_t sum = sum_of(std::string_view(bytes).substr(at + 4, length + 4));
        for (std::size_t i = 0; i < 4; ++i)
            bytes[at + 8 + length + i] = static_cast<char>(sum >> (24 - 8 * i) & 0xFFU);
        at += length + 12;
    }
    return bytes;
}

std::string packed_parts(std::string_view text) {
    std::string bytes;
    std::string directory;
    const std::vector<Part> parts = parts_of(text);
    for (const Part& part : parts) {
        const auto place = static_cast<std::uint32_t>(bytes.size());
        directory.append("PK\x01\x02").append(little_endian(20, 2)).append(about(part));
        directory.append(std::string(10, '\0')).append(little_endian(place, 4)).append(part.name);
        bytes.append("PK\x03\x04").append(about(part)).append(part.name).append(part.bytes);
    }
    const auto count = static_cast<std::uint32_t>(parts.size());
    return bytes + directory + "PK\x05\x06" + little_endian(0, 4) + little_endian(count, 2) +
           little_endian(count, 2) + little_endian(static_cast<std::uint32_t>(directory.size()), 4) +
           little_endian(static_cast<std::uint32_t>(bytes.size()), 4) + little_endian(0, 2);
}

} // namespace inkturn::fuzz
