#pragma once

#include "inkturn/base/length.hpp"
#include "inkturn/paper/picture.hpp"
#include "view/page/print_size.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

namespace inkturn {

using SharedPicture = std::shared_ptr<const Picture>;

/// How wide a picture may get on an A4 page with its margins, and how high.
constexpr Millimetres max_picture_width{180};
constexpr Millimetres max_picture_height{200};

/// As printed: 96 pixels to the inch, in large print up to 1.8 times that; smaller where it would not fit.
Millimetres printed_width(const Picture& picture, PrintSize size = PrintSize::usual);
Millimetres printed_height(const Picture& picture, PrintSize size = PrintSize::usual);

/// The pictures of a page. Each is in the page once, however often it is shown.
class PagePictures {
  public:
    explicit PagePictures(PrintSize size = PrintSize::usual) : size_(size) {}

    /// HTML that shows the picture. `what` says in words what it is, plain text.
    std::string shown(const SharedPicture& picture, const std::string& what);

    /// All that were shown so far: HTML for the start of the page's body.
    std::string stored() const;

    /// In large print, where some pictures fill the sheet already, a paragraph of HTML that says so.
    std::string said_of_size() const;

    std::size_t count() const { return pictures_.size(); }

  private:
    std::size_t number_of(const SharedPicture& picture);

    PrintSize size_;
    bool any_fills_sheet_ = false;
    std::vector<SharedPicture> pictures_;
    std::unordered_map<const Picture*, std::size_t> numbers_;
    std::map<std::pair<PictureKind, std::string_view>, std::size_t> by_bytes_;
};

/// For the page's style.
std::string_view pictures_style();

} // namespace inkturn
