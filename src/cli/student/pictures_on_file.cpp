#include "cli/student/pictures_on_file.hpp"

#include <memory>
#include <utility>

namespace inkturn {

const std::vector<SharedPicture>& PicturesOnFile::of(const Paper& paper, const std::string& question,
                                                     PictureContent content) {
    const auto [found, is_new] = read_.try_emplace(std::tuple(paper.id(), question, content));
    if (is_new)
        for (Picture& picture : store_.pictures_of(paper, question, content))
            found->second.push_back(std::make_shared<const Picture>(std::move(picture)));
    return found->second;
}

std::vector<SharedPicture> PicturesOnFile::of_parts_too(const Paper& paper, const Question& question,
                                                        PictureContent content) {
    std::vector<SharedPicture> all = of(paper, question.label, content);
    if (!all.empty())
        return all;
    for (const std::size_t position : question.parts) {
        const std::vector<SharedPicture>& of_part = of(paper, paper.part(position).label, content);
        all.insert(all.end(), of_part.begin(), of_part.end());
    }
    return all;
}

BookletItem PicturesOnFile::item_of(const Candidate& candidate, const Retry& retry) {
    const std::string& question = retry.id.question;
    return {retry, of(*retry.paper, question, PictureContent::question),
            of(*retry.paper, question, PictureContent::scheme),
            attempts_at(get_sitting(candidate, retry.id.sitting), retry.paper_question())};
}

} // namespace inkturn
