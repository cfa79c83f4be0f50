#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"
#include "view/figure/figures.hpp"
#include "view/page/html_table.hpp"
#include "view/page/report_topics.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What a candidate's report shows. All texts are plain: the page escapes them. Where there is nothing, it is
/// left out or the page says so.
struct Report {
    /// The pace of the last sitting that was timed.
    struct LastPace {
        std::string paper;
        Day day;
        PaceCurve pace;
    };
    struct DayAhead {
        Day day;
        Seconds planned;                ///< for the items
        Seconds available;              ///< 0: a day off
        std::vector<std::string> items; ///< exams and lessons, then what to do, in order
    };

    std::string candidate;
    std::string name{};            ///< empty: none is given
    Day day;                       ///< on which the report was made
    std::vector<std::string> next; ///< what to do next, a paragraph each
    std::vector<InkBar> sittings;  ///< the oldest first
    std::vector<GradeBand> bands;  ///< from the top grade down; empty if no boundary set fits
    std::optional<LastPace> pace;
    ReportTopics topics; ///< the one to look at first leads
    HtmlTable standing;  ///< without rows if there is none
    HtmlTable awards{};  ///< likewise
    std::vector<TurnCount> turns;
    std::vector<DayAhead> days; ///< the next two weeks
};

/// A page of HTML that stands alone, for a phone, a desk and A4.
std::string to_html(const Report& report);

} // namespace inkturn
