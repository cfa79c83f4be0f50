#include "exchange/pdf/questions.hpp"

#include "exchange/pdf/margins.hpp"
#include "exchange/pdf/page_raster.hpp"
#include "exchange/pdf/question_picture.hpp"
#include "exchange/picture/png_write.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

std::vector<std::size_t> pages_of(const std::vector<PrintedQuestion>& questions) {
    std::set<std::size_t> pages;
    for (const PrintedQuestion& question : questions)
        for (const PageStrip& strip : question.strips)
            pages.insert(strip.page);
    return {pages.begin(), pages.end()};
}

/// Cuts one question after the other, in the same memory.
class Cutter {
  public:
    Cutter(const std::string& file, const std::vector<PrintedPage>& pages,
           const std::vector<PrintedQuestion>& questions)
        : pages_(pages), drawn_(file, pages_of(questions)) {}

    std::vector<Picture> pictures_of(const PrintedQuestion& question) {
        strips_.resize(std::max(strips_.size(), question.strips.size()));
        for (std::size_t i = 0; i < strips_.size(); ++i) {
            if (i < question.strips.size())
                cut(question.strips[i], strips_[i]);
            else
                strips_[i].height = 0;
        }
        paint_question(strips_, QuestionCut{pixels_per_mm}, painted_);
        std::vector<Picture> pictures;
        for (const Raster& raster : painted_)
            pictures.push_back(png_picture(raster));
        return pictures;
    }

  private:
    void cut(const PageStrip& strip, Raster& to) {
        const Raster& page = drawn_.page(strip.page);
        const PrintedPage& printed = pages_.at(strip.page);
        const PageStrip inner =
            within_crop_marks(between_margins(strip, printed), printed, page, pixels_per_point);
        copy_strip(page, cut_between_ink(page, inner, pixels_per_point), pixels_per_point, to);
    }

    const std::vector<PrintedPage>& pages_;
    PageRasters drawn_;
    std::vector<Raster> strips_; ///< those that the question doesn't have are without height
    std::vector<Raster> painted_;
};

} // namespace

std::vector<QuestionPictures> cut_questions(const std::string& file, const std::vector<PrintedPage>& pages,
                                            const std::vector<PrintedQuestion>& questions,
                                            const PageCount& count) {
    Cutter cutter(file, pages, questions);
    std::vector<QuestionPictures> cut;
    for (const PrintedQuestion& question : questions) {
        if (!question.strips.empty())
            count(question.strips.front().page, pages.size());
        std::vector<Picture> pictures = cutter.pictures_of(question);
        if (!pictures.empty())
            cut.push_back({question.label, std::move(pictures)});
    }
    return cut;
}

} // namespace inkturn
