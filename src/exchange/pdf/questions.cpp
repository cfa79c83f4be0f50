#include "exchange/pdf/questions.hpp"

#include "exchange/pdf/page_raster.hpp"
#include "exchange/picture/png_write.hpp"
#include "inkturn/printed/question_picture.hpp"

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

std::vector<Picture> pictures_of(const PrintedQuestion& question, const std::vector<PrintedPage>& pages,
                                 PageRasters& drawn) {
    std::vector<Raster> strips;
    for (const PageStrip& strip : question.strips) {
        const Raster& page = drawn.page(strip.page);
        const PageStrip inner = between_margins(strip, pages.at(strip.page));
        strips.push_back(strip_of(page, cut_between_ink(page, inner, pixels_per_point), pixels_per_point));
    }
    std::vector<Picture> pictures;
    for (const Raster& raster : question_pictures(std::move(strips), QuestionCut{pixels_per_mm}))
        pictures.push_back(png_picture(raster));
    return pictures;
}

} // namespace

std::vector<QuestionPictures> cut_questions(const std::string& file, const std::vector<PrintedPage>& pages,
                                            const std::vector<PrintedQuestion>& questions,
                                            const PageCount& count) {
    PageRasters drawn(file, pages_of(questions));
    std::vector<QuestionPictures> cut;
    for (const PrintedQuestion& question : questions) {
        if (!question.strips.empty())
            count(question.strips.front().page, pages.size());
        std::vector<Picture> pictures = pictures_of(question, pages, drawn);
        if (!pictures.empty())
            cut.push_back({question.label, std::move(pictures)});
    }
    return cut;
}

} // namespace inkturn
