#include "cli/student/retry_pictures.hpp"

#include <utility>

namespace inkturn {

const std::vector<SharedPicture>& PicturesOnFile::of(const Retry& retry, PictureContent content) {
    const auto [found, is_new] = read_.try_emplace(std::tuple(retry.paper->id(), retry.id.question, content));
    if (is_new)
        for (Picture& picture : store_.pictures_of(*retry.paper, retry.id.question, content))
            found->second.push_back(std::make_shared<const Picture>(std::move(picture)));
    return found->second;
}

BookletItem PicturesOnFile::item_of(const Candidate& candidate, const Retry& retry) {
    return {retry, of(retry, PictureContent::question), of(retry, PictureContent::scheme),
            attempts_at(get_sitting(candidate, retry.id.sitting), retry.paper_question())};
}

} // namespace inkturn
