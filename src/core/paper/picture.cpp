#include "inkturn/paper/picture.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>

namespace inkturn {

std::string_view name(PictureKind kind) noexcept {
    return kind == PictureKind::png ? "png" : "jpeg";
}

std::optional<PictureKind> picture_kind_named(std::string_view text) noexcept {
    for (const PictureKind kind : {PictureKind::png, PictureKind::jpeg})
        if (name(kind) == text)
            return kind;
    return std::nullopt;
}

std::string_view name(Shows shows) noexcept {
    return shows == Shows::question ? "question" : "scheme";
}

std::optional<Shows> shows_named(std::string_view text) noexcept {
    for (const Shows shows : {Shows::question, Shows::scheme})
        if (name(shows) == text)
            return shows;
    return std::nullopt;
}

std::string picture_label(const Paper& paper, std::string_view text) {
    std::string label = parse_label(text);
    const bool is_there = std::any_of(paper.parts().begin(), paper.parts().end(), [&](const Part& part) {
        return part.label == label || question_of(part.label) == label;
    });
    if (!is_there)
        throw Error("paper " + paper.id() + " has no question " + label + "; 'inkturn paper show " +
                    paper.id() + "' lists its parts");
    return label;
}

} // namespace inkturn
