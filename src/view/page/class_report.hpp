#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/grades/class_standing.hpp"
#include "inkturn/statistics/comparison.hpp"
#include "view/page/report_topics.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What a report on a class and one paper rests on. The page names no candidate, and shows no part that
/// counted for so few that it gives_marks_away(). All texts are plain: the page escapes them. Where there is
/// nothing, the page says so.
struct ClassReport {
    Side side;            ///< the paper, and a sitting each
    std::string of_class; ///< empty: all on file
    Day day;              ///< on which it was made
    /// Members of the class without a sitting of the paper: those said to have been absent, and the others.
    struct NotSat {
        std::size_t absent = 0;
        std::size_t others = 0;
    };
    std::optional<NotSat> not_sat{}; ///< nothing without a class
    std::vector<BoundarySet> sets;   ///< of which those that fit are shown
    ReportTopics topics;             ///< of all the subject's papers, the costliest first
    std::string counts;              ///< which sittings count: a sentence
};

/// A page of HTML that stands alone, for a phone, a desk and two sides of A4.
std::string to_html(const ClassReport& report);

} // namespace inkturn
