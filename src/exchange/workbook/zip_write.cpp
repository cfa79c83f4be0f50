#include "exchange/workbook/zip_write.hpp"

#include "inkturn/base/error.hpp"

#include <array>
#include <cstdint>

namespace inkturn {
namespace {

constexpr std::size_t max_zip_bytes = 1'000'000'000;
constexpr std::uint16_t version_needed = 20;
constexpr std::uint16_t first_of_1980 = 0x21; ///< 1 January 1980, as MS-DOS writes a date
constexpr std::uint16_t names_are_utf8 = 0x800;

constexpr std::array<std::uint32_t, 256> crc_table() {
    std::array<std::uint32_t, 256> table{};
    for (std::uint32_t i = 0; i < table.size(); ++i) {
        std::uint32_t value = i;
        for (int bit = 0; bit < 8; ++bit)
            value = (value & 1U) != 0 ? 0xEDB88320U ^ (value >> 1U) : value >> 1U;
        table[i] = value;
    }
    return table;
}
constexpr std::array<std::uint32_t, 256> remainders = crc_table();

/// CRC-32 (ISO 3309).
std::uint32_t crc_of(std::string_view content) {
    std::uint32_t crc = 0xFFFFFFFFU;
    for (const char c : content)
        crc = remainders[(crc ^ static_cast<std::uint8_t>(c)) & 0xFFU] ^ (crc >> 8U);
    return ~crc;
}

/// Numbers in little-endian bytes, one after another.
class LittleEndian {
  public:
    explicit LittleEndian(std::string& bytes) : bytes_(bytes) {}

    LittleEndian& two(std::size_t value) { return put(value, 2); }
    LittleEndian& four(std::size_t value) { return put(value, 4); }

  private:
    LittleEndian& put(std::size_t value, int count) {
        for (int i = 0; i < count; ++i, value >>= 8U)
            bytes_ += static_cast<char>(value & 0xFFU);
        return *this;
    }

    std::string& bytes_;
};

/// What both headers of a member say.
void put_member(std::string& bytes, const ZipMember& member) {
    LittleEndian(bytes)
        .two(version_needed)
        .two(names_are_utf8)
        .two(0) // stored
        .two(0)
        .two(first_of_1980)
        .four(crc_of(member.content))
        .four(member.content.size())
        .four(member.content.size())
        .two(member.name.size())
        .two(0);
}

} // namespace

std::string zip_of(const std::vector<ZipMember>& members) {
    std::string zip;
    std::string directory;
    for (const ZipMember& member : members) {
        const std::size_t offset = zip.size();
        if (offset + member.content.size() > max_zip_bytes)
            throw Error("the workbook would be larger than 1 GB: write fewer papers at a time");
        LittleEndian(zip).four(0x04034B50);
        put_member(zip, member);
        zip += member.name;
        zip += member.content;
        LittleEndian(directory).four(0x02014B50).two(version_needed);
        put_member(directory, member);
        LittleEndian(directory).two(0).two(0).two(0).four(0).four(offset);
        directory += member.name;
    }
    const std::size_t start = zip.size();
    zip += directory;
    LittleEndian(zip)
        .four(0x06054B50)
        .two(0)
        .two(0)
        .two(members.size())
        .two(members.size())
        .four(directory.size())
        .four(start)
        .two(0);
    return zip;
}

} // namespace inkturn
