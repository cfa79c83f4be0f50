#include "view/page/base64.hpp"

#include <cstddef>
#include <cstdint>

namespace inkturn {
namespace {

constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Appends one to three bytes as four digits, padded where bytes are missing.
void append_group(std::string& text, std::string_view bytes) {
    std::uint32_t group = 0;
    for (std::size_t i = 0; i < 3; ++i)
        group = group << 8 | (i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U);
    for (std::size_t i = 0; i < 4; ++i)
        text += i <= bytes.size() ? digits[group >> (18 - 6 * i) & 0x3F] : '=';
}

void append_base64(std::string& text, std::string_view bytes) {
    text.reserve(text.size() + (bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3)
        append_group(text, bytes.substr(i, 3));
}

} // namespace

std::string base64(std::string_view bytes) {
    std::string text;
    append_base64(text, bytes);
    return text;
}

std::string data_uri(const Picture& picture) {
    std::string uri = picture.kind == PictureKind::png ? "data:image/png;base64," : "data:image/jpeg;base64,";
    append_base64(uri, picture.bytes);
    return uri;
}

} // namespace inkturn
