#pragma once

#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

enum class PictureKind : std::uint8_t { png, jpeg };

std::string_view name(PictureKind kind) noexcept;
std::optional<PictureKind> picture_kind_named(std::string_view name) noexcept;

/// What a picture shows.
enum class PictureContent : std::uint8_t {
    question,
    scheme ///< its mark scheme
};

std::string_view name(PictureContent content) noexcept;
std::optional<PictureContent> picture_content_named(std::string_view name) noexcept;

/// A picture of a question or of its mark scheme.
struct Picture {
    PictureKind kind;
    std::uint32_t width;  ///< pixels, from 1, as shown: turned the way that the bytes say
    std::uint32_t height; ///< likewise
    std::string bytes;    ///< a whole file of that kind
};

/// Throws Error for a picture without pixels or bytes, or of more than 1,000,000,000 bytes. What the bytes
/// show is not looked at.
void check_picture(const Picture& picture);

enum class PictureId : std::int64_t {};

/// A picture on file, without its bytes.
struct PictureOnFile {
    PictureId id{};
    std::string paper;    ///< id
    std::string question; ///< short label of a question or a part
    PictureContent content;
    PictureKind kind;
    std::uint32_t width; ///< pixels
    std::uint32_t height;
    std::size_t bytes;
};

/// The short label under which pictures of a paper are kept: that of a question or of one of its parts.
/// Throws Error where the paper has neither.
std::string picture_label(const Paper& paper, std::string_view text);

} // namespace inkturn
