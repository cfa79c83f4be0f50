#pragma once

#include "printed/cover.hpp"
#include "printed/marks.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

namespace inkturn::printed {

/// How a paper may be printed.
struct Habit {
    std::size_t form = 0; ///< of marks
    MarksPlace place = MarksPlace::edge;
    Numbering numbering{};
    bool add_up = false;                       ///< several marks at a part are its marks together
    std::optional<CoverStatement<int>> each{}; ///< marks of every question, none being printed at them
};

/// A paper's lines, and what any reading of them begins with.
struct PaperLines {
    explicit PaperLines(Layout of_paper);

    Layout layout;
    MarksOnPaper marks;
    std::vector<LineStart> starts;
    std::vector<StatedChoice> choices;

    std::size_t page_of(std::size_t line) const { return layout.page_of(line); }
    /// The starts as they are if the paper is printed so.
    const std::vector<LineStart>& starts_in(const Habit& habit) const;
    /// What the lines before this one say as a cover.
    const Cover& cover_before(std::size_t line) const;

  private:
    mutable std::map<std::size_t, Cover> covers;
    mutable std::map<std::size_t, std::vector<LineStart>> starts_after_marks; ///< by their form
};

/// What a paper says if it is printed so.
struct PaperReading {
    const PaperLines* lines;
    Habit habit{};
    PrintedPaper paper{}; ///< without strips
    std::vector<QuestionLabels> questions{};
    MarksChosen marks{};
    double score = 0; ///< of two readings the higher one is kept
};

/// What are marks if it is printed so.
MarksChosen marks_of(const PaperLines& lines, const Habit& habit);

PaperReading read_as(const PaperLines& lines, const Habit& habit);

/// Completes the paper of the reading that is kept.
void complete(PaperReading& reading);

} // namespace inkturn::printed
