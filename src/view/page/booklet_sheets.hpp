#pragma once

#include "inkturn/base/length.hpp"
#include "view/page/booklet.hpp"

#include <cstddef>
#include <vector>

namespace inkturn {

/// What of a retry stands on one sheet.
struct SheetPiece {
    const BookletItem* item;
    bool is_first;             ///< has the heading and the boxes for marks
    bool is_last;              ///< has the space for working
    std::size_t first_picture; ///< positions in BookletItem::question
    std::size_t end_picture;
};

using BookletSheet = std::vector<SheetPiece>;

/// Ruled lines for working that a retry has at least, a centimetre apart: one a mark, 4 to 16. What is left
/// of a sheet is shared between its retries by their marks.
int min_working_lines(const Retry& retry);

/// The sheets of A4 of a candidate's retries, in their order: as many on one as have room. One whose pictures
/// and lines need more than a sheet begins on a sheet of its own. The candidate must outlive them.
std::vector<BookletSheet> booklet_sheets(const BookletOfCandidate& candidate,
                                         PrintSize size = PrintSize::usual);

} // namespace inkturn
