#pragma once

#include "inkturn/base/time.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/printed/page.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A part as it was read from a printed paper.
struct PrintedPart {
    std::string label;               ///< short form, see label.hpp
    std::optional<Marks> marks;      ///< nothing if none are printed at it
    std::optional<std::size_t> page; ///< position of the page on which its label stands, from 0; nothing:
                                     ///< it was not found there
    std::string words{};             ///< the first ones printed of it, up to max_words characters

    static constexpr std::size_t max_words = 200;
};

/// A question and the space it takes up on the pages, from its number to the next one's; running heads and
/// feet, and lines to write on at the ends, are left out as far as the words show them.
struct PrintedQuestion {
    std::string label;              ///< its number, such as `7`
    std::vector<std::size_t> parts; ///< positions in PrintedPaper::parts, ascending
    std::optional<Marks> total;     ///< as stated at its end
    std::vector<PageStrip> strips;  ///< in reading order
};

/// Questions of which any so many are to be answered.
struct PrintedChoice {
    int count;                          ///< 1 or more, fewer than there are questions
    std::vector<std::string> questions; ///< labels, in reading order
};

/// Something found that can't be relied on, with the page that shows it.
struct Doubt {
    std::optional<std::size_t> page; ///< position of the page, from 0; nothing: the paper as a whole
    std::string message;
    std::string question{}; ///< label of the one that it is about; empty: of several or none
    bool of_time = false;   ///< of the duration, not of marks
};

/// A printed question paper as it was understood. Nothing in it is put right: where marks and totals disagree
/// there is a doubt, and the marks stay as printed.
struct PrintedPaper {
    std::optional<Seconds> duration; ///< as the cover states it
    std::optional<Marks> total;      ///< the marks that the paper says it has
    std::vector<PrintedPart> parts;  ///< in reading order
    std::vector<PrintedQuestion> questions;
    std::vector<Doubt> doubts;            ///< none: all marks were read and agree with every total stated
    std::vector<PrintedPart> guessed{};   ///< where there are no parts: what little speaks for, none sure
    std::vector<PrintedChoice> choices{}; ///< each of questions of equal marks; one with others is a doubt
};

/// What a question's parts have together, as far as their marks were read.
Marks marks_of(const PrintedPaper& paper, const PrintedQuestion& question);

/// Whether a part's marks can't be relied on: its question is in doubt, or the paper is and no total of the
/// question meets them.
bool is_doubtful(const PrintedPaper& paper, const PrintedPart& part);

/// The choice that a question belongs to, with a letter for its group.
std::optional<QuestionChoice> choice_of(const PrintedPaper& paper, std::string_view question);

/// Finds questions, parts and marks by what the words say and where they stand. A document that isn't a
/// question paper gives one without parts.
PrintedPaper recognise_paper(const std::vector<PrintedPage>& pages);

/// What a mark scheme says of a part.
struct PrintedSchemePart {
    std::string label;
    std::string codes; ///< `M1 A1`; empty: none in a column
};

struct PrintedScheme {
    std::vector<PrintedSchemePart> parts;
    std::vector<PrintedQuestion> questions; ///< their strips; `parts` and `total` are left empty
    std::vector<Doubt> doubts;
};

/// Finds in a printed mark scheme what belongs to each question of the paper, and its codes if they are
/// printed in a column and add up to the part's marks.
PrintedScheme recognise_scheme(const std::vector<PrintedPage>& pages, const PrintedPaper& paper);

} // namespace inkturn
