#pragma once

#include "inkturn/store/store.hpp"
#include "view/page/booklet.hpp"

#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace inkturn {

/// The pictures of questions, each read from the store once.
class PicturesOnFile {
  public:
    explicit PicturesOnFile(const Store& store) : store_(store) {}

    const std::vector<SharedPicture>& of(const Paper& paper, const std::string& question,
                                         PictureContent content);

    /// The same; where there are none of the whole question, those of its parts, one after another.
    std::vector<SharedPicture> of_parts_too(const Paper& paper, const Question& question,
                                            PictureContent content);

    /// A retry of the candidate with its pictures, and what came of it so far.
    BookletItem item_of(const Candidate& candidate, const Retry& retry);

  private:
    const Store& store_;
    std::map<std::tuple<std::string, std::string, PictureContent>, std::vector<SharedPicture>> read_;
};

} // namespace inkturn
