#include "view/page/booklet_sheets.hpp"

#include "view/page/marks_boxes.hpp"
#include "view/page/sheet_size.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr Millimetres line_height{10};
constexpr Millimetres height_of_sheet{258};  ///< between the line at its head and its foot, on A4
constexpr Millimetres height_of_how{14};     ///< what a candidate's first sheet says about working
constexpr Millimetres height_of_heading{22}; ///< of a retry, with what is said of it and the gap above
constexpr Millimetres height_continued{10};  ///< the heading of a piece that goes on
constexpr Millimetres height_of_finding{14}; ///< where to find a question without a picture
constexpr Millimetres gap_below_picture{3};
constexpr int max_working_lines = 16;
constexpr int fewest_working_lines = 4;

Millimetres height_of_head(const BookletItem& item) {
    const Millimetres head = std::max(height_of_heading, height_of_boxes(item.retry) + Millimetres(4));
    return item.question.empty() ? head + height_of_finding : head;
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
    explicit RetryCutter(const BookletItem& item) : item_(item), height_(height_of_head(item)) {}

    CutRetry cut() {
        for (std::size_t i = 0; i < item_.question.size(); ++i) {
            make_room(printed_height(*item_.question[i]) + gap_below_picture, i);
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
        if (height_ + more > on_sheet(height_of_sheet) && !is_empty) {
            finish();
            piece_ = {&item_, false, false, next_picture, next_picture};
            height_ = height_continued;
        }
        height_ += more;
    }

    void finish() {
        cut_.pieces.push_back(piece_);
        cut_.heights.push_back(height_);
    }

    const BookletItem& item_;
    SheetPiece piece_{&item_, true, false, 0, 0};
    Millimetres height_;
    CutRetry cut_;
};

} // namespace

int min_working_lines(const Retry& retry) {
    return std::clamp(retry.paper_question().marks.count(), fewest_working_lines, max_working_lines);
}

std::vector<BookletSheet> booklet_sheets(const BookletOfCandidate& candidate) {
    std::vector<BookletSheet> sheets;
    const Millimetres sheet_height = on_sheet(height_of_sheet);
    Millimetres used = sheet_height;
    for (const BookletItem& item : candidate.items) {
        const CutRetry cut = RetryCutter(item).cut();
        for (std::size_t i = 0; i < cut.pieces.size(); ++i) {
            if (sheets.empty() || i > 0 || used + cut.heights[i] > sheet_height ||
                (cut.pieces.size() > 1 && !sheets.back().empty())) {
                used = sheets.empty() ? height_of_how : Millimetres(0);
                sheets.emplace_back();
            }
            sheets.back().push_back(cut.pieces[i]);
            used += cut.heights[i];
        }
    }
    return sheets;
}

} // namespace inkturn
