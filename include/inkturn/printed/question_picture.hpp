#pragma once

#include "inkturn/printed/page.hpp"
#include "inkturn/printed/raster.hpp"

#include <vector>

namespace inkturn {

/// How a question is cut from its pages. Lengths are millimetres on the paper.
struct QuestionCut {
    double pixels_per_mm;
    double max_blank = 6;          ///< of rows without ink; where there are more,
    double blank_left = 3;         ///< this is left of them
    double min_width = 150;        ///< narrower ones get white at their right, so that all are shown alike
    double max_height_ratio = 1.1; ///< height to width, where a blank to break at is found before
};

/// The strip without the outermost columns of a page in which words run upwards or downwards, as in a margin
/// that is not to be written in; not where other words reach into them, or a number stands there.
PageStrip between_margins(const PageStrip& strip, const PrintedPage& page);

/// A question's strips, in reading order and all drawn alike, as one picture or, where it is too tall for a
/// sheet, as several that are broken between lines. White margins are taken off at the left and right, by
/// the same measure on all strips, and above and below; long blanks are made short. Lines to write on go: two
/// or more ruled or dotted lines at the same distance with nothing between them; so does a frame's upright
/// line at the outermost left or right, and what sticks into a strip from above or below by less than 1 mm.
/// No other ink is lost. Strips without ink give no picture.
std::vector<Raster> question_pictures(std::vector<Raster> strips, const QuestionCut& cut);

} // namespace inkturn
