#pragma once

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"
#include "view/page/page_pictures.hpp"
#include "view/page/print_size.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// A question of a set, with the pictures on file of it and of its mark scheme, in reading order.
struct QuestionOfSet {
    QuestionName source;                 ///< where it was drawn from
    std::string title;                   ///< of that paper; empty: none
    std::vector<SharedPicture> question; ///< empty: the page says where to find it
    std::vector<SharedPicture> scheme;   ///< empty: the page says that there is none
};

/// A drawn paper as it is printed.
struct QuestionSet {
    std::shared_ptr<const Paper> paper;
    std::vector<QuestionOfSet> questions; ///< one for each of the paper's
    std::string readers{};                ///< `candidate K07`, `class 12b`; empty: nobody in particular
    ExtraTime extra{};
    PrintSize size = PrintSize::usual;
};

/// How many pictures are shown, each as often as it is.
std::size_t count_of_pictures(const QuestionSet& set);

/// The set as a page of HTML that stands alone, to print: its questions with source, marks and time,
/// and in a part of their own the mark schemes and a table for marks by ink.
std::string to_html(const QuestionSet& set);

// Its two parts, for a page that holds more. Questions have headings of this level.
std::string set_questions(const QuestionSet& set, PagePictures& pictures, int level);
std::string set_schemes(const QuestionSet& set, PagePictures& pictures);

/// The set for a phone, with headings of level 3 and 4: questions and mark schemes, both folded.
std::string folded_set(const QuestionSet& set, PagePictures& pictures);

/// For that page's style.
std::string set_style(PrintSize size);

} // namespace inkturn
