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

// Figures of plain data. The id of each drawing is of letters, digits and `-`, and no two of a page share it.
// Where there is nothing to draw the frame is drawn empty.

/// The marks of one sitting by phase; together at most max.
struct InkBar {
    std::string paper;
    Day day;
    Marks max; ///< above 0
    Marks in_time;
    Marks overtime;
    Marks corrected;
};

/// The inks stacked, an upright bar a sitting, as shares of its paper's marks. Of more than max_ink_bars the
/// last ones are drawn; the table holds all.
constexpr std::size_t max_ink_bars = 16;
Chart ink_chart(const std::string& id, const std::vector<InkBar>& bars, const std::vector<GradeBand>& bands);

/// The course of one sitting.
struct Pace {
    std::vector<ClockPoint> points; ///< as in ClockRecord
    Seconds allowance;              ///< above 0
    Marks marks;                    ///< of all the parts
};

/// Marks left behind against minutes worked, the marks that the clock pays for, and the change of ink where
/// the allowance was used. Working time: breaks take no room.
Chart pace_chart(const std::string& id, const Pace& pace);

/// A share with its interval.
struct TopicShare {
    std::string topic;
    double share;      ///< of own marks, 0 to 1
    double low;        ///< 0 to high
    double high;       ///< at most 1; the share may lie outside
    std::size_t parts; ///< that it is drawn from
};

/// A row a topic in the order given: the share as a dot, the interval as a line. Of more than max_topics the
/// first ones are drawn; the table holds all.
constexpr std::size_t max_topics = 40;
Chart topics_chart(const std::string& id, const std::vector<TopicShare>& topics);

/// Two bars a turn, done and got. Of more than max_turns the first ones are drawn; the table holds all.
constexpr std::size_t max_turns = 12;
Chart turns_chart(const std::string& id, const std::vector<TurnCount>& turns);

/// What a class earned of one part, own marks.
struct PartEarned {
    std::string part; ///< its label
    Marks max;        ///< above 0
    Marks earned;     ///< by all candidates together, 0 to as many times max
};

/// A row a part in the order given: the mean share as a bar, what was lost after it, and the mean marks lost.
/// Of more than max_part_rows the first ones are drawn; the table holds all.
constexpr std::size_t max_part_rows = 60;
Chart parts_chart(const std::string& id, const std::vector<PartEarned>& parts, std::size_t candidates);

/// Totals of a class in one paper.
struct TotalsSpread {
    std::vector<Marks> totals; ///< in any order, each 0 to max
    Marks max;                 ///< above 0
    std::vector<GradeBand> bands;
};

/// How many totals lie in each of some bins of round width, with the bands upright.
Chart spread_chart(const std::string& id, const TotalsSpread& spread);

} // namespace inkturn
