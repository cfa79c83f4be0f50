#pragma once

#include "view/page/booklet.hpp"
#include "view/page/page_pictures.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `question 7 of pure-1`.
std::string question_of_paper(const Retry& retry);
/// The same as a heading begins.
std::string question_heading(const Retry& retry);

/// HTML that shows pictures in their order; `what` names them.
std::string pictures_html(const std::vector<SharedPicture>& shown, const std::string& what,
                          PagePictures& pictures);

/// The mark schemes that there are, once per question, and those missing in a line; with what was earned and
/// noted before.
std::string booklet_schemes(const std::vector<const BookletOfCandidate*>& parts, PagePictures& pictures);

} // namespace inkturn
