#pragma once

#include "exchange/pdf/pages.hpp"
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

/// Cuts the questions from a PDF file in which they were found: `pages` are its own. Those without ink
/// are left out. `count` is told of each question's first page. Throws as run_program() does, and Error if a
/// page can't be drawn.
std::vector<QuestionPictures> cut_questions(const std::string& file, const std::vector<PrintedPage>& pages,
                                            const std::vector<PrintedQuestion>& questions,
                                            const PageCount& count);

} // namespace inkturn
