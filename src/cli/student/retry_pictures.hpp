#pragma once

#include "inkturn/store/store.hpp"
#include "view/page/booklet.hpp"

#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace inkturn {

/// The pictures of questions on file, each read from the store once.
class PicturesOnFile {
  public:
    explicit PicturesOnFile(const Store& store) : store_(store) {}

    /// A retry of the candidate with its pictures, and what came of it so far.
    BookletItem item_of(const Candidate& candidate, const Retry& retry);

  private:
    const std::vector<SharedPicture>& of(const Retry& retry, PictureContent content);

    const Store& store_;
    std::map<std::tuple<std::string, std::string, PictureContent>, std::vector<SharedPicture>> read_;
};

} // namespace inkturn
