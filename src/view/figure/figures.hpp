#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/clock/clock.hpp"
#include "inkturn/grades/boundaries.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/statistics/trend.hpp"
#include "view/figure/chart.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

// Figures of plain data. The id of a drawing has letters, digits and `-`, and is unique on its page. If there
// is nothing to draw, the frame stays empty.

/// The marks of one sitting by phase; together at most max.
struct InkBar {
    std::string paper;
    Day day;
    Marks max; ///< above 0
    Marks in_time;
    Marks overtime;
    Marks corrected;
    bool drawn = false; ///< its paper was drawn: no boundaries are for it
};

/// One upright bar per sitting, its inks stacked as shares of the paper's marks. Only the last max_ink_bars
/// are drawn; the table holds all.
constexpr std::size_t max_ink_bars = 16;
Chart ink_chart(const std::string& id, const std::vector<InkBar>& bars, const std::vector<GradeBand>& bands);

/// The pace of one sitting.
struct PaceCurve {
    std::vector<ClockPoint> points; ///< as in ClockRecord
    Seconds allowance;              ///< above 0
    Marks marks;                    ///< of all the parts
};

/// Marks done against minutes worked, the marks expected, and the change of ink if the allowance was used up.
/// Breaks are left out.
Chart pace_chart(const std::string& id, const PaceCurve& pace);

/// A share with its interval.
struct TopicShare {
    std::string topic;
    double share;      ///< of marks in time, to be expected; 0 to 1
    double low;        ///< 0 to high
    double high;       ///< at most 1; the share may lie outside
    std::size_t parts; ///< that it comes from
};

/// One row per topic in the order given: the share as a dot, the interval as a line. Only the first
/// max_topics are drawn; the table holds all.
constexpr std::size_t max_topics = 40;
Chart topics_chart(const std::string& id, const std::vector<TopicShare>& topics);

/// Two bars per turn, done and got. Only the first max_turns are drawn; the table holds all.
constexpr std::size_t max_turns = 12;
Chart turns_chart(const std::string& id, const std::vector<TurnCount>& turns);

/// Unaided marks that a class earned in one part.
struct PartEarned {
    std::string part;                     ///< its label
    Marks max;                            ///< above 0
    Marks earned;                         ///< by those together for whom it counted, 0 to max for each
    std::optional<std::size_t> counted{}; ///< how many they are, above 0; nothing: all candidates
    bool is_marked = false;               ///< its label stands out
};

/// One row per part in the order given: the mean share as a bar, the share lost after it, and the mean marks
/// lost. Only the first max_part_rows are drawn; the table holds all.
constexpr std::size_t max_part_rows = 60;
Chart parts_chart(const std::string& id, const std::vector<PartEarned>& parts, std::size_t candidates);

/// A class's totals in one paper.
struct TotalsSpread {
    std::vector<Marks> totals; ///< in any order, each 0 to max
    Marks max;                 ///< above 0
    std::vector<GradeBand> bands;
};

/// How many totals lie in each bin, bins being of round width, with the bands upright.
Chart spread_chart(const std::string& id, const TotalsSpread& spread);

} // namespace inkturn
