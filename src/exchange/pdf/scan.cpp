#include "exchange/pdf/scan.hpp"

#include "exchange/pdf/program.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>

namespace inkturn {
namespace {

constexpr int usual_resolution = 300; ///< pixels per inch, as are the next two
constexpr int least_resolution = 100;
constexpr int most_resolution = 400;
constexpr int max_edge = 20'000; ///< pixels
constexpr std::size_t columns = 12;

using Row = std::array<std::string_view, columns>;

/// Takes the text before a mark, and the mark, off the start.
std::string_view take_until(std::string_view& left, char mark) {
    const std::size_t end = std::min(left.find(mark), left.size());
    const std::string_view taken = left.substr(0, end);
    left.remove_prefix(std::min(end + 1, left.size()));
    return taken;
}

/// The box in the columns left, top, width and height.
std::optional<PrintedBox> box_of(const Row& row, PixelsPerPoint scale) {
    std::array<Points, 4> edges;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const auto number = read_whole_number(row[6 + i], max_edge);
        if (!number)
            return std::nullopt;
        edges[i] = Pixels(static_cast<double>(*number)) / scale;
    }
    return PrintedBox{edges[0], edges[1], edges[0] + edges[2], edges[1] + edges[3]};
}

/// Whether tesseract trusts what it read, of 100: text along the page's sides and figures come out as words
/// that it doesn't.
bool is_trusted(std::string_view confidence) {
    constexpr int least = 70;
    return read_whole_number(confidence.substr(0, confidence.find('.')), 100).value_or(0) >= least;
}

bool is_strokes(std::string_view text) {
    return text.find_first_not_of("|~_-'`\"\xE2\x80\x94\x98\x99") == std::string_view::npos;
}

/// A word of a line, counted back from its last, 0.
std::string_view word_from_end(std::string_view line, int back) {
    std::string_view word;
    for (; back >= 0; --back) {
        line = line.substr(0, line.find_last_not_of(" \r") + 1);
        const std::size_t blank = line.find_last_of(' ');
        word = line.substr(blank == std::string_view::npos ? 0 : blank + 1);
        line.remove_suffix(word.size());
    }
    return word;
}

/// Pixels per inch of a page's finest picture, so that it is read as it was scanned.
int resolution_of(const std::string& file, const std::string& number) {
    const ProgramResult result =
        run_program({"pdfimages", "-list", "-f", number, "-l", number, file_argument(file)}, poppler_package);
    int finest = 0;
    for (std::string_view left = result.output; !left.empty();)
        finest =
            std::max(finest, read_whole_number(word_from_end(take_until(left, '\n'), 3), 9999).value_or(0));
    return finest == 0 ? usual_resolution : std::clamp(finest, least_resolution, most_resolution);
}

std::string drawn_page(const std::string& file, const std::string& number, int resolution) {
    const ProgramResult result =
        run_program({"pdftoppm", "-q", "-gray", "-r", std::to_string(resolution), shown_page_only, "-f",
                     number, "-l", number, file_argument(file)},
                    poppler_package);
    if (result.code != 0 || result.output.empty())
        throw Error("page " + number + " could not be drawn: the PDF is damaged; use a fresh copy");
    return result.output;
}

} // namespace

std::vector<PrintedWord> parse_tesseract_words(std::string_view tsv, PixelsPerPoint scale) {
    std::vector<PrintedWord> words;
    std::optional<PrintedBox> line;
    while (!tsv.empty()) {
        std::string_view left = take_until(tsv, '\n');
        Row row;
        for (std::string_view& cell : row)
            cell = take_until(left, '\t');
        const auto box = box_of(row, scale);
        if (row[0] == "4")
            line = box;
        const std::string_view text = row[11];
        if (row[0] == "5" && box && line && is_trusted(row[10]) && !text.empty() && is_utf8(text) &&
            !is_strokes(text))
            words.push_back({std::string(text), {box->left, line->top, box->right, line->bottom}});
    }
    return words;
}

std::vector<PrintedPage> read_scanned_pages(const std::string& file, std::vector<PrintedPage> pages,
                                            const PageCount& count) {
    if (pages.size() > max_scanned_pages)
        throw Error("the document is a scan of " + std::to_string(pages.size()) + " pages, and " +
                    std::to_string(max_scanned_pages) +
                    " are read: print only the paper's pages to a PDF and use that");
    ::setenv("OMP_THREAD_LIMIT", "1", 0); // tesseract's threads wait for each other in loops
    for (std::size_t page = 0; page < pages.size(); ++page) {
        count(page, pages.size());
        const std::string number = std::to_string(page + 1);
        const int resolution = resolution_of(file, number);
        const std::string picture = drawn_page(file, number, resolution);
        ProgramStreams streams;
        streams.input = picture;
        const ProgramResult result = run_program(
            {"tesseract", "stdin", "stdout", "--dpi", std::to_string(resolution), "--psm", "6", "tsv"},
            "tesseract-ocr, as the document has no text and may be a scan", {}, streams);
        if (result.code != 0)
            throw Error("tesseract could not read page " + number +
                        ": use a clearer scan, or type the parts with 'inkturn paper add'");
        pages[page].words = parse_tesseract_words(result.output, PixelsPerPoint(resolution / 72.0));
    }
    return pages;
}

} // namespace inkturn
