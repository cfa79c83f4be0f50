#pragma once

#include <cstddef>
#include <cstdint>

namespace inkturn {

/// What a workbook may ask of the machine that reads it. Each is far above what a school's file needs.
struct WorkbookLimits {
    std::size_t file_bytes = std::size_t{64} * 1024 * 1024;
    std::size_t entries = 10'000;                                    ///< in the container, pictures included
    std::uint64_t unpacked_bytes = std::uint64_t{256} * 1024 * 1024; ///< of the parts that are read, together
    std::uint64_t ratio = 250; ///< of a part's bytes to its packed ones, where
    std::uint64_t ratio_from_bytes = std::uint64_t{4} * 1024 * 1024; ///< it has more bytes than these
    std::size_t elements = 16'000'000;                               ///< in a part
    std::size_t depth = 64;                                          ///< of elements in each other
    std::size_t tag_bytes = std::size_t{1024} * 1024;                ///< without an event of XML
    std::size_t listed = 10'000;   ///< sheets, relationships, number formats: of each
    std::size_t cells = 2'000'000; ///< with content, in a sheet
    std::size_t text_bytes = std::size_t{64} * 1024 * 1024; ///< of the cells' texts together
    std::size_t cell_bytes = 131'068;                       ///< 32,767 characters
};

} // namespace inkturn
