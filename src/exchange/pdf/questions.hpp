#pragma once

#include "inkturn/paper/picture.hpp"
#include "inkturn/printed/page.hpp"
#include "inkturn/printed/paper.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What a question looks like.
struct QuestionPictures {
    std::string question; ///< label
    std::vector<Picture> pictures;
};

/// Cuts the questions from a PDF file in which they were found: `pages` are its own. Those that have no ink
/// are left out. Throws as run_program() does, and Error where a page can't be drawn.
std::vector<QuestionPictures> cut_questions(const std::string& file, const std::vector<PrintedPage>& pages,
                                            const std::vector<PrintedQuestion>& questions);

} // namespace inkturn
