#pragma once

#include "exchange/picture/raster.hpp"
#include "inkturn/printed/page.hpp"

#include <vector>

namespace inkturn {

/// How a question is cut from its pages. Lengths are those on the paper.
struct QuestionCut {
    PixelsPerMillimetre scale;
    Millimetres max_blank{6};  ///< of rows without ink; longer blanks
    Millimetres blank_left{3}; ///< are cut to this
    /// Narrower ones are widened with white on the right, so that all are shown at one scale.
    Millimetres min_width{150};
    double max_height_ratio = 1.1; ///< height to width, if there is a blank to break at before that
};

/// The strip without what is at the edges of a drawn page that has crop marks, thin lines in all four of its
/// corners: nothing that touches the columns and rows of words.
PageStrip within_crop_marks(const PageStrip& strip, const PrintedPage& page, const Raster& drawn,
                            PixelsPerPoint scale);

/// A question's strips, in reading order and all drawn at one resolution, as one picture or, if that is too
/// tall for a page, as several, broken between lines. White margins are removed on all sides, left and right
/// by the same amount on all strips; long blanks are shortened. Lines to write on are removed (two or more
/// ruled or dotted lines, evenly spaced, with nothing between them), and so are a frame's upright line at the
/// far left or right and whatever sticks into a strip from above or below by less than 1 mm. No other ink is
/// lost. Strips without ink give no picture. Frames are wiped off the strips themselves. `pictures` may hold
/// those of another question, which are painted over.
void paint_question(std::vector<Raster>& strips, const QuestionCut& cut, std::vector<Raster>& pictures);

} // namespace inkturn
