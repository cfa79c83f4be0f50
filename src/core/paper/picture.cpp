#include "inkturn/paper/picture.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_bytes = 1'000'000'000; ///< what one value of a store holds

} // namespace

std::string_view name(PictureKind kind) noexcept {
    return kind == PictureKind::png ? "png" : "jpeg";
}

std::optional<PictureKind> picture_kind_named(std::string_view text) noexcept {
    for (const PictureKind kind : {PictureKind::png, PictureKind::jpeg})
        if (name(kind) == text)
            return kind;
    return std::nullopt;
}

std::string_view name(PictureContent content) noexcept {
    return content == PictureContent::question ? "question" : "scheme";
}

std::optional<PictureContent> picture_content_named(std::string_view text) noexcept {
    for (const PictureContent content : {PictureContent::question, PictureContent::scheme})
        if (name(content) == text)
            return content;
    return std::nullopt;
}

void check_picture(const Picture& picture) {
    if (picture.width < 1 || picture.height < 1)
        throw Error("a picture is a pixel wide and high at least");
    if (picture.bytes.empty() || picture.bytes.size() > max_bytes)
        throw Error("a picture has 1 to " + std::to_string(max_bytes) + " bytes, not " +
                    std::to_string(picture.bytes.size()));
}

std::string picture_label(const Paper& paper, std::string_view text) {
    std::string label = parse_label(text);
    const bool is_there = std::any_of(paper.parts().begin(), paper.parts().end(), [&](const Part& part) {
        return part.label == label || question_of(part.label) == label;
    });
    if (!is_there)
        throw Error("paper " + paper.id() + " has no question " + label, Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    return label;
}

} // namespace inkturn
