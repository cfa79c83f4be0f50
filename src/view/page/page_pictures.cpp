#include "view/page/page_pictures.hpp"

#include "view/page/data_uri.hpp"
#include "view/page/html.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr PixelsPerMillimetre pixels_of_style{96 / 25.4};

constexpr double times_in_large_print = 1.8;

constexpr std::string_view style_of_pictures =
    R"(.stored { position: absolute; width: 0; height: 0; overflow: hidden; }
.picture { display: block; width: 100%; height: auto; margin: 0 0 0.6em; break-inside: avoid; }
)";

std::string box_of(const Picture& picture) {
    return "viewBox=\"0 0 " + std::to_string(picture.width) + " " + std::to_string(picture.height) + "\"";
}

std::string name_of_stored(std::size_t number) {
    return "picture-" + std::to_string(number);
}

} // namespace

namespace {

Millimetres width_wanted(const Picture& picture, PrintSize size) {
    return Millimetres(Pixels(picture.width) / pixels_of_style) * by_size(size, 1.0, times_in_large_print);
}

} // namespace

Millimetres printed_width(const Picture& picture, PrintSize size) {
    const double by_height = static_cast<double>(picture.width) / picture.height;
    return std::min({width_wanted(picture, size), max_picture_width, max_picture_height * by_height});
}

Millimetres printed_height(const Picture& picture, PrintSize size) {
    return printed_width(picture, size) * (static_cast<double>(picture.height) / picture.width);
}

std::size_t PagePictures::number_of(const SharedPicture& picture) {
    const auto known = numbers_.find(picture.get());
    if (known != numbers_.end())
        return known->second;
    const auto [same, is_new] =
        by_bytes_.try_emplace({picture->kind, std::string_view(picture->bytes)}, pictures_.size() + 1);
    if (is_new)
        pictures_.push_back(picture);
    numbers_.emplace(picture.get(), same->second);
    return same->second;
}

std::string PagePictures::shown(const SharedPicture& picture, const std::string& what) {
    any_fills_sheet_ |= printed_width(*picture, size_) < width_wanted(*picture, size_);
    return "<svg class=\"picture\" role=\"img\" aria-label=\"" + escaped(what) + "\" " + box_of(*picture) +
           " style=\"max-width: " + decimal(printed_width(*picture, size_).value(), 1) +
           "mm\"><use href=\"#" + name_of_stored(number_of(picture)) + "\"/></svg>\n";
}

std::string PagePictures::said_of_size() const {
    if (size_ == PrintSize::usual || !any_fills_sheet_)
        return "";
    return "<p>Pictures that fill the sheet are not at 18 points: where they are too small to read, ask the "
           "centre for an enlarged copy of the paper.</p>\n";
}

std::string PagePictures::stored() const {
    if (pictures_.empty())
        return "";
    std::string html = "<svg class=\"stored\" aria-hidden=\"true\">\n";
    for (std::size_t i = 0; i < pictures_.size(); ++i) {
        const Picture& picture = *pictures_[i];
        html += "<symbol id=\"" + name_of_stored(i + 1) + "\" " + box_of(picture) + "><image width=\"" +
                std::to_string(picture.width) + "\" height=\"" + std::to_string(picture.height) +
                "\" href=\"" + data_uri(picture);
        html += "\"/></symbol>\n";
    }
    return html + "</svg>\n";
}

std::string_view pictures_style() {
    return style_of_pictures;
}

} // namespace inkturn
