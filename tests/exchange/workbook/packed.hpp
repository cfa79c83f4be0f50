#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>
#include <zlib.h>

namespace inkturn::test {

/// Files packed as zip (PKWARE's APPNOTE, 4.3), also as no honest program would pack them.
struct PackedPart {
    std::string name;
    std::string text;
    std::optional<std::uint32_t> stated_size{}; ///< another one than the text has
    bool encrypted = false;                     ///< said to be
};

inline void put(std::string& bytes, std::uint32_t number, int count) {
    for (int i = 0; i < count; ++i)
        bytes += static_cast<char>(number >> (8 * i) & 0xFF);
}

inline std::string deflated(const std::string& text) {
    z_stream stream{};
    deflateInit2(&stream, Z_DEFAULT_COMPRESSION, Z_DEFLATED, -MAX_WBITS, 8, Z_DEFAULT_STRATEGY);
    std::string packed(deflateBound(&stream, text.size()), '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
    stream.avail_in = static_cast<uInt>(text.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    deflate(&stream, Z_FINISH);
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    return packed;
}

inline std::string packed(const std::vector<PackedPart>& parts) {
    std::string bytes;
    std::string directory;
    for (const PackedPart& part : parts) {
        const std::string body = deflated(part.text);
        const auto crc = static_cast<std::uint32_t>(
            crc32(0, reinterpret_cast<const Bytef*>(part.text.data()), static_cast<uInt>(part.text.size())));
        std::string common;
        put(common, 20, 2); // the version needed
        put(common, part.encrypted ? 1 : 0, 2);
        put(common, 8, 2); // deflated
        put(common, 0, 4); // date and time
        put(common, crc, 4);
        put(common, static_cast<std::uint32_t>(body.size()), 4);
        put(common, part.stated_size.value_or(static_cast<std::uint32_t>(part.text.size())), 4);
        put(common, static_cast<std::uint32_t>(part.name.size()), 2);
        put(common, 0, 2);
        directory += std::string("PK\x01\x02\x14\0", 6) + common;
        put(directory, 0, 2); // remark
        put(directory, 0, 2);
        put(directory, 0, 2);
        put(directory, 0, 4);
        put(directory, static_cast<std::uint32_t>(bytes.size()), 4);
        directory += part.name;
        bytes += "PK\x03\x04" + common + part.name + body;
    }
    const auto start = static_cast<std::uint32_t>(bytes.size());
    bytes += directory + "PK\x05\x06";
    put(bytes, 0, 4);
    put(bytes, static_cast<std::uint32_t>(parts.size()), 2);
    put(bytes, static_cast<std::uint32_t>(parts.size()), 2);
    put(bytes, static_cast<std::uint32_t>(directory.size()), 4);
    put(bytes, start, 4);
    put(bytes, 0, 2);
    return bytes;
}

} // namespace inkturn::test
