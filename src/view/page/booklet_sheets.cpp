#include "view/page/booklet_sheets.hpp"

#include "view/page/marks_boxes.hpp"
#include "view/page/sheet_size.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr Millimetres line_height{10};

/// What the parts of a sheet take.
struct SheetHeights {
    Millimetres sheet;     ///< between the line at its head and its foot, on A4
    Millimetres how;       ///< what a candidate's first sheet says about working
    Millimetres heading;   ///< of a retry, with what is said of it and the gap above
    Millimetres continued; ///< the heading of a piece that goes on
    Millimetres finding;   ///< where to find a question without a picture
};

constexpr SheetHeights usual_heights{Millimetres(258), Millimetres(14), Millimetres(22), Millimetres(10),
                                     Millimetres(14)};
/// What is said stands above the boxes for marks, not beside them.
constexpr SheetHeights large_heights{Millimetres(240), Millimetres(46), Millimetres(46), Millimetres(20),
                                     Millimetres(20)};

constexpr SheetHeights heights_of(PrintSize size) {
    return by_size(size, usual_heights, large_heights);
}
constexpr Millimetres gap_below_picture{3};
constexpr int max_working_lines = 16;
constexpr int fewest_working_lines = 4;

Millimetres height_of_head(const BookletItem& item, PrintSize size) {
    const SheetHeights of = heights_of(size);
    const Millimetres boxes = height_of_boxes(item.retry, size) + Millimetres(4);
    const Millimetres head = by_size(size, std::max(of.heading, boxes), of.heading + boxes);
    return item.question.empty() ? head + of.finding : head;
}

Millimetres height_of_lines(const BookletItem& item) {
    return line_height * static_cast<double>(min_working_lines(item.retry));
}

/// Cuts a retry into the pieces that fit a sheet each; `heights` are theirs.
struct CutRetry {
    std::vector<SheetPiece> pieces;
    std::vector<Millimetres> heights;
};

class RetryCutter {
  public:
    RetryCutter(const BookletItem& item, PrintSize size)
        : item_(item), size_(size), height_(height_of_head(item, size)) {}

    CutRetry cut() {
        for (std::size_t i = 0; i < item_.question.size(); ++i) {
            make_room(printed_height(*item_.question[i], size_) + gap_below_picture, i);
            piece_.end_picture = i + 1;
        }
        make_room(height_of_lines(item_), item_.question.size());
        piece_.is_last = true;
        finish();
        return std::move(cut_);
    }

  private:
    /// Goes on to a further sheet if what comes doesn't fit this one.
    void make_room(Millimetres more, std::size_t next_picture) {
        const bool is_empty = !piece_.is_first && piece_.first_picture == piece_.end_picture;
        if (height_ + more > on_sheet(heights_of(size_).sheet) && !is_empty) {
            finish();
            piece_ = {&item_, false, false, next_picture, next_picture};
            height_ = heights_of(size_).continued;
        }
        height_ += more;
    }

    void finish() {
        cut_.pieces.push_back(piece_);
        cut_.heights.push_back(height_);
    }

    const BookletItem& item_;
    PrintSize size_;
    SheetPiece piece_{&item_, true, false, 0, 0};
    Millimetres height_;
    CutRetry cut_;
};

} // namespace

int min_working_lines(const Retry& retry) {
    return std::clamp(retry.paper_question().marks.count(), fewest_working_lines, max_working_lines);
}

std::vector<BookletSheet> booklet_sheets(const BookletOfCandidate& candidate, PrintSize size) {
    std::vector<BookletSheet> sheets;
    const SheetHeights of = heights_of(size);
    const Millimetres sheet = on_sheet(of.sheet);
    Millimetres used = sheet;
    for (const BookletItem& item : candidate.items) {
        const CutRetry cut = RetryCutter(item, size).cut();
        for (std::size_t i = 0; i < cut.pieces.size(); ++i) {
            if (sheets.empty() || i > 0 || used + cut.heights[i] > sheet ||
                (cut.pieces.size() > 1 && !sheets.back().empty())) {
                used = sheets.empty() ? of.how : Millimetres(0);
                sheets.emplace_back();
            }
            sheets.back().push_back(cut.pieces[i]);
            used += cut.heights[i];
        }
    }
    return sheets;
}

} // namespace inkturn
