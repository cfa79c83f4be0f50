#pragma once

#include "inkturn/printed/page.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

using Words = std::vector<const PrintedWord*>;

/// Words on one height of a page, left to right.
struct Line {
    Words words;            ///< not empty
    PrintedBox box;         ///< round all of them
    Points height;          ///< of its ordinary words
    std::size_t region = 0; ///< position in Layout::regions

    Points middle() const { return (box.top + box.bottom) / 2; }
};

/// The lines of words of one page, from top to bottom. Words share a line by how much of their heights they
/// share; small ones, such as exponents, and tall ones go to the line that they are beside.
std::vector<Line> lines_of(const Words& words);

/// A piece of a line's text with blanks between words, and the words that it came from.
struct LineText {
    std::string text;
    std::size_t first = 0;            ///< position of its first word in the line
    std::vector<std::size_t> offsets; ///< where in the text each word begins

    /// The position in the line of the word in which a byte of the text stands.
    std::size_t word_at(std::size_t offset) const;
};

/// The text of the words from the one at `first` to before the one at `end`.
LineText text_of_words(const Line& line, std::size_t first, std::size_t end);
/// The text of at most so many words at the line's start; of each no more bytes than a printed word has.
LineText text_from_start(const Line& line, std::size_t max_words = 24);
/// The same at the line's end.
LineText text_to_end(const Line& line, std::size_t max_words = 24);

/// The blank before a word of the line; infinite where it is the first, or where there are only dots to write
/// on before it.
Points gap_before(const Line& line, std::size_t word);

/// Whether there is nothing in it but dots, rules or other marks to write on.
bool is_answer_line(const Line& line);

/// A place where text is read from top to bottom: a page between its head and its foot, or a piece of a
/// column.
struct Region {
    std::size_t page;
    PrintedBox box;
    enum class Side : unsigned char { whole, left, right } side = Side::whole;
};

/// How far text is to the right of where it would be in the left column, or on the whole, of a page of even
/// position.
struct Shifts {
    std::array<Points, 6> points{}; ///< by index()

    static std::size_t index(const Region& region) {
        return 2 * static_cast<std::size_t>(region.side) + region.page % 2;
    }
    Points of(const Region& region) const { return points[index(region)]; }
};

/// A document in reading order, without running heads and feet.
struct Layout {
    std::vector<Region> regions;
    std::vector<Line> lines;

    const Region& region_of(const Line& line) const { return regions[line.region]; }
    std::size_t page_of(std::size_t line) const { return region_of(lines[line]).page; }
    /// The next line of its region; null: there is none.
    const Line* below(std::size_t line) const {
        const bool has_next = line + 1 < lines.size() && lines[line + 1].region == lines[line].region;
        return has_next ? &lines[line + 1] : nullptr;
    }
};

enum class Columns : unsigned char {
    told, ///< text in two columns is read column by column
    none  ///< each page is read as a table
};

Layout layout_of(const std::vector<PrintedPage>& pages, Columns columns);

/// What a page is without its running head and foot.
struct PageBody {
    std::vector<Line> lines;
    Points top;
    Points bottom;
};

/// Words to the candidate about the pages, which belong to no question wherever they stand.
bool is_notice(const Line& line);

/// Takes away what is at the same place on many pages, page numbers and notices in heads and feet.
std::vector<PageBody> without_running(const std::vector<PrintedPage>& pages,
                                      std::vector<std::vector<Line>> lines);

/// Cuts the pages into regions, in reading order, without notices.
Layout regions_of(const std::vector<PrintedPage>& pages, std::vector<PageBody> bodies, Columns columns);

} // namespace inkturn::printed
