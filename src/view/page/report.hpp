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

/// What a candidate's report shows. All texts are plain: the page escapes them. What is empty is left out or
/// said to be so.
struct Report {
    /// The course of the last sitting that was sat against the clock.
    struct LastPace {
        std::string paper;
        Day day;
        Pace pace;
    };
    struct DayAhead {
        Day day;
        Seconds planned;                ///< by the items
        Seconds available;              ///< 0: a day off
        std::vector<std::string> items; ///< what to do, in the order in which to do it
    };

    std::string candidate;
    Day day;                      ///< on which it was made
    std::vector<InkBar> sittings; ///< the oldest first
    std::vector<GradeBand> bands; ///< from the top grade down; empty where no boundary set fits
    std::optional<LastPace> pace;
    std::vector<ReportTopic> topics; ///< the one to look at first in front
    HtmlTable standing;              ///< without rows where there is none
    std::vector<TurnCount> turns;
    std::vector<DayAhead> days; ///< the next two weeks
};

/// A page of HTML that stands alone, for a phone, a desk and A4.
std::string to_html(const Report& report);

} // namespace inkturn
